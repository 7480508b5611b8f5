// Sentences from the table of words (schemas/report-en.tsv), with what each stretch of them asserts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/base/message.hpp"
#include "core/evidence/statement.hpp"
#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// Text of the archive made fit to stand in a line: nothing hidden in it, line feeds as blanks.
std::string foreign(std::string_view text);

/// Words for a slot that assert a date, a maker, a room or a count: the sentence keeps that mark.
std::string telling(Tells tells, const std::string& words);
/// Words that point to the heading with this anchor.
std::string pointing(const std::string& anchor, const std::string& words);
/// Such words without their marks.
std::string without_marks(std::string_view words);

/// A word of a choice list as a keyword of a pattern: letters only ("in container" is incontainer); "other"
/// for an empty one.
std::string choice(std::string_view word);
/// The pattern of that key filled in. Throws Error(corrupt) for a key that the table lacks.
std::string phrase(std::string_view key, const MessageValues& values = {});
/// The same as a sentence: first letter capital, marks turned into runs.
Sentence sentence(std::string_view key, const MessageValues& values = {}, const std::vector<int>& notes = {});
/// A sentence of the report about itself.
Sentence remark(std::string_view key, const MessageValues& values = {});
/// Words that may hold marks, as a sentence; a full stop is added where none ends it.
Sentence as_sentence(const std::string& words, const std::vector<int>& notes = {});
/// Words as they are, for a field of a table.
Sentence as_words(const std::string& words, const std::vector<int>& notes = {});

/// The same with its first letter capital.
Sentence as_label(const std::string& words, const std::vector<int>& notes = {});

/// "1890 to 1919", "from 1922", "in 2004" of the details from and to of a name, use or role; empty without
/// them.
std::string period_words(const Statement& said);
/// Adds a name that is not there yet.
void add_once(std::vector<std::string>& names, const std::string& name);
void add_notes(std::vector<int>& notes, const std::vector<int>& more);
/// "a, b and c", of marked words too.
std::string listing(const std::vector<std::string>& words);
Paragraph paragraph(std::vector<Sentence> sentences);

/// When something happened, by the rules of docs/report.md: " in 1924", " by 1911", " in or after 1888",
/// " between 12 June 1924 and 22 March 1926"; empty when nothing bounds it. Marked as a date. `contested` is
/// added where conflicting evidence was set aside.
std::string when(const Span& span, const std::string& about, const std::string& contested);
std::string when(const Span& span, const std::string& about = {});
/// "probably ", "possibly " by the weaker evidence of the two bounds; empty when both are certain.
std::string surely(const Span& span);
Level weaker(const Span& span);
bool is_dated(const Span& span);
bool is_contested(const Span& span);

}  // namespace lathbook::report
