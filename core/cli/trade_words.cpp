#include "core/cli/trade_words.hpp"

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook::cli {

const std::vector<TradeWord>& trade_words() {
  static const std::vector<TradeWord> words = [] {
    std::vector<TradeWord> read;
    for (const auto& line : split(embedded_table("trade-words"), '\n')) {
      if (line.empty() || line.front() == '#') continue;
      const auto cells = split(line, '\t');
      if (cells.size() != 5)
        fail(ErrorKind::corrupt, "the table of trade words has a broken row: " + quote(line));
      TradeWord word{cells[0], cells[1], cells[2], cells[3] == "contact", {}, cells[4]};
      if (cells[3].rfind("how=", 0) == 0) word.how = cells[3].substr(4);
      Registry::standard().named(word.relation);
      read.push_back(std::move(word));
    }
    return read;
  }();
  return words;
}

const TradeWord& trade_word(std::string_view word) {
  std::vector<std::string> known;
  for (const auto& one : trade_words()) {
    if (fold(one.word) == fold(word)) return one;
    known.push_back(one.word);
  }
  const auto near = nearest(word, known);
  fail(ErrorKind::invalid,
       quote(word) + " is not among the trade's words" +
           (near.empty() ? "; see 'lathbook work --list'" : "; did you mean " + join(near, " or ") + "?"));
}

}  // namespace lathbook::cli
