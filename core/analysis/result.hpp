// What analyses return. A struct whose answer a person may accept has a member
// `std::vector<Draft> proposals` (core/analysis/draft.hpp); core/analysis/proposals.hpp finds it.
#pragma once

#include <variant>

#include "core/analysis/chances.hpp"
#include "core/analysis/draft.hpp"
#include "core/analysis/finish_layers.hpp"
#include "core/analysis/label_reading.hpp"
#include "core/analysis/lifting_limit.hpp"
#include "core/analysis/mark_reading.hpp"
#include "core/analysis/piece_accounts.hpp"
#include "core/analysis/placing.hpp"
#include "core/analysis/sequence.hpp"
#include "core/analysis/timeline.hpp"
#include "core/analysis/work_order.hpp"

namespace lathbook {

using AnalysisResult = std::variant<std::monostate, Timeline, FinishLayers, Sequence, Chances, LabelReadings,
                                    MarkReading, PieceAccounts, WorkOrder, LiftingLimit, Placing>;

/// Struct versions named in descriptors ("timeline@2").
inline constexpr int kTimelineVersion = 4;
inline constexpr int kFinishLayersVersion = 1;
inline constexpr int kSequenceVersion = 1;
inline constexpr int kChancesVersion = 1;
inline constexpr int kLabelsVersion = 1;
inline constexpr int kMarkReadingVersion = 1;
inline constexpr int kPieceAccountsVersion = 1;
inline constexpr int kWorkOrderVersion = 2;
inline constexpr int kLiftingLimitVersion = 1;
inline constexpr int kPlacingVersion = 1;

}  // namespace lathbook
