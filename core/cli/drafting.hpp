// From what was typed to a statement's content: the same for every command that enters something.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/calendar.hpp"
#include "core/cli/commands.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook::cli {

/// Content about a subject with its ground: codes resolved, qualifiers parted, class and confidence read.
/// Values that name records are given as codes.
Content draft(const Context& context, const Archive& archive, const EntrySink& sink, const Uuid& subject,
              const std::string& property, const std::string& value, const Ground& ground);

/// A date, typed as people do, that begins after today. Throws Error(invalid) when it is no date.
bool lies_ahead(std::string_view typed, Day today);

/// The day of something done or said, as EDTF; today when none was typed. Throws Error(invalid) when it is
/// still to come, or no date.
std::string day_that_came(const Context& context, std::string_view typed);

/// Resolves codes of sources and statements of a ground into a content that has its subject already.
void apply_ground(Content& content, const Archive& archive, const EntrySink& sink, const Ground& ground);

/// The three-line answer after entering: what was said, how a typed date was understood, the new name.
void tell_entered(const Context& context, const Writer& writer, const Digest& id);

/// A small JSON object of texts.
void tell_pairs(const Context& context, const std::vector<std::pair<std::string, std::string>>& pairs);

/// Asks on a terminal, offering answers; throws Error(invalid) naming the option when nobody is there.
std::string ask(const Context& context, const std::string& question, const std::vector<std::string>& answers,
                const std::string& option);
/// Asks which contact was read between two things; 'not read' is an answer.
std::string ask_contact(const Context& context, const std::string& option);
/// True when the person at the terminal agrees; false without a terminal.
bool agrees(const Context& context, const std::string& question);

/// Opens a writing session; asks about a strange clock on a terminal.
std::unique_ptr<Writer> session(const Context& context, Archive& archive);

}  // namespace lathbook::cli
