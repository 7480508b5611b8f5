// The order of the report, and which thing is told in which room.
#include "plugins/report/build.hpp"

#include <algorithm>

#include "core/base/calendar.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/view/words.hpp"

namespace lathbook::report {

Builder::Builder(const Material& material, Options options)
    : material_(material),
      options_(std::move(options)),
      teller_(material.archive, material.leave_out),
      told_(material.timeline.items.size()) {}

Document Builder::build() {
  const Timeline& timeline = material_.timeline;
  if (!teller_.record(timeline.scope.id))
    fail(ErrorKind::not_found, "this reading of the archive has no such place; name a room or a building");
  const RecordInfo scope = *teller_.record(timeline.scope.id);
  document_.subject = foreign(scope.name.empty() ? display(scope) : scope.name);
  document_.archive = foreign(archive_name(teller_.reader()));
  document_.known = plain_day(timeline.reading.known_day);
  document_.state = timeline.reading.fingerprint.hex();
  document_.language = "en";
  find_sites();
  place_items();
  find_rulings();
  number_contradictions();
  add_front();
  const bool whole =
      std::any_of(sites_.begin(), sites_.end(), [](const Site& site) { return site.at_large; });
  if (whole) add_authored_chapter("background", {"historical background"});
  if (!options_.description_first) add_chronology();
  if (whole) add_authored_chapter("description", {"exterior", "structure", "systems"});
  for (const Site& site : sites_) add_room(site);
  if (options_.description_first) add_chronology();
  if (whole) {
    add_authored_chapter("evaluation",
                         {"significance", "character-defining features", "condition assessment"});
    add_authored_chapter("treatment", {"requirements for work", "recommended treatment"});
    add_authored_chapter("record", {"record of treatment"});
  }
  add_other_photographs();
  add_proofs();
  document_.chapters.push_back(reckoning());
  add_missing();
  teller_.notes().settle(document_);
  document_.bibliography = teller_.notes().bibliography();
  document_.not_cited = teller_.notes().not_cited();
  return std::move(document_);
}

void Builder::find_sites() {
  const Uuid scope = material_.timeline.scope.id;
  const auto wanted = [&](const RecordInfo& info) {
    return options_.rooms.empty() ||
           std::find(options_.rooms.begin(), options_.rooms.end(), info.code) != options_.rooms.end();
  };
  const bool is_room = teller_.view(scope).text("place-type") == "room";
  if (!is_room && options_.rooms.empty()) {
    Site rest;
    rest.place = *teller_.record(scope);
    rest.at_large = true;
    rest.anchor = "at-large";
    rest.title = phrase("chapter.at-large", {{"building", document_.subject}});
    sites_.push_back(std::move(rest));
  }
  for (const Uuid& id : material_.archive.places_within(scope)) {
    const auto info = teller_.record(id);
    if (!info || teller_.view(id).text("place-type") != "room" || !wanted(*info)) continue;
    Site room;
    room.place = *info;
    room.anchor = "room-" + std::to_string(sites_.size());
    room.title = foreign(info->code + " " + info->name);
    sites_.push_back(std::move(room));
  }
  std::stable_sort(sites_.begin(), sites_.end(), [](const Site& a, const Site& b) {
    if (a.at_large != b.at_large) return a.at_large;
    return compare_for_people(a.place.code, b.place.code) < 0;
  });
  for (const std::string& code : options_.rooms)
    if (std::none_of(sites_.begin(), sites_.end(), [&](const Site& site) { return site.place.code == code; }))
      fail(ErrorKind::not_found, "there is no room with the code " + quote(code) + " in " +
                                     document_.subject + "; name rooms of that building");
}

bool Builder::is_thing(std::size_t at) const {
  return item(at).record.kind == Kind::element;
}

bool Builder::is_finish(std::size_t at) const {
  return item(at).record.kind == Kind::finish;
}

// A thing is told in the first room that it stands in; one that only bounds rooms, in the one it bounds, or
// with the building where it bounds several.
void Builder::place_items() {
  std::map<Uuid, std::size_t> rooms;
  for (std::size_t at = 0; at < sites_.size(); ++at)
    if (!sites_[at].at_large) rooms[sites_[at].place.id] = at;
  for (std::size_t at = 0; at < material_.timeline.items.size(); ++at) {
    const TimelineItem& one = item(at);
    if (!is_thing(at) && !is_finish(at)) continue;
    if (!teller_.record(one.record.id)) continue;
    Uuid element = one.finish_on.value_or(one.record.id);
    std::vector<std::size_t> homes, bounded;
    for (int depth = 0; depth < 8 && homes.empty() && bounded.empty(); ++depth) {
      const ElementView view(teller_.view(element));
      for (const StandingView& standing : view.places) {
        const auto room = rooms.find(standing.place);
        if (room == rooms.end()) continue;
        if (standing.placement != 0 && one.placements > 1 && standing.placement != one.placement) continue;
        const bool stands = standing.role == "stands in" || standing.role == "shows in";
        (stands ? homes : bounded).push_back(room->second);
      }
      for (const char* link : {"fitted-in"})
        for (const Statement* fit : view.record.all(link))
          if (const auto place = Uuid::parse(fit->content.value); place && rooms.count(*place) != 0)
            homes.push_back(rooms[*place]);
      if (!view.part_of) break;
      element = *view.part_of;
    }
    put_at_home(at, homes, bounded);
  }
}

void Builder::put_at_home(std::size_t item, const std::vector<std::size_t>& homes,
                          const std::vector<std::size_t>& bounded) {
  const bool whole = !sites_.empty() && sites_.front().at_large;
  std::optional<std::size_t> home;
  if (!homes.empty())
    home = homes.front();
  else if (bounded.size() == 1 || (!bounded.empty() && !whole))
    home = bounded.front();
  else if (whole)
    home = 0;
  if (!home) return;
  sites_[*home].items.push_back(item);
  std::set<std::size_t> others(homes.begin(), homes.end());
  others.insert(bounded.begin(), bounded.end());
  others.erase(*home);
  if (is_thing(item))
    for (const std::size_t other : others) sites_[other].elsewhere.push_back(item);
}

bool Builder::is_of_site(const Site& site, const Uuid& record) const {
  return std::any_of(site.items.begin(), site.items.end(), [&](std::size_t at) {
    return item(at).record.id == record || item(at).finish_on == record;
  });
}

bool Builder::is_of_some_site(const Uuid& record) const {
  return std::any_of(sites_.begin(), sites_.end(),
                     [&](const Site& site) { return is_of_site(site, record) || site.place.id == record; });
}

std::vector<Uuid> Builder::places_of(const Site& site) {
  std::vector<Uuid> places{site.place.id};
  if (!site.at_large) return places;
  for (const Uuid& place : material_.archive.places_within(site.place.id))
    if (place != site.place.id && teller_.view(place).text("place-type") != "room") places.push_back(place);
  return places;
}

std::vector<Uuid> Builder::records_of(const Site& site) {
  std::vector<Uuid> records = places_of(site);
  // What was moved on is looked at, worked on and feared where it stands now.
  for (const std::size_t at : site.items)
    if (item(at).placement >= item(at).placements) records.push_back(item(at).record.id);
  return records;
}

void Builder::begin(const std::string& anchor, const std::string& title) {
  chapter_ = {anchor, title, {}};
  teller_.notes().begin_chapter();
}

void Builder::end() {
  if (!chapter_.blocks.empty()) document_.chapters.push_back(std::move(chapter_));
  chapter_ = {};
}

void Builder::heading(int level, const std::string& key, const MessageValues& values) {
  chapter_.blocks.emplace_back(Heading{level, capital(without_marks(phrase(key, values))), {}});
}

void Builder::add(Paragraph paragraph) {
  if (!paragraph.sentences.empty()) chapter_.blocks.emplace_back(std::move(paragraph));
}

void Builder::add(List list) {
  if (!list.entries.empty()) chapter_.blocks.emplace_back(std::move(list));
}

void Builder::add(Table table) {
  if (!table.rows.empty()) chapter_.blocks.emplace_back(std::move(table));
}

}  // namespace lathbook::report
