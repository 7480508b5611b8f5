// The wide drawing without its ink: connected parts laid out, set side by side, and broken into tiers.
#pragma once

#include <cstdint>
#include <vector>

#include "core/analysis/sequence.hpp"
#include "plugins/sequence/layout.hpp"
#include "plugins/sequence/ranks.hpp"

namespace lathbook::sequence {

/// One connected part of two things or more.
struct Chain {
  std::vector<std::uint32_t> things;
  std::vector<std::uint32_t> relations;  ///< those drawn
  Layout layout;
  double left = 0;
};

/// Chains side by side over bands of their own; the first tier begins with the largest part.
struct Tier {
  std::vector<std::size_t> chains;   ///< into Tiers::chains
  std::vector<double> rules;         ///< x at the left of every column
  std::vector<std::uint32_t> first;  ///< lowest rank of every band, and one past the highest
  double top = 0;                    ///< of its highest rank
  double depth = 0;
};

struct Tiers {
  std::vector<Chain> chains;
  std::vector<Tier> tiers;
  double width = 0;
  double bottom = 0;
  LayoutSize size;
};

/// Tiers are no wider than this, unless one chain alone is.
inline constexpr double kWidestTier = 1500;
inline constexpr double kMargin = 12;
inline constexpr double kBandLabels = 92;  ///< width of the phases' names
inline constexpr double kBetweenColumns = 34;
inline constexpr double kTierHead = 30;

/// Floating chains share a column where their ranks leave room.
Tiers arrange(const Sequence& sequence, const std::vector<std::uint32_t>& drawn);

}  // namespace lathbook::sequence
