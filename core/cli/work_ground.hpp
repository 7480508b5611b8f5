// What every command about work on the fabric asks and tells before it enters anything.
#pragma once

#include <string>
#include <vector>

#include "core/cli/drafting.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

bool is_choice(const std::string& list, const std::string& word);

/// Today, physical and certain where nothing was said; a day typed in words becomes EDTF, so that days can be
/// compared.
void fill_in(const Context& context, Ground& ground);

/// The looking of the day is the source when no other is named: one for each day. Gives its code.
std::string day_sheet(const Context& context, const Archive& archive, Writer& writer,
                      const StatementReader& reader, const Ground& ground);

/// Throws Error(denied) when the thing, or the element it is a piece of, is kept as evidence.
void refuse_if_retained(const Snapshot& snapshot, const Uuid& thing);

/// The hazards that bear on these things, on the error stream; nothing with --json. In one line where work on
/// the same elements was entered for the same day already.
void tell_hazards(Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things,
                  const std::string& day);

/// Enters a state that changes, with the day of the ground as its detail 'on'. One that was said for the same
/// day already would stand beside it, so the new one takes its place.
void enter_of_day(const Context& context, const Archive& archive, Writer& writer, const RecordView& thing,
                  const std::string& property, const std::string& value, const Ground& ground,
                  std::vector<std::string> details = {});

/// How whole things are from now on: throws Error(invalid) naming the words for one that is none of them, and
/// where pieces were damaged and nobody said how they are.
void refuse_condition(const Handling& wanted);

/// Says loudly on the error stream which work is stopped at these records, round them or in them; nothing
/// with
/// --json.
void tell_stops(const Context& context, const Snapshot& snapshot, const std::vector<Uuid>& records);

/// tell_stops(), and where the work is `refused` while they stand: throws Error(denied) naming the stop,
/// unless it was done before that day or the person says why it is entered all the same; that reason, to be
/// kept with the event, or nothing.
std::string heed_stops(const Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things,
                       const Handling& wanted, bool refused);

}  // namespace lathbook::cli
