// A statement in words and in JSON, for every command that prints one.
#pragma once

#include <string>

#include "core/base/json_writer.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook::cli {

/// The value, with records named, dates explained and details in brackets.
std::string value_words(const StatementReader& reader, const Statement& statement);
/// Who said it, when, on what evidence, how sure, citing what, why.
std::string ground_words(const StatementReader& reader, const Statement& statement);
/// One footnote for each citation.
std::string citation_words(const StatementReader& reader, const Citation& citation);
/// Which statements replaced or withdrew it.
std::string superseded_words(const StatementReader& reader, const Statement& statement);
void write_statement(JsonWriter& json, const StatementReader& reader, const Statement& statement);

}  // namespace lathbook::cli
