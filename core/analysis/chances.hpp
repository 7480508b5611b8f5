// The typed result of reckoning chances: dates and orders, each equally likely solution counted. Values only.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"

namespace lathbook {

/// Why no figure is given.
enum class ChanceState : std::uint8_t {
  drawn,      ///< a figure, from draws that mixed
  certain,    ///< decided by the evidence, not by draws
  unbounded,  ///< the evidence leaves one end open; no prior could be stated without inventing it
  not_mixed   ///< the draws do not agree among themselves
};

/// When something began, as far as the evidence and an even prior tell.
struct ChanceDate {
  RecordInfo record;
  int placement = 1;
  int placements = 1;
  ChanceState state = ChanceState::drawn;
  std::optional<Day> not_before;  ///< the hard bounds
  std::optional<Day> not_after;
  Day likely_first = 0;  ///< narrowest stretch that holds 95 in 100 draws; when drawn
  Day likely_last = 0;
  Day middle = 0;  ///< as many draws before as after
  double r_hat = 0;
  double draws = 0;   ///< effective
  std::string words;  ///< a sentence
};

/// Which of two began first.
struct ChanceOrder {
  RecordInfo first;
  RecordInfo second;
  int first_placement = 1;
  int second_placement = 1;
  ChanceState state = ChanceState::drawn;
  double before = 0;  ///< chance that the first began in an earlier year
  double same_year = 0;
  double after = 0;
  double error = 0;  ///< of `before`, one standard error of the drawing
  double r_hat = 0;
  double draws = 0;
  std::optional<std::uint64_t> orders;         ///< allowed by the relations, where dates cannot tell
  std::optional<std::uint64_t> orders_before;  ///< of these, with the first before the second
  std::string words;
};

struct Chances {
  RecordInfo scope;
  Reading reading;
  Level level = Level::possible;
  std::string prior;   ///< in words
  std::string method;  ///< in words: chains, draws, how drawn
  std::uint64_t seed = 0;
  int chains = 0;
  int draws = 0;             ///< of each chain, after those thrown away
  std::size_t instants = 0;  ///< drawn together
  std::size_t left_out = 0;  ///< joined to them, without bounds on both sides
  std::vector<std::string> cautions;
  std::vector<ChanceDate> dates;    ///< by middle or bound, then code
  std::vector<ChanceOrder> orders;  ///< those asked for
};

}  // namespace lathbook
