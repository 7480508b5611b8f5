// What every command about work on the fabric asks and tells before it enters anything.
#pragma once

#include <string>
#include <vector>

#include "core/cli/drafting.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

/// Today, physical and certain where nothing was said.
void fill_in(const Context& context, Ground& ground);

/// The looking of the day is the source when no other is named: one for each day. Gives its code.
std::string day_sheet(const Context& context, const Archive& archive, Writer& writer,
                      const StatementReader& reader, const Ground& ground);

/// Throws Error(denied) when the thing, or the element it is a piece of, is kept as evidence.
void refuse_if_retained(const Snapshot& snapshot, const Uuid& thing);

/// The hazards that bear on these things, on the error stream; nothing with --json.
void tell_hazards(Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things);

}  // namespace lathbook::cli
