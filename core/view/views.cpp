// The nouns of the house, each taken together from what is currently said of its record.
#include "core/view/views.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook {

namespace {

/// Blanks round the number do not count.
template <typename Number>
std::optional<Number> trimmed_number(std::string_view text) {
  return number_in<Number>(trim(text));
}

std::optional<int> integer(const RecordView& record, std::string_view property) {
  return trimmed_number<int>(record.text(property));
}

std::vector<std::string> texts(const RecordView& record, std::string_view property) {
  std::vector<std::string> values;
  for (const Statement* statement : record.all(property)) values.push_back(statement->content.value);
  return values;
}

/// Beginning of a name's period; by its end when only that is said; after all others when nothing is.
Day period_day(const NameView& name) {
  const auto from = earliest_day(name.from);
  return from ? *from : earliest_day(name.to).value_or(std::numeric_limits<Day>::max());
}

std::vector<NameView> names_of(const RecordView& record) {
  std::vector<NameView> names;
  for (const Statement* statement : record.all("name")) {
    const Content& said = statement->content;
    NameView name;
    name.text = said.value;
    name.sort = said.qualifier("sort");
    name.from = said.qualifier("from");
    name.to = said.qualifier("to");
    name.language = said.language.empty() ? std::string(said.qualifier("language")) : said.language;
    name.used_by = said.qualifier("used-by");
    name.statement = statement->id;
    names.push_back(std::move(name));
  }
  std::stable_sort(names.begin(), names.end(),
                   [](const NameView& a, const NameView& b) { return period_day(a) < period_day(b); });
  return names;
}

/// "0,0 4.2,0 4.2,3": empty when any pair cannot be read, since half an outline is a wrong one.
std::vector<Point> points_in(const std::string& text) {
  std::vector<Point> points;
  for (const std::string& pair : split(text, ' ')) {
    if (trim(pair).empty()) continue;
    const auto parts = split(pair, ',');
    const auto x = parts.size() == 2 ? trimmed_number<double>(parts[0]) : std::nullopt;
    const auto y = parts.size() == 2 ? trimmed_number<double>(parts[1]) : std::nullopt;
    if (!x || !y) return {};
    points.push_back({*x, *y});
  }
  return points;
}

std::vector<OutlineView> outlines_of(const RecordView& record) {
  std::vector<OutlineView> outlines;
  for (const Statement* statement : record.all("footprint")) {
    const Content& said = statement->content;
    OutlineView outline{points_in(said.value), std::string(said.qualifier("from")),
                        std::string(said.qualifier("to")), statement->id};
    if (!outline.points.empty()) outlines.push_back(std::move(outline));
  }
  return outlines;
}

std::vector<ReadingView> readings_of(const RecordView& record, std::string_view property) {
  std::vector<ReadingView> readings;
  for (const Statement* statement : record.all(property))
    readings.push_back(
        {statement->content.value, statement->content.author, statement->content.said_on, statement->id});
  return readings;
}

/// Highest number of a placement that anything said of the element mentions; at least 1.
int placements_of(const RecordView& record) {
  int placements = std::max(1, integer(record, "placements").value_or(1));
  for (const Statement& fact : record.facts)
    placements = std::max(placements, trimmed_number<int>(fact.content.qualifier("placement")).value_or(1));
  return placements;
}

}  // namespace

PlaceView::PlaceView(RecordView view)
    : record(std::move(view)),
      type(record.text("place-type")),
      within(record.record("within")),
      storey_number(integer(record, "storey-number")),
      names(names_of(record)),
      footprint(points_in(record.text("footprint"))),
      outlines(outlines_of(record)) {}

