// What analyses return and may ask to have entered: plain values, nothing that needs the plugin alive.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// A statement that a plugin proposes; the core completes, validates and enters it only at the user's word.
struct Draft {
  Content content;
  std::string words;  ///< the proposal in a sentence
};

using AnalysisResult = std::variant<std::monostate, Timeline>;

/// Struct versions named in descriptors ("timeline@1").
inline constexpr int kTimelineVersion = 1;

}  // namespace lathbook
