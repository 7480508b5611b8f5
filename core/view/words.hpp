// Statements in words, for exports that have room for a sentence but not for a statement. Plain text as
// typed: whoever prints it to a terminal makes it safe first.
#pragma once

#include <string>

#include "core/base/api.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// The value: a record by its code and name, a date as typed; empty when the record named is not shown.
LATHBOOK_API std::string value_in_words(const StatementReader& reader, const Content& content);
/// The details: "contact: laps over; spot: left reveal"; empty when there are none.
LATHBOOK_API std::string details_in_words(const Content& content);
/// One footnote: creator, title, date, holder, shelf mark, locator, and the words quoted.
LATHBOOK_API std::string citation_in_words(const StatementReader& reader, const Citation& citation);
/// All citations of a statement, each as above, parted by semicolons.
LATHBOOK_API std::string citations_in_words(const StatementReader& reader, const Content& content);
/// The name to print of a person or firm; empty when it is not shown.
LATHBOOK_API std::string agent_in_words(const StatementReader& reader, const Uuid& agent);

/// What the archive is called on reports; "Archive" when nobody has said.
LATHBOOK_API std::string archive_name(const StatementReader& reader);

}  // namespace lathbook
