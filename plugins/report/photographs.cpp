// Pictures of the sources: what each shows and does not show, by the statements that rest on it.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/picture/picture.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// What a source can be said to do for a thing, in the order in which a caption tells it.
constexpr const char* kRoles[] = {"seen-in",   "uncovered-in", "as-built-in",  "pictured-in",
                                  "billed-in", "proposed-in",  "mentioned-in", "like-seen-in",
                                  "gone-by",   "not-yet-in",   "absent-from"};

/// Spots of a picture that statements speak of.
struct Spot {
  std::string region;
  std::string words;                ///< where it is, for people
  std::vector<std::string> things;  ///< told of there
  bool told = false;                ///< another sentence of the caption names the ring
};

void add_spot(std::vector<Spot>& spots, const std::string& words, const std::string& thing, bool told) {
  const std::string region = region_in(words);
  if (region.empty()) return;
  auto at = std::find_if(spots.begin(), spots.end(), [&](const Spot& one) { return one.region == region; });
  if (at == spots.end()) at = spots.insert(spots.end(), {region, without_region(words), {}, false});
  add_once(at->things, thing);
  at->told = at->told || told;
}

/// The number of the ring round the region that the words name; 0 for none.
std::int64_t ring_of(const Figure& figure, const std::string& words) {
  const auto at = std::find(figure.rings.begin(), figure.rings.end(), region_in(words));
  return at == figure.rings.end() ? 0 : at - figure.rings.begin() + 1;
}

/// The first of these files that is a picture.
std::optional<std::string> picture_bytes(const ArchiveFiles& files, const std::vector<Digest>& media) {
  for (const Digest& digest : media) {
    const auto file = files.media(digest);
    if (!file) continue;
    auto bytes = read_all(*file);
    if (bytes && look_at(*bytes)) return bytes;
  }
  return std::nullopt;
}

/// The chapter of which a source tells most: what it shows, bills or proposes counts three times what it is
/// merely cited for. Of equals a room goes before the building, and the first before the others; past the
/// last where it tells of none.
std::size_t home_of(Teller& teller, const Uuid& source, const std::map<Uuid, std::size_t>& chapters,
                    const std::vector<Site>& sites) {
  std::vector<int> told(sites.size(), 0);
  const auto count = [&](const Uuid& subject, int weight) {
    if (const auto at = chapters.find(subject); at != chapters.end()) told[at->second] += weight;
  };
  for (const char* role : kRoles)
    for (const Statement& said : teller.said_to(source, role)) count(said.content.subject, 3);
  for (const Statement& said : teller.citing(source)) count(said.content.subject, 1);
  std::size_t home = sites.size();
  for (std::size_t at = 0; at < sites.size(); ++at) {
    if (told[at] == 0) continue;
    if (home == sites.size() || told[at] > told[home] || (told[at] == told[home] && sites[home].at_large))
      home = at;
  }
  return home;
}

}  // namespace

/// A picture of a source with rings, and a caption that tells what it shows and what it does not show.
std::optional<Figure> Builder::photograph(const Uuid& id, const std::vector<std::string>& cited_for) {
  const Source* source = teller_.notes().source(id);
  const SourceView view(teller_.view(id));
  if (source == nullptr || view.media.empty()) return std::nullopt;
  const auto bytes = picture_bytes(*material_.files, view.media);
  if (!bytes) return std::nullopt;
  std::vector<std::pair<const char*, std::vector<Statement>>> roles;
  std::vector<std::string> named;
  std::vector<Spot> spots;
  for (const char* role : kRoles) {
    std::vector<Statement> said = teller_.said_to(id, role);
    std::erase_if(said, [&](const Statement& one) { return !teller_.record(one.content.subject); });
    for (const Statement& one : said) {
      add_once(named, teller_.label(one.content.subject));
      add_spot(spots, std::string(one.content.qualifier("spot")), teller_.label(one.content.subject), true);
    }
    if (!said.empty()) roles.emplace_back(role, std::move(said));
  }
  for (const Statement& one : teller_.citing(id))
    for (const Citation& citation : one.content.citations)
      if (citation.source == id && teller_.record(one.content.subject))
        add_spot(spots, citation.locator, teller_.label(one.content.subject), false);
  std::vector<std::string> regions;
  for (const Spot& spot : spots) regions.push_back(spot.region);
  auto figure = picture(*bytes, regions);
  if (!figure) return std::nullopt;
  const std::vector<int> whole{teller_.notes().cite_source(id)};
  std::vector<Sentence> told{picture_head(id, *source, whole)};
  for (const auto& [role, said] : roles) told.push_back(picture_role(role, said, *figure));
  for (const Spot& spot : spots)
    if (const std::int64_t ring = ring_of(*figure, spot.region); ring != 0 && !spot.told)
      told.push_back(sentence("picture.ring",
                              {{"n", ring},
                               {"where", spot.words.empty() ? phrase("picture.spot") : foreign(spot.words)},
                               {"things", listing(spot.things)}},
                              whole));
  figure->part = part_shown(id);
  if (!figure->part.empty())
    told.push_back(sentence("picture.part", {{"part", foreign(figure->part)}}, whole));
  else if (shows_one_leaf(id, view))
    told.push_back(remark("picture.one-leaf"));
  std::vector<std::string> also;
  for (const std::string& thing : cited_for)
    if (std::find(named.begin(), named.end(), thing) == named.end()) also.push_back(thing);
  if (!also.empty())
    told.push_back(
        sentence(told.size() == 1 ? "picture.cited" : "picture.also", {{"things", listing(also)}}, whole));
  figure->source = source->code.empty() ? id.text() : source->code;
  figure->title = without_marks(capital(teller_.name(id)));
  figure->description =
      without_marks(phrase("picture.shows", {{"things", listing(named.empty() ? also : named)}}));
  figure->caption = paragraph(std::move(told));
  return figure;
}

