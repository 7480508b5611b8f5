#include "core/cli/piece_words.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "core/cli/context.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::cli {

namespace {

// "H1-26," is a code with the mark of a list; "H1-26..H1-30" is three words.
std::vector<std::string> words_of(const std::vector<std::string>& typed) {
  std::vector<std::string> words;
  for (const auto& argument : typed) {
    std::string spaced;
    for (std::size_t i = 0; i < argument.size(); ++i) {
      const bool dots = argument.compare(i, 2, "..") == 0;
      if (dots) spaced += " to ";
      if (dots)
        ++i;
      else
        spaced += argument[i] == ',' || argument[i] == ';' ? ' ' : argument[i];
    }
    for (const auto& word : split(spaced, ' '))
      if (!trim(word).empty()) words.emplace_back(trim(word));
  }
  return words;
}

bool before(const std::string& a, const std::string& b) {
  return compare_for_people(a, b) < 0;
}

RecordInfo end_of_run(const StatementReader& reader, const std::string& code) {
  const auto record = need_record(reader, code);
  if (record.kind != Kind::piece)
    fail(ErrorKind::invalid, display(record) + " is no piece, so no run of pieces begins or ends with it");
  return record;
}

std::vector<std::string> run_of(const StatementReader& reader, const std::string& from,
                                const std::string& to) {
  const auto first = end_of_run(reader, from), last = end_of_run(reader, to);
  const auto element_of = [&](const RecordInfo& piece) {
    return RecordView::read(reader, piece).record("piece-of");
  };
  const auto element = element_of(first);
  if (!element || element != element_of(last))
    fail(ErrorKind::invalid, display(first) + " and " + display(last) +
                                 " are not pieces of one element, so nothing runs from one to the other");
  const auto& low = before(last.code, first.code) ? last.code : first.code;
  const auto& high = before(last.code, first.code) ? first.code : last.code;
  std::vector<std::string> codes;
  const std::vector<std::uint32_t> wanted{Registry::standard().named("piece-of").id,
                                          Registry::standard().named("fragment-of").id};
  reader.each_record_with(Kind::piece, wanted, [&](const RecordInfo& info, std::vector<Statement>& facts) {
    if (before(info.code, low) || before(high, info.code)) return true;
    const RecordView view{info, facts};
    if (view.record("piece-of") == element && !view.record("fragment-of")) codes.push_back(info.code);
    return true;
  });
  if (before(last.code, first.code)) std::reverse(codes.begin(), codes.end());
  return codes;
}

}  // namespace

std::vector<std::string> piece_codes(const StatementReader& reader, const std::vector<std::string>& typed) {
  const auto words = words_of(typed);
  std::vector<std::string> codes;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (fold(words[i]) != "to") {
      const bool runs = i + 1 < words.size() && fold(words[i + 1]) == "to";
      if (!runs) codes.push_back(words[i]);
      continue;
    }
    if (i == 0 || i + 1 == words.size())
      fail(ErrorKind::invalid, "a run of pieces has two ends: H1-26 to H1-30");
    for (auto& code : run_of(reader, words[i - 1], words[i + 1])) codes.push_back(std::move(code));
    ++i;
  }
  return codes;
}

}  // namespace lathbook::cli
