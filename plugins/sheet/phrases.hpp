// The words of the sheet and the rules by which a date is put into words (docs/sheet.md). The English
// of sentences is in words_en.cpp: another language is another table of Words, and other rules here.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/evidence/statement.hpp"
#include "core/view/english.hpp"
#include "plugins/sheet/words.hpp"

namespace lathbook::sheet {

/// Puts texts into the slots of a pattern; an unknown slot stays empty.
std::string fill(std::string_view pattern,
                 std::initializer_list<std::pair<std::string_view, std::string_view>> slots);

/// The bounds of a date in words, without a full stop. `about` is the date that a single approximate
/// statement gives for both ends, empty when there is none: "about 1905 (between 1900 and 1910)".
std::string when(const Span& span, const std::string& about = {});
/// "probable", the weaker of the two known bounds; empty when both are certain.
std::string_view doubt(const Span& span);
/// What else the reader must know of a date: " (probable; may be wider than it need be)", or empty.
/// A date in words as it follows a verb: "on 16 March 2024", "in April 1998"; any other as it is.
std::string when_words(const std::string& date);
std::string caveat(const Span& span);
std::string one_bound(const Bound& bound, bool earliest);

/// "was laid", "were built": what is said of how a thing of this class came in, by the number of its name.
std::string came_in(std::string_view element_class, std::string_view name);
/// "was" or "were".
std::string was(std::string_view name);
std::string_view level_word(Level level);
std::string trusted_words(Level level);
/// "physical evidence, certain".
std::string basis_words(EvidenceClass evidence, Confidence confidence);
}  // namespace lathbook::sheet
