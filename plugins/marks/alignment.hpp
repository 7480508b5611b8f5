// The exact cost of a reading against a reference mark, and which letter stands against which.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "plugins/marks/query.hpp"

namespace lathbook::marks {

/// One step of an alignment.
struct Step {
  std::int32_t position = -1;   ///< index into Query::positions; -1: the reference has a letter too many
  std::int32_t reference = -1;  ///< index into the reference's codes; -1: the reading has a letter too many
};

/// Compares one query with many references; keeps its tables. Costs leave out the query's surcharge.
class Aligner {
public:
  explicit Aligner(const Query& query) : query_(query), rows_(cost_rows(query)) {}

  /// Least cost of turning the reading into these codes; some value above `limit` when it exceeds it.
  float cost(std::string_view reference, float limit);
  /// The steps of the cheapest alignment, in the reading's order.
  std::vector<Step> steps(std::string_view reference);

private:
  float extra(std::size_t position) const;
  const Query& query_;
  std::vector<CostRow> rows_;
  std::vector<float> above_;
  std::vector<float> here_;
};

}  // namespace lathbook::marks
