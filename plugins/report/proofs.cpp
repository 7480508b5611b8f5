// How the dates were reached: the strongest reason in a clause, and the whole chain in a table at the end.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/words.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/items.hpp"

namespace lathbook::report {

namespace {

/// A chain of no more statements is told whole where the date is told.
constexpr std::size_t kShort = 3;

std::size_t statements_of(const Bound& bound) {
  std::set<Digest> ids;
  if (bound.known)
    for (const ReasonStep& step : bound.reason) ids.insert(step.statement);
  ids.erase(Digest{});
  return ids.size();
}

bool is_long(const Span& span) {
  return statements_of(span.earliest) > kShort || statements_of(span.latest) > kShort;
}

}  // namespace

/// " (placement 1 of 2, in 203)"; nothing for what has one placement.
std::string Builder::placement_words(std::size_t at) {
  const TimelineItem& one = item(at);
  if (one.placements < 2) return {};
  std::string place;
  for (const StandingView& standing : ElementView(teller_.view(one.record.id)).places)
    if (standing.placement == one.placement)
      if (const auto info = teller_.record(standing.place)) place = foreign(info->code);
  return " " + phrase("placement", {{"n", static_cast<std::int64_t>(one.placement)},
                                    {"all", static_cast<std::int64_t>(one.placements)},
                                    {"place", place},
                                    {"in", std::string(place.empty() ? "no" : "yes")}});
}

std::string Builder::name_of(std::size_t at) {
  return teller_.name(item(at).record.id) + placement_words(at);
}

std::string Builder::label_of(std::size_t at) {
  return teller_.label(item(at).record.id) + placement_words(at);
}

std::vector<int> Builder::cite_ends(const Span& span) {
  std::vector<int> notes;
  for (const Bound* bound : {&span.earliest, &span.latest}) {
    if (!bound->known) continue;
    std::vector<Statement> chain;
    for (const ReasonStep& step : bound->reason)
      if (const auto said = teller_.statement(step.statement)) chain.push_back(*said);
    for (std::size_t at = 0; at < chain.size(); ++at)
      if (at == 0 || at + 1 == chain.size() || chain.size() <= kShort)
        add_notes(notes, teller_.cite(chain[at]));
  }
  return notes;
}

/// What gives a bound its day: a dated source, works, a dated piece or another thing; nothing where the thing
/// itself is dated, or its own works.
std::string Builder::dated_end(const Uuid& of, const Bound& bound) {
  if (!bound.known) return {};
  for (const ReasonStep& step : bound.reason) {
    const auto said = teller_.statement(step.statement);
    const auto info = said ? teller_.record(said->content.subject) : std::nullopt;
    if (!info) continue;
    if (info->id == of) return {};
    for (const Statement& own : teller_.said(of, "of-campaign"))
      if (own.content.value == info->id.text()) return {};
    const Property* property = Registry::standard().find(said->content.property);
    const bool made = property != nullptr && property->name == "made-not-before";
    return made ? phrase("proof.made", {{"thing", teller_.name(info->id)}}) : teller_.name(info->id);
  }
  return {};
}

std::string Builder::strongest(std::size_t at, const Span& span) {
  const std::string from = dated_end(item(at).record.id, span.earliest);
  const std::string to = dated_end(item(at).record.id, span.latest);
  if (from.empty() && to.empty()) return {};
  const char* which = from.empty() ? "latest" : to.empty() ? "earliest" : from == to ? "one" : "both";
  return phrase("proof.clause", {{"which", std::string(which)}, {"from", from}, {"to", to}});
}

Cell Builder::proof_cell(const Bound& bound) {
  if (!bound.known) return {{as_words(phrase("not-known"))}, {}};
  Cell cell;
  std::vector<int> notes;
  for (const ReasonStep& step : bound.reason) {
    const auto said = teller_.statement(step.statement);
    cell.sentences.push_back(
        as_sentence(foreign(step.words), said ? teller_.cite(*said) : std::vector<int>{}));
    add_notes(notes, cell.sentences.back().notes);
  }
  Sentence day = as_words(telling(kDate, plain_day(bound.day)) + ".", notes);
  day.notes_beside = true;
  day.runs.front().strong = true;
  cell.sentences.insert(cell.sentences.begin(), std::move(day));
  return cell;
}

std::optional<Row> Builder::proof_row(std::size_t at, bool of_end) {
  const TimelineItem& one = item(at);
  const Span& span = of_end ? one.ends : one.begins;
  // An end that was only not yet come is told as a thing last seen.
  if (!is_dated(span) || !is_long(span) || (of_end && !span.latest.known)) return std::nullopt;
  const auto [be, verb] = happening(at, of_end);
  Row row;
  row.cells.push_back({{as_label(label_of(at) + " " + be + verb)}, {}});
  row.cells.push_back(proof_cell(span.earliest));
  row.cells.push_back(proof_cell(span.latest));
  return row;
}

void Builder::add_proofs() {
  begin("proofs", phrase("chapter.proofs"));
  Table table;
  table.caption = phrase("proof.caption");
  table.columns = {phrase("proof.what"), phrase("proof.not-before"), phrase("proof.not-after")};
  table.widths = {22, 39, 39};
  List closed;
  for (const Site& site : sites_) {
    const std::size_t before = table.rows.size();
    for (const std::size_t at : site.items) {
      for (const bool of_end : {false, true})
        if (auto row = proof_row(at, of_end)) table.rows.push_back(std::move(*row));
      for (const TimelineEither& either : item(at).either)
        if (is_closed(either)) closed.entries.push_back(cases_of(item(at), either));
    }
    if (table.rows.size() != before)
      table.rows.insert(table.rows.begin() + static_cast<std::ptrdiff_t>(before), Row{site.title, {}});
  }
  if (!table.rows.empty() || !closed.entries.empty()) add(remark("proof.words"));
  add(std::move(table));
  if (!closed.entries.empty()) {
    heading(2, "heading.closed");
    add(remark("proof.closed-words"));
    add(std::move(closed));
  }
  end();
}

}  // namespace lathbook::report