ElementView::ElementView(RecordView view)
    : record(std::move(view)),
      type(record.text("element-type")),
      of_class(record.text("element-class")),
      materials(texts(record, "material")),
      part_of(record.record("part-of")),
      placements(placements_of(record)) {
  for (const Statement* statement : record.all("stands-in")) {
    const Content& said = statement->content;
    const auto place = Uuid::parse(said.value);
    if (!place) continue;
    StandingView standing;
    standing.place = *place;
    standing.role = said.qualifier("role").empty() ? "stands in" : said.qualifier("role");
    standing.face = said.qualifier("face");
    standing.placement = trimmed_number<int>(said.qualifier("placement")).value_or(0);
    standing.statement = statement->id;
    places.push_back(std::move(standing));
  }
}

FinishView::FinishView(RecordView view)
    : record(std::move(view)),
      element(record.record("finish-on")),
      layer(integer(record, "layer")),
      role(record.text("layer-role")),
      colour(record.text("colour")),
      munsell(record.text("munsell")) {}

PieceView::PieceView(RecordView view) : record(std::move(view)), element(record.record("piece-of")) {
  if (const Statement* position = record.best("position")) {
    field = position->content.qualifier("field");
    row = trimmed_number<int>(position->content.qualifier("row"));
    column = trimmed_number<int>(position->content.qualifier("column"));
    rotation = trimmed_number<int>(position->content.qualifier("rotation")).value_or(0);
  }
  fragment_of = record.record("fragment-of");
  if (const Statement* latest = record.latest("piece-state")) state = latest->content.value;
  if (const Statement* latest = state == "in place" ? record.latest("laid-at") : nullptr) {
    const auto to_row = trimmed_number<int>(latest->content.qualifier("row"));
    const auto to_column = trimmed_number<int>(latest->content.qualifier("column"));
    if (to_row && to_column && (to_row != row || to_column != column)) laid_at.emplace(*to_row, *to_column);
  }
  if (const Statement* latest = record.latest("in-container")) container = Uuid::parse(latest->content.value);
  if (const Statement* latest = record.latest("piece-condition")) {
    condition = latest->content.value;
    parts = trimmed_number<int>(latest->content.qualifier("parts")).value_or(1);
  }
}

MarkView::MarkView(RecordView view)
    : record(std::move(view)),
      carrier(record.record("mark-on")),
      method(record.text("mark-method")),
      face(record.text("face")),
      orientation(record.text("orientation")),
      transcriptions(readings_of(record, "transcription")),
      readings(readings_of(record, "reading")) {}

LabelView::LabelView(RecordView view)
    : record(std::move(view)),
      carrier(record.record("label-on")),
      tool(record.text("label-tool")),
      face(record.text("face")),
      transcriptions(readings_of(record, "transcription")),
      readings(readings_of(record, "reading")) {}

SourceView::SourceView(RecordView view)
    : record(std::move(view)),
      type(record.text("source-type")),
      title(record.text("title")),
      creators(texts(record, "creator")),
      date(record.edtf("source-date")),
      date_typed(record.text("source-date")),
      repository(record.text("repository")),
      shelf_mark(record.text("shelf-mark")),
      published_in(record.text("published-in")),
      rights(record.text("rights")) {
  for (const Statement* statement : record.all("media"))
    if (const auto digest = Digest::from_hex(statement->content.value)) media.push_back(*digest);
}

std::string SourceView::footnote(const std::string& locator) const {
  std::vector<std::string> parts;
  const auto add = [&](const std::string& part) {
    if (!part.empty()) parts.push_back(part);
  };
  add(join(creators, " and "));
  std::string what = title.empty() ? display(record.info) : title;
  if (!type.empty()) what += " (" + type + ")";
  add(what);
  add(published_in);
  add(date_in_words(date_typed.empty() ? date : date_typed));
  add(repository);
  add(shelf_mark);
  add(spot_in_words(locator));
  return join(parts, ", ");
}

CampaignView::CampaignView(RecordView view)
    : record(std::move(view)), began(record.edtf("works-began")), ended(record.edtf("works-ended")) {}

PhaseView::PhaseView(RecordView view)
    : record(std::move(view)),
      number(integer(record, "phase-number")),
      place(record.record("phase-of")),
      campaign(record.record("opened-by")) {}

}  // namespace lathbook
