// Streamed XML 1.0 that cannot be written unescaped, unbalanced or in bytes that are not UTF-8.
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// Writes one document to a stream that outlives it. Calls in the wrong order and names, characters or
/// bytes that XML 1.0 (fifth edition) forbids throw Error(invalid); nothing of the refused call is
/// written. Output is gathered in 64 KiB pieces; a failed stream throws Error(io) at the next piece or
/// at finish(). One thread at a time. Names are ASCII: a letter or '_', then letters, digits, '-', '.',
/// '_', with at most one ':' between two such names.
class LATHBOOK_API XmlWriter {
public:
  enum class Layout { compact, indented };

  /// Writes the XML declaration. Indented: each element on its own line, two spaces a level; once
  /// an element has text, even an empty one, no white space is added inside it, so give mixed content
  /// its text("") first.
  explicit XmlWriter(std::ostream& out, Layout layout = Layout::indented);
  /// Writes nothing more: an unfinished document stays recognisably unfinished.
  ~XmlWriter();
  XmlWriter(const XmlWriter&) = delete;
  XmlWriter& operator=(const XmlWriter&) = delete;

  XmlWriter& start(std::string_view name);
  /// Only straight after start(); a name given twice throws.
  XmlWriter& attribute(std::string_view name, std::string_view value);
  /// Empty text writes nothing but makes <a></a> of <a/>.
  XmlWriter& text(std::string_view value);
  XmlWriter& end();
  /// start, text, end; and start, end.
  XmlWriter& element(std::string_view name, std::string_view value);
  XmlWriter& empty(std::string_view name);
  /// Ends the document: every element must be closed. Flushes the stream.
  void finish();

  /// Depth of open elements.
  std::size_t depth() const { return open_.size(); }
  /// Whether XML 1.0 can hold this text (well-formed UTF-8, allowed characters); what cannot be held the
  /// caller must encode.
  static bool can_hold(std::string_view text);

private:
  struct Open {
    std::string name;
    bool has_text = false;
    bool has_children = false;
  };
  void close_tag();
  void new_line(std::size_t depth);
  void spill();

  std::ostream& out_;
  std::string buffer_;
  std::vector<Open> open_;
  std::vector<std::string> attributes_;
  Layout layout_;
  bool tag_open_ = false;
  bool root_done_ = false;
  bool finished_ = false;
};

}  // namespace lathbook
