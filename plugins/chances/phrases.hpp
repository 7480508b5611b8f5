// Every sentence that the chances are told in.
#pragma once

#include <string>
#include <vector>

#include "core/analysis/chances.hpp"
#include "plugins/chances/runs.hpp"

namespace lathbook::chances {

extern const char* const kPriorWords;
std::string method_words(const Plan& plan);

/// What distances alone say of two beginnings, and how many things their order was counted among.
struct KnownOrder {
  bool first_not_after = false;
  bool first_not_before = false;
  std::size_t things = 0;
};

std::string date_words(const ChanceDate& date);
/// `dates` are those of the two.
std::string order_words(const ChanceOrder& order, const std::vector<ChanceDate>& dates,
                        const KnownOrder& known);
std::string aside_words(std::size_t number);
std::string choices_words(std::size_t number);
std::string left_out_words(std::size_t number);
/// "N-203 Sea-green tile field", with the setting where there are several.
std::string thing_words(const RecordInfo& record, int placement, int placements);

}  // namespace lathbook::chances
