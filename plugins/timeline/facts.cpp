// Gathers the facts in one pass over the statements that matter.
#include "plugins/timeline/facts.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

// Properties without a rule of dating that the timeline shows or finds its way by.
constexpr std::array<std::string_view, 28> kAlso{
    "element-type", "material",     "placements",    "part-of",    "split-from",      "merged-into",
    "within",       "like-seen-in", "mentioned-in",  "begun",      "takes-over-from", "touches",
    "intended-for", "fitted-in",    "phase-of",      "phase-part", "piece-of",        "piece-type",
    "stands-in",    "examined",     "element-class", "sought",     "campaign-of",     "stripping-looked-for",
    "in-front-of",  "place-began",  "place-ended",   "place-type"};

std::vector<std::uint32_t> wanted() {
  std::vector<std::uint32_t> ids;
  for (const Property& property : Registry::standard().properties())
    if (!property.dating.empty() || std::find(kAlso.begin(), kAlso.end(), property.name) != kAlso.end())
      ids.push_back(property.id);
  return ids;
}

std::uint8_t level_of(Confidence confidence) {
  switch (confidence) {
    case Confidence::none:
    case Confidence::certain:
      return 1;
    case Confidence::probable:
      return 2;
    case Confidence::possible:
      return 3;
    case Confidence::conjecture:
      break;
  }
  return kNever;
}

const std::vector<std::uint32_t> kNothing;

const std::vector<std::uint32_t>& listed(const std::unordered_map<Uuid, std::vector<std::uint32_t>>& index,
                                         const Uuid& id) {
  const auto found = index.find(id);
  return found == index.end() ? kNothing : found->second;
}

}  // namespace

std::string Fact::missing_detail() const {
  for (const QualifierRule& rule : property->qualifiers)
    if (rule.required && trim(content().qualifier(rule.name)).empty()) return rule.name;
  return {};
}

bool Fact::is_complete() const {
  for (const QualifierRule& rule : property->qualifiers)
    if (rule.required && trim(content().qualifier(rule.name)).empty()) return false;
  return content().qualifier("contact") != "not read";
}

int Fact::placement(std::string_view qualifier) const {
  return std::max(0, number_in<int>(content().qualifier(qualifier)).value_or(0));
}

Facts::Facts(const Snapshot& archive, const AnalysisRequest& request, const Services& services) {
  gather(archive, request, services);
  std::vector<Statement> set;
  for (const Fact& fact : all_)
    if (fact.rule() == "setting") set.push_back(fact.statement);
  settings_ = Settings(archive.reading().known_day, set);
  for (std::uint32_t index = 0; index < all_.size(); ++index) {
    Fact& fact = all_[index];
    read(fact);
    about_[fact.subject()].push_back(index);
    if (fact.object) naming_[*fact.object].push_back(index);
  }
  archive.statements().each_record(Kind::unknown, [&](const RecordInfo& info) {
    record_at_.emplace(info.id, records_.size());
    records_.push_back(info);
    return !services.stop_requested();
  });
}

void Facts::gather(const Snapshot& archive, const AnalysisRequest& request, const Services& services) {
  Query query;
  query.properties = wanted();
  archive.statements().each_statement(query, [&](const Statement& statement) {
    const Property* property = Registry::standard().find(statement.content.property);
    if (statement.presence == Presence::present && property && statement.content.act == Act::state)
      all_.push_back({statement, property, level_of(statement.content.confidence), {}, {}});
    return !services.stop_requested();
  });
  std::set<Digest> dropped(request.leave_out.begin(), request.leave_out.end());
  std::set<Digest> ruled;
  for (const Fact& fact : all_) {
    if (fact.rule() != "ruling" || dropped.count(fact.statement.id) != 0 || fact.level == kNever) continue;
    if (const auto target = Digest::from_hex(fact.content().value)) ruled.insert(*target);
  }
  for (const Fact& fact : all_)
    if (ruled.count(fact.statement.id) != 0) ruled_out_.push_back(fact.statement.name());
  all_.erase(std::remove_if(all_.begin(), all_.end(),
                            [&](const Fact& fact) {
                              return dropped.count(fact.statement.id) != 0 ||
                                     ruled.count(fact.statement.id) != 0;
                            }),
             all_.end());
}

void Facts::read(Fact& fact) const {
  if (fact.property->type == ValueType::record) fact.object = Uuid::parse(fact.content().value);
  if (fact.property->type != ValueType::date) return;
  fact.range = read_range(fact.content(), settings_);
  if (fact.range && fact.range->unsure && fact.level < kNever) ++fact.level;
}

const std::vector<std::uint32_t>& Facts::about(const Uuid& subject) const {
  return listed(about_, subject);
}

const std::vector<std::uint32_t>& Facts::naming(const Uuid& object) const {
  return listed(naming_, object);
}

const Fact* Facts::best(const Uuid& subject, std::string_view property) const {
  const Fact* found = nullptr;
  for (const std::uint32_t index : about(subject)) {
    const Fact& fact = all_[index];
    if (fact.name() == property && (!found || fact.level <= found->level)) found = &fact;
  }
  return found;
}

std::string Facts::text(const Uuid& subject, std::string_view property) const {
  const Fact* fact = best(subject, property);
  return fact ? fact->content().value : std::string();
}

const RecordInfo* Facts::record(const Uuid& id) const {
  const auto found = record_at_.find(id);
  return found == record_at_.end() ? nullptr : &records_[found->second];
}

}  // namespace lathbook::timeline
