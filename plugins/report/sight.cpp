// What was in sight in a site at the end of a phase.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/items.hpp"

namespace lathbook::report {

namespace {

/// Its subject lies on the other so that the other was never meant to be seen: a tile on its bed, a plate
/// over its screw holes.
bool beds(const Statement& said) {
  const std::string_view extent = said.content.qualifier("extent");
  return extent == "the whole of it" ||
         (said.content.qualifier("contact") == "bedded on" && extent != "a part of it");
}

/// The item was put in for sure by the end of the phase, and nothing says that it was gone by then.
bool is_in_by(const TimelineItem& item, std::size_t phase) {
  bool in = false;
  for (const PhasePart& part : item.phases) {
    if (part.phase > phase) continue;
    in = in || part.installed == Membership::certain;
    if (part.removed == Membership::certain) return false;
  }
  return in;
}

/// As built or seen, by somebody who looked at the thing itself, where nothing was opened for it.
bool shows_to_the_eye(const Statement& said) {
  const Property* property = Registry::standard().find(said.content.property);
  return property != nullptr && property->name != "as-built-in";
}

}  // namespace

/// What is never told as in sight in a site, by where it runs or stands; nothing for all else. What runs
/// within walls and floors is in sight only in a place that it stands or shows in. A wall that bounds a room
/// is told there by what is on it, and with the building by its outside.
std::optional<Builder::Sight> Builder::built_in(const Site& site, std::size_t at) {
  const ElementView view(teller_.view(item(at).record.id));
  const bool is_home = std::find(site.items.begin(), site.items.end(), at) != site.items.end();
  const Sight hidden = is_home ? Sight::hidden : Sight::none;
  if (view.record.text("prominence") == "0") return hidden;
  const std::vector<std::string> signs = split(phrase("view.built-in-sign"), '|');
  if (std::any_of(signs.begin(), signs.end(), [&](const std::string& sign) {
        return to_lower_ascii(view.type).find(sign) != std::string::npos;
      }))
    return hidden;
  const std::vector<Uuid> places = places_of(site);
  const auto stands = [&](const StandingView& one, bool bounding) {
    const bool open = one.role == "stands in" || one.role == "shows in" || (bounding && one.role == "bounds");
    const bool here = std::find(places.begin(), places.end(), one.place) != places.end();
    return open && here && (one.placement == 0 || one.placement == item(at).placement);
  };
  const auto in_the_open = [&](bool bounding) {
    return std::any_of(view.places.begin(), view.places.end(),
                       [&](const StandingView& one) { return stands(one, bounding); });
  };
  if (view.of_class == "pipe" || view.of_class == "wiring")
    return view.places.empty() || in_the_open(false) ? std::nullopt : std::optional(hidden);
  if (view.of_class != "wall") return std::nullopt;
  if (in_the_open(site.at_large)) return std::nullopt;
  return Sight::none;
}

/// Things bedded or fixed over all of it, and what fills it where it is a cut.
std::vector<Uuid> Builder::tops_of(const Uuid& id) {
  std::vector<Uuid> tops;
  for (const Statement& said : teller_.said_to(id, "fixed-to"))
    if (beds(said)) tops.push_back(said.content.subject);
  if (teller_.view(id).text("element-class") == "cut")
    for (const Statement& said : teller_.said_to(id, "fills")) tops.push_back(said.content.subject);
  return tops;
}

/// The statement by which a source of this phase shows the item in place; nothing where none does.
std::optional<Statement> Builder::shown_in(std::size_t at, std::size_t phase) {
  const auto& phases = material_.timeline.phases;
  const Bound& opens = phases[phase].opens.latest;
  const Bound* closes = phase + 1 < phases.size() ? &phases[phase + 1].opens.earliest : nullptr;
  if (!opens.known || (closes != nullptr && !closes->known)) return std::nullopt;
  for (const char* property : {"uncovered-in", "seen-in", "as-built-in"})
    for (const Statement& said : teller_.said(item(at).record.id, property)) {
      if (!of_placement(said, item(at)) || said.content.confidence == Confidence::conjecture ||
          left_out_.count(said.id) != 0 || is_ruled_out(said))
        continue;
      for (const TimelineEvent& event : material_.timeline.sources)
        if (said.content.value == event.source.text() && event.when.earliest.known &&
            event.when.latest.known && event.when.earliest.day >= opens.day &&
            (closes == nullptr || event.when.latest.day < closes->day))
          return said;
    }
  return std::nullopt;
}

/// By the end of the phase it had come for sure, by its dates, by a picture, or by what lies on it.
bool Builder::is_there(std::size_t at, std::size_t phase, int depth) {
  const TimelineItem& one = item(at);
  if (is_in_by(one, phase)) return true;
  for (const PhasePart& part : one.phases)
    if (part.phase <= phase && part.removed == Membership::certain) return false;
  for (std::size_t earlier = 0; earlier <= phase; ++earlier)
    if (shown_in(at, earlier)) return true;
  if (depth > 4) return false;
  for (const Uuid& top : tops_of(one.record.id))
    for (std::size_t other = 0; other < material_.timeline.items.size(); ++other)
      if (item(other).record.id == top && is_there(other, phase, depth + 1)) return true;
  return false;
}

/// It had gone by the end of the phase's opening works, or in the phase.
bool Builder::is_gone(std::size_t at, std::size_t phase) const {
  const TimelineItem& one = item(at);
  const PhasePart* part = part_in(one, phase);
  if (part == nullptr || part->removed == Membership::certain) return true;
  const Bound& works = material_.timeline.phases[phase].works_end.latest;
  return one.ends.latest.known && works.known && one.ends.latest.day <= works.day;
}

std::string Builder::key_of(Sight sight) {
  return sight == Sight::sure      ? "sure"
         : sight == Sight::perhaps ? "perhaps"
         : sight == Sight::hidden  ? "hidden"
                                   : "none";
}

Builder::Sight Builder::sight_of(const Site& site, std::size_t at, std::size_t phase) {
  const TimelineItem& one = item(at);
  const PhasePart* part = part_in(one, phase);
  if (part == nullptr || is_finish(at) || is_deed(at)) return Sight::none;
  const std::optional<Sight> within = built_in(site, at);
  if (const auto by = shown_in(at, phase); by && (!within || shows_to_the_eye(*by))) return Sight::shown;
  if (is_gone(at, phase)) return Sight::none;
  if (within) return is_in_by(one, phase) ? *within : Sight::none;
  bool is_bed = false;
  for (const Uuid& top : tops_of(one.record.id))
    for (std::size_t other = 0; other < material_.timeline.items.size(); ++other) {
      if (item(other).record.id != top) continue;
      if (is_there(other, phase)) return Sight::hidden;
      is_bed = is_bed || item(other).dated;
    }
  // A bed that nothing lies on yet was open for the days of the work alone.
  if (is_bed && part->visible != Membership::certain) return Sight::none;
  for (const TimelineCover& cover : one.under)
    for (std::size_t other = 0; other < material_.timeline.items.size(); ++other)
      if (item(other).record.id == cover.record && item(other).placement == cover.placement &&
          is_in_by(item(other), phase))
        return Sight::hidden;
  if (part->visible == Membership::certain) return Sight::sure;
  if (part->installed == Membership::certain && one.under.empty()) return Sight::sure;
  if (part->visible == Membership::possible && one.dated) return Sight::perhaps;
  return part->present == Membership::certain && part->covered == Membership::no ? Sight::hidden
                                                                                 : Sight::none;
}

// The first phase tells all that was in sight; each later one only what is otherwise than in the one before.
// Where nothing says that a thing went it is not told that it may have gone.
void Builder::add_in_view(const Site& site, std::size_t phase, bool tells_more) {
  std::vector<std::size_t> all = site.items;
  all.insert(all.end(), site.elsewhere.begin(), site.elsewhere.end());
  const bool first = seen_.empty();
  std::map<std::string, std::vector<std::string>> told;
  std::vector<std::pair<Uuid, std::vector<Statement>>> shown;
  std::map<std::size_t, Sight> seen;
  for (std::size_t place = 0; place < all.size(); ++place) {
    const std::size_t at = all[place];
    Sight is = sight_of(site, at, phase);
    // A picture of the other face of a wall says nothing of this room.
    if (is == Sight::shown && place >= site.items.size()) is = Sight::sure;
    const auto before = seen_.find(at);
    const Sight was = before == seen_.end() ? Sight::none : before->second;
    const bool was_there = was == Sight::sure || was == Sight::shown;
    if (is == Sight::perhaps && was_there && !item(at).ends.latest.known) is = was;
    if (is == Sight::none && !is_gone(at, phase)) is = was;
    if (is != Sight::none) seen[at] = is;
    if (is == was || (was_there && (is == Sight::sure || is == Sight::shown))) continue;
    if (is != Sight::shown) {
      const bool still = is == Sight::perhaps && was_there;
      told[still ? "still" : key_of(is)].push_back(label_of(at));
      continue;
    }
    const Statement by = *shown_in(at, phase);
    const auto source = Uuid::parse(by.content.value);
    auto found =
        std::find_if(shown.begin(), shown.end(), [&](const auto& one) { return one.first == *source; });
    if (found == shown.end()) found = shown.insert(shown.end(), {*source, {}});
    found->second.push_back(by);
  }
  seen_ = std::move(seen);
  if (told.empty() && shown.empty() && (first || !tells_more)) return;
  std::vector<Sentence> sentences;
  if (!first) sentences.push_back(remark(told.empty() && shown.empty() ? "view.same" : "view.change"));
  for (const auto& [source, by] : shown) {
    std::vector<std::string> names;
    std::vector<int> notes;
    for (const Statement& said : by) {
      names.push_back(teller_.label(said.content.subject) + teller_.doubt(said));
      add_notes(notes, teller_.cite(said));
    }
    sentences.push_back(
        sentence("view.shown", {{"source", teller_.name(source)}, {"names", join(names, "; ")}}, notes));
  }
  for (const std::string key : {"sure", "perhaps", "still", "hidden", "none"})
    if (const auto names = told.find(key); names != told.end())
      sentences.push_back(
          remark((first ? "view." : "view.now-") + key, {{"names", join(names->second, "; ")}}));
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.view"), {}});
  add(paragraph(std::move(sentences)));
}

}  // namespace lathbook::report
