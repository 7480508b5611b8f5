// The trade's words for what was done (schemas/trade-words-en.tsv) and the relation each stands for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lathbook::cli {

struct TradeWord {
  std::string word;
  std::string relation;  ///< property of the registry
  std::string roles;     ///< which thing comes first, which second
  bool asks_contact = false;
  std::string how;  ///< for contacts that order nothing
  std::string note;
};

const std::vector<TradeWord>& trade_words();
/// Throws Error(invalid) offering the nearest words.
const TradeWord& trade_word(std::string_view word);

}  // namespace lathbook::cli
