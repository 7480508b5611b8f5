// Lines up the sequences of a place and concludes what may be concluded, and no more.
#pragma once

#include <string>
#include <vector>

#include "plugins/finishes/sequences.hpp"

namespace lathbook::finishes {

/// "coat 4, dark sea green, 5G 3/4"; and "Dining Room dado (E-105.01)".
std::string coat_words(const FinishCoat& coat);
std::string thing_words(const RecordInfo& record);

/// One sequence (younger or as old) against a reference: probabilities, matches, and the finding in words.
FinishAlignment compare(const std::vector<ReadSequence>& sequences, std::size_t reference,
                        std::size_t sequence);

/// The most that a finding about two sequences can be: an on-site scrape on either side makes it possible.
Confidence most_of(const ReadSequence& reference, const ReadSequence& sequence);

/// The sequence that all others of a group are laid against: the one with most coats to compare, then most
/// layers, then the better read, then the first. `wanted` names one by the code of its element or sample;
/// empty = none.
std::size_t choose_reference(const std::vector<ReadSequence>& sequences,
                             const std::vector<std::size_t>& group, const std::string& wanted);

/// Sentences about pairs of a group whose own comparison disagrees with what each gives against the
/// reference.
std::vector<std::string> disagreements(const std::vector<ReadSequence>& sequences, const FinishGroup& group);

/// A finding this probable may be stated.
inline constexpr double kStated = 0.9;
/// With three colours that match, this is enough.
inline constexpr double kStatedByColours = 0.6;
inline constexpr int kColours = 3;

}  // namespace lathbook::finishes
