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

/// What kind of thing it is needs no proof.
bool is_kind(const Statement& said) {
  const Property* property = Registry::standard().find(said.content.property);
  return property != nullptr && property->name == "element-class";
}

std::size_t statements_of(const Teller& teller, const Bound& bound) {
  std::set<Digest> ids;
  if (!bound.known) return 0;
  for (const ReasonStep& step : bound.reason)
    if (const auto said = teller.statement(step.statement); said && !is_kind(*said)) ids.insert(said->id);
  return ids.size();
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
      if (const auto said = teller_.statement(step.statement); said && !is_kind(*said))
        chain.push_back(*said);
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

/// The steps of a chain; those that the proof of another date has told already are left to it.
Cell Builder::proof_cell(const Bound& bound, const std::string& of, std::vector<ToldChain>& told) {
  std::vector<Digest> chain;
  for (const ReasonStep& step : bound.reason) chain.push_back(step.statement);
  const ToldChain* longest = nullptr;
  for (const ToldChain& one : told)
    if (one.steps.size() <= chain.size() &&
        (longest == nullptr || one.steps.size() > longest->steps.size()) &&
        std::equal(one.steps.begin(), one.steps.end(), chain.begin()))
      longest = &one;
  Cell cell;
  const std::size_t first = longest == nullptr ? 0 : longest->steps.size();
  if (longest != nullptr)
    cell.sentences.push_back(
        remark(first == chain.size() ? "proof.same" : "proof.further", {{"other", longest->of}}));
  for (std::size_t at = first; at < chain.size(); ++at) {
    const auto said = teller_.statement(chain[at]);
    cell.sentences.push_back(
        as_sentence(foreign(bound.reason[at].words), said ? teller_.cite(*said) : std::vector<int>{}));
  }
  told.push_back({std::move(chain), of});
  return cell;
}

/// A row for each bound of a date that has a long chain.
void Builder::add_proof(std::size_t at, bool of_end, Table& table,
                        std::array<std::vector<ToldChain>, 2>& told) {
  const TimelineItem& one = item(at);
  const Span& span = of_end ? one.ends : one.begins;
  // An end that was only not yet come is told as a thing last seen.
  if (!is_dated(span) || (of_end && !span.latest.known)) return;
  const auto [be, verb] = happening(at, of_end);
  for (const bool latest : {false, true}) {
    const Bound& bound = latest ? span.latest : span.earliest;
    if (statements_of(teller_, bound) <= kShort) continue;
    std::vector<int> notes;
    if (!bound.reason.empty())
      if (const auto said = teller_.statement(bound.reason.front().statement)) notes = teller_.cite(*said);
    Row row;
    row.cells.push_back(
        {{as_label(phrase("proof.what-and-when", {{"thing", label_of(at)},
                                                  {"be", be},
                                                  {"verb", verb},
                                                  {"side", std::string(latest ? "latest" : "earliest")},
                                                  {"day", telling(kDate, plain_day(bound.day))}}),
                   notes)},
         {}});
    row.cells.back().sentences.back().notes_beside = true;
    row.cells.push_back(proof_cell(bound, label_of(at), told[latest ? 1 : 0]));
    table.rows.push_back(std::move(row));
  }
}

void Builder::add_proofs() {
  begin("proofs", phrase("chapter.proofs"));
  Table table;
  table.caption = phrase("proof.caption");
  table.columns = {phrase("proof.what"), phrase("proof.chain")};
  table.widths = {30, 70};
  std::array<std::vector<ToldChain>, 2> told;
  List closed;
  for (const Site& site : sites_) {
    const std::size_t before = table.rows.size();
    for (const std::size_t at : site.items) {
      for (const bool of_end : {false, true}) add_proof(at, of_end, table, told);
      for (const TimelineEither& either : item(at).either)
        if (is_closed(either)) closed.entries.push_back(cases_of(item(at), either, false));
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