/// The only part of a source that its picture shows, where that is said: "leaf 23".
std::string Builder::part_shown(const Uuid& id) {
  const std::vector<Statement> files = teller_.said(id, "media");
  return files.size() == 1 ? std::string(files.front().content.qualifier("part")) : std::string();
}

/// Of papers that are cited at several places the archive has the picture of one.
bool Builder::shows_one_leaf(const Uuid& id, const SourceView& view) {
  if (view.media.size() > 1 || view.type == "photograph" || view.type == "plan sheet") return false;
  std::set<std::string> places;
  for (const Statement& said : teller_.citing(id))
    for (const Citation& citation : said.content.citations)
      if (citation.source == id && !citation.locator.empty()) places.insert(without_region(citation.locator));
  return places.size() > 1;
}

/// Which source it is, who made it and who keeps it.
Sentence Builder::picture_head(const Uuid& id, const Source& source, const std::vector<int>& notes) {
  std::vector<std::string> makers, keeping;
  for (const Person& person : source.authors) makers.push_back(person.name);
  for (const std::string& part : {source.holder, source.location})
    if (!part.empty()) keeping.push_back(part);
  return sentence("picture.head",
                  {{"source", teller_.name(id)},
                   {"by", std::string(makers.empty() ? "no" : "yes")},
                   {"makers", listing(makers)},
                   {"kept", std::string(keeping.empty() ? "no" : "yes")},
                   {"keeping", join(keeping, ", ")}},
                  notes);
}

/// What it does for these things.
Sentence Builder::picture_role(const std::string& role, const std::vector<Statement>& said,
                               const Figure& figure) {
  std::vector<std::string> things;
  for (const Statement& one : said) {
    std::string thing = teller_.label(one.content.subject);
    if (const std::string ground(one.content.qualifier("ground")); !ground.empty())
      thing += " (" + foreign(ground) + ")";
    if (const std::int64_t ring = ring_of(figure, std::string(one.content.qualifier("spot"))); ring != 0)
      thing += " (" + phrase("picture.ring-name", {{"n", ring}}) + ")";
    add_once(things, thing + teller_.doubt(one));
  }
  return sentence("picture." + role, {{"things", listing(things)}}, teller_.notes().cite_together(said));
}

// Pictures of things of this site, each once in the whole report, in the chapter that it tells most of.
void Builder::add_photographs(const Site& site) {
  if (material_.files == nullptr || !options_.pictures) return;
  std::vector<std::pair<Uuid, std::vector<std::string>>> shown;
  const auto note_picture = [&](const Uuid& source, const std::string& words) {
    for (auto& [id, what] : shown)
      if (id == source) return add_once(what, words);
    shown.push_back({source, {words}});
  };
  const auto note_facts = [&](const Uuid& record) {
    for (const Statement& fact : teller_.view(record).facts)
      if (fact.presence == Presence::present)
        for (const Citation& citation : fact.content.citations)
          note_picture(citation.source, teller_.label(record));
  };
  for (const Uuid& place : places_of(site)) note_facts(place);
  for (const std::size_t at : site.items) {
    const Uuid id = item(at).record.id;
    note_facts(id);
    for (const char* link : {"mark-on", "label-on"})
      for (const Statement& carried : teller_.said_to(id, link)) note_facts(carried.content.subject);
    for (const Statement& piece : teller_.said_to(id, "piece-of"))
      for (const Statement& mark : teller_.said_to(piece.content.subject, "mark-on"))
        note_facts(mark.content.subject);
  }
  std::map<Uuid, std::size_t> chapters;
  for (std::size_t at = 0; at < sites_.size(); ++at) {
    for (const Uuid& place : places_of(sites_[at])) chapters.emplace(place, at);
    for (const std::size_t thing : sites_[at].items) chapters.emplace(item(thing).record.id, at);
  }
  const auto here = static_cast<std::size_t>(&site - sites_.data());
  for (const auto& [source, what] : shown) {
    if (shown_sources_.count(source) != 0 || !teller_.record(source)) continue;
    if (const std::size_t home = home_of(teller_, source, chapters, sites_);
        home < sites_.size() && home != here)
      continue;
    auto figure = photograph(source, what);
    if (!figure) continue;
    shown_sources_.insert(source);
    add(std::move(*figure));
  }
}

// Pictures of sources that some sentence cites and that stand in no room.
void Builder::add_other_photographs() {
  if (material_.files == nullptr || !options_.pictures) return;
  begin("pictures", phrase("chapter.pictures"));
  for (const Uuid& source : teller_.notes().cited()) {
    if (shown_sources_.count(source) != 0 || !teller_.record(source)) continue;
    std::vector<std::string> what;
    for (const Statement& one : teller_.citing(source))
      if (one.content.subject != source && teller_.record(one.content.subject))
        add_once(what, teller_.label(one.content.subject));
    auto figure = photograph(source, what);
    if (!figure) continue;
    shown_sources_.insert(source);
    add(std::move(*figure));
  }
  end();
}

}  // namespace lathbook::report
