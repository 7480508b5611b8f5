// What every section of the page is made of: sentences, notes, dates that unfold into their reasons.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/xml_writer.hpp"
#include "plugins/sheet/content.hpp"

namespace lathbook::sheet {

class HtmlParts {
protected:
  HtmlParts(const Sheet& sheet, XmlWriter& out) : sheet_(sheet), out_(out), unfolded_(sheet.whys.size()) {}

  void tag(std::string_view name, std::string_view css);
  void line();
  void section(const std::string& id, std::string_view heading, const std::function<void()>& inside);
  void numbers(const std::vector<int>& notes);
  /// The words of a sentence; `link` makes a link of each date, to its reasons elsewhere on the page.
  void sentence(const Sentence& one, bool link);
  /// A sentence whose dates unfold into their reasons, the first time that they are told.
  void unfolding(const Sentence& one);
  void reasons(std::size_t place);
  void steps(const std::vector<Step>& list, std::string_view sort);
  void entry(const Entry& one);
  void cell(std::string_view label, const std::string& words, std::optional<std::size_t> why);
  void side(std::string_view heading, const std::vector<Step>& list);
  /// A list of sentences under a line of their own; nothing when there are none.
  void listed(std::string_view heading, const std::vector<Sentence>& list);

  const Sheet& sheet_;
  XmlWriter& out_;
  std::vector<bool> unfolded_;  ///< by date: its reasons stand on the page already
};

}  // namespace lathbook::sheet
