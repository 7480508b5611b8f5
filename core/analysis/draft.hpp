// A statement that is proposed and not yet made: plain values, nothing that needs the plugin alive.
#pragma once

#include <string>

#include "core/evidence/statement.hpp"

namespace lathbook {

/// What a plugin proposes; the core completes, validates and enters it only at the user's word.
struct Draft {
  Content content;
  std::string words;  ///< the proposal in a sentence
};

}  // namespace lathbook
