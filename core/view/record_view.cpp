// A record and what is currently said of it, the best-founded first.
#include "core/view/record_view.hpp"

#include <algorithm>
#include <limits>
#include <tuple>
#include <utility>

#include "core/base/edtf.hpp"

namespace lathbook {

namespace {

/// Clerical statements have no confidence and stand beside the certain ones.
int rank(Confidence confidence) {
  switch (confidence) {
    case Confidence::none:
    case Confidence::certain:
      return 0;
    case Confidence::probable:
      return 1;
    case Confidence::possible:
      return 2;
    case Confidence::conjecture:
      break;
  }
  return 3;
}

bool better(const Statement* a, const Statement* b) {
  const auto key = [](const Statement* statement) {
    return std::make_tuple(rank(statement->content.confidence), -statement->header.entered.seconds);
  };
  if (key(a) != key(b)) return key(a) < key(b);
  // Entered in the same second: the higher number of a chain is the later one; across chains the order
  // of ids is as good as any and the same on every machine.
  if (a->header.chain == b->header.chain) return a->header.number > b->header.number;
  return a->id > b->id;
}

/// The day since when it is said to be so; before all others where none is said.
Day day_of(const Statement& statement) {
  return earliest_day(statement.content.qualifier("on")).value_or(std::numeric_limits<Day>::min());
}

/// By day, then as `better` says.
bool is_later(const Statement& a, const Statement& b) {
  const Day a_day = day_of(a), b_day = day_of(b);
  return a_day != b_day ? a_day > b_day : better(&a, &b);
}

}  // namespace

RecordView RecordView::read(const StatementReader& reader, const RecordInfo& info) {
  RecordView view;
  view.info = info;
  Query query;
  query.subject = info.id;
  reader.each_statement(query, [&](Statement& statement) {
    if (statement.presence == Presence::present) view.facts.push_back(std::move(statement));
    return true;
  });
  return view;
}

std::vector<const Statement*> RecordView::all(std::string_view property) const {
  const std::uint32_t wanted = Registry::standard().named(property).id;
  std::vector<const Statement*> found;
  for (const Statement& fact : facts)
    if (fact.content.property == wanted && fact.current) found.push_back(&fact);
  if (found.size() > 1) std::stable_sort(found.begin(), found.end(), better);
  return found;
}

const Statement* RecordView::best(std::string_view property) const {
  const std::uint32_t wanted = Registry::standard().named(property).id;
  const Statement* found = nullptr;
  for (const Statement& fact : facts)
    if (fact.content.property == wanted && fact.current && (found == nullptr || better(&fact, found)))
      found = &fact;
  return found;
}

std::vector<const Statement*> RecordView::history(std::string_view property) const {
  auto found = all(property);
  if (found.size() < 2) return found;
  std::reverse(found.begin(), found.end());
  std::stable_sort(found.begin(), found.end(),
                   [&](const Statement* a, const Statement* b) { return day_of(*a) < day_of(*b); });
  return found;
}

const Statement* RecordView::latest(std::string_view property) const {
  const std::uint32_t wanted = Registry::standard().named(property).id;
  const Statement* found = nullptr;
  for (const Statement& fact : facts)
    if (fact.content.property == wanted && fact.current && (found == nullptr || is_later(fact, *found)))
      found = &fact;
  return found;
}

std::string RecordView::text(std::string_view property) const {
  const Statement* statement = best(property);
  return statement ? statement->content.value : std::string();
}

std::string RecordView::edtf(std::string_view property) const {
  const Statement* statement = best(property);
  return statement ? std::string(edtf_of(statement->content)) : std::string();
}

std::optional<Uuid> RecordView::record(std::string_view property) const {
  const Statement* statement = best(property);
  return statement ? Uuid::parse(statement->content.value) : std::nullopt;
}

std::string_view edtf_of(const Content& content) {
  return content.edtf.empty() ? content.value : content.edtf;
}

std::string display(const RecordInfo& info) {
  if (info.code.empty() && info.name.empty()) return info.id.text();
  if (info.code.empty()) return info.name;
  if (info.name.empty()) return info.code;
  return info.code + " " + info.name;
}

}  // namespace lathbook
