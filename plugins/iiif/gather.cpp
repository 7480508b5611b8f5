// Gathers photographs.
#include "plugins/iiif/gather.hpp"

#include <array>
#include <set>

#include "core/view/scope.hpp"
#include "core/view/views.hpp"
#include "core/view/words.hpp"

namespace lathbook::iiif {

namespace {

/// Properties that say: this very thing is in the picture.
constexpr std::array<std::string_view, 4> kShows{"pictured-in", "seen-in", "uncovered-in", "as-built-in"};

void add(Photographs& photographs, const StatementReader& reader, const RecordInfo& shown, const Uuid& source,
         const Statement& statement, std::string_view relation) {
  const Content& said = statement.content;
  Sighting sighting;
  sighting.record = shown.id;
  sighting.words = display(shown) + " " + std::string(relation);
  const std::string details = details_in_words(said);
  if (!details.empty()) sighting.words += "; " + details;
  if (said.confidence != Confidence::none) sighting.words += " (" + std::string(word(said.confidence)) + ")";
  sighting.places = said.qualifier("spot");
  for (const Citation& citation : said.citations)
    if (citation.source == source) sighting.places += "\n" + citation.locator;
  const auto info = reader.record(source);
  if (info && info->kind == Kind::source) photographs[source].push_back(std::move(sighting));
}

void add_pictures(Photographs& photographs, const StatementReader& reader, const RecordInfo& shown) {
  const RecordView record = RecordView::read(reader, shown);
  for (const auto property : kShows) {
    for (const Statement* one : record.all(property)) {
      const auto source = Uuid::parse(one->content.value);
      if (source) add(photographs, reader, shown, *source, *one, Registry::standard().named(property).label);
    }
  }
  if (shown.kind != Kind::mark && shown.kind != Kind::label) return;
  for (const Statement& fact : record.facts) {
    const Property* property = Registry::standard().find(fact.content.property);
    const bool read = property != nullptr && (property->name == "transcription" ||
                                              property->name == "mark-on" || property->name == "label-on");
    if (!read) continue;
    std::set<Uuid> cited;
    for (const Citation& citation : fact.content.citations)
      if (cited.insert(citation.source).second)
        add(photographs, reader, shown, citation.source, fact,
            property->name == "transcription" ? "reads: " + fact.content.value : "is read in");
  }
}

/// Wide places have a manifest of what pictures them as such, not of everything within.
bool is_room_like(const StatementReader& reader, const RecordInfo& info) {
  const std::string type = PlaceView(RecordView::read(reader, info)).type;
  return type != "site" && type != "building" && type != "storey" && type != "grounds";
}

}  // namespace

bool has_manifest(Kind kind) {
  switch (kind) {
    case Kind::place:
    case Kind::element:
    case Kind::piece:
    case Kind::find:
    case Kind::mark:
    case Kind::label:
      return true;
    default:
      return false;
  }
}

Photographs photographs_of(const Snapshot& archive, const RecordInfo& info) {
  const StatementReader& reader = archive.statements();
  Photographs photographs;
  add_pictures(photographs, reader, info);
  if (info.kind != Kind::place || !is_room_like(reader, info)) return photographs;
  for (const Uuid& id : belongings_of(archive, info.id)) {
    const auto inner = reader.record(id);
    if (inner && inner->id != info.id && has_manifest(inner->kind)) add_pictures(photographs, reader, *inner);
  }
  return photographs;
}

}  // namespace lathbook::iiif
