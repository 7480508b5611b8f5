// Makes random archives and answers queries on them.
#include "tests/support/random_archive.hpp"

#include <algorithm>
#include <stdexcept>

#include "core/base/text.hpp"
#include "core/evidence/validation.hpp"

namespace lathbook::test {

namespace {

constexpr std::int64_t kDay = 20'000;  // 2024-10-04

/// Values that make a tree: the record named is always an older one, so that there is no circle.
bool is_tree(std::string_view property) {
  return property == "within" || property == "part-of" || property == "fragment-of" ||
         property == "in-container" || property == "split-from" || property == "merged-into";
}

std::optional<ValueType> type_of_detail(const QualifierRule& rule) {
  if (const auto type = value_type_from_word(rule.type)) return type;
  return ValueType::choice;
}

}  // namespace

RandomArchive::RandomArchive(unsigned seed, RandomOptions options)
    : seed_(seed), options_(options), draw_(seed, options.hard_words) {
  state.fingerprint = sha256("random archive " + std::to_string(seed));
  state.known_day = kDay;
  make_records(options.statements);
  say_places();
  const std::size_t clerical = statements_.size();
  for (std::size_t tries = 0; statements_.size() < clerical + options.statements; ++tries) {
    if (tries > 50 * options.statements + 1000) throw std::logic_error("no random archive comes about");
    draw_.chance(4) ? take_back() : say_something();
  }
  finish();
}

Uuid RandomArchive::make(Kind kind) {
  const std::size_t number = records_.size();
  const Uuid id = uuid_from_name("random " + std::to_string(seed_) + " " + std::to_string(number));
  records_.push_back({id, kind, "R-" + std::to_string(seed_) + "." + std::to_string(number), {}});
  record_at_.emplace(id, number);
  of_kind_[kind].push_back(number);
  Content content;
  content.subject = id;
  content.property = property::kind;
  content.value = word(kind);
  add(content);
  content.property = property::code;
  content.value = records_.back().code;
  add(content);
  return id;
}

void RandomArchive::make_records(std::size_t statements) {
  make(Kind::source);
  make(Kind::agent);
  for (int place = 0; place < 4; ++place) room = make(Kind::place);
  make(Kind::archive);
  for (std::size_t more = 4 + statements / 5; more > 0; --more) {
    const Kind kind = draw_.one_of(all_kinds());
    if (kind != Kind::archive) make(kind);
  }
}

void RandomArchive::say_places() {
  constexpr const char* types[] = {"site", "building", "storey", "room"};
  for (int number = 0; number < 4; ++number) {
    Content content;
    const auto& places = of_kind_.at(Kind::place);
    content.subject = records_[places[static_cast<std::size_t>(number)]].id;
    content.property = Registry::standard().named("place-type").id;
    content.value = types[number];
    add(content);
    if (number == 0) continue;
    content.property = Registry::standard().named("within").id;
    content.value = records_[places[static_cast<std::size_t>(number) - 1]].id.text();
    add_evidence(content, Registry::standard().named("within"));
    add(content);
  }
}

std::optional<std::string> RandomArchive::record_for(const Property& property, std::size_t subject) {
  std::vector<std::size_t> fit;
  for (std::size_t at = 0; at < records_.size(); ++at) {
    const Kind kind = records_[at].kind;
    const bool wanted = property.same_kind ? kind == records_[subject].kind
                                           : property.targets.empty() ||
                                                 std::find(property.targets.begin(), property.targets.end(),
                                                           kind) != property.targets.end();
    const bool older = !is_tree(property.name) || at < subject;
    // Without contradictions every relation runs from the younger to the older record.
    if (wanted && at != subject && older && (options_.contradictions || at < subject)) fit.push_back(at);
  }
  if (fit.empty()) return std::nullopt;
  return records_[draw_.one_of(fit)].id.text();
}

bool RandomArchive::may_have_another(const Property& property, const Uuid& subject) {
  if (property.many || (options_.contradictions && draw_.chance(10))) return true;
  const auto& known = about_[subject];
  return std::none_of(known.begin(), known.end(), [&](std::size_t at) {
    return statements_[at].current && statements_[at].content.property == property.id;
  });
}

void RandomArchive::add_evidence(Content& content, const Property& property) {
  const auto random_of = [&](Kind kind) { return records_[draw_.one_of(of_kind_.at(kind))].id; };
  if (draw_.chance(80)) content.author = random_of(Kind::agent);
  if (draw_.chance(80)) content.recorder = random_of(Kind::agent);
  if (draw_.chance(60)) content.said_on = draw_.edtf();
  if (property.cites == Cites::none) return;
  content.evidence = static_cast<EvidenceClass>(1 + draw_.below(4));
  content.confidence = static_cast<Confidence>(1 + draw_.below(draw_.chance(70) ? 2 : 4));
  for (std::size_t count = 1 + draw_.below(2); count > 0; --count)
    content.citations.push_back({random_of(Kind::source), draw_.chance(70) ? draw_.text() : std::string(),
                                 draw_.chance(20) ? draw_.text() : std::string()});
  if (draw_.chance(8)) {
    const Statement& ground = draw_.one_of(statements_);
    if (ground.content.confidence != Confidence::none) content.grounds = {ground.id};
  }
  if (draw_.chance(10)) content.why = draw_.text();
}

void RandomArchive::say_something() {
  const std::size_t subject = draw_.below(records_.size());
  const Property& property = draw_.one_of(Registry::standard().properties());
  const bool clerical = property.id == property::kind || property.id == property::code ||
                        property.id == property::private_record;
  if (clerical || !property.said_of(records_[subject].kind)) return;
  if (!may_have_another(property, records_[subject].id)) return;
  Content content;
  content.subject = records_[subject].id;
  content.property = property.id;
  if (property.type == ValueType::record) {
    const auto value = record_for(property, subject);
    if (!value) return;
    content.value = *value;
  } else if (property.type == ValueType::statement) {
    content.value = draw_.one_of(statements_).id.hex();
  } else {
    content.value = draw_.value(property.type, property.choices);
    if (property.type == ValueType::text && draw_.chance(10))
      content.language = draw_.chance(50) ? "de" : "en-GB";
  }
  for (const QualifierRule& rule : property.qualifiers)
    if (rule.required || draw_.chance(40)) {
      std::string value = draw_.value(*type_of_detail(rule), rule.type);
      if (rule.type == "date") value = draw_.edtf();
      content.qualifiers.push_back({rule.name, std::move(value)});
    }
  add_evidence(content, property);
  const auto& known = about_[content.subject];
  for (const std::size_t at : known) {
    const Statement& older = statements_[at];
    if (older.current && older.content.property == property.id && content.targets.empty() &&
        draw_.chance(30)) {
      content.targets = {older.id};
      content.why = draw_.text();
    }
  }
  add(std::move(content));
}

void RandomArchive::take_back() {
  const Statement& target = draw_.one_of(statements_);
  const Property* property = Registry::standard().find(target.content.property);
  if (property == nullptr || property->cites == Cites::none || !target.current) return;
  Content content;
  content.act = Act::withdraw;
  content.targets = {target.id};
  content.why = draw_.text();
  if (draw_.chance(80)) content.recorder = records_[draw_.one_of(of_kind_.at(Kind::agent))].id;
  add(std::move(content));
}

void RandomArchive::add(Content content) {
  const KindOf kind_of = [&](const Uuid& id) -> std::optional<Kind> {
    const auto found = record_at_.find(id);
    if (found == record_at_.end()) return std::nullopt;
    return records_[found->second].kind;
  };
  complete(content, Registry::standard(), kind_of);
  const Findings faults = validate(content, Registry::standard(), kind_of);
  if (!faults.empty()) throw std::logic_error("seed " + std::to_string(seed_) + ": " + faults.front().text);
  Statement statement;
  const std::size_t at = statements_.size();
  statement.row = static_cast<std::int64_t>(at) + 1;
  statement.header.chain[0] = draw_.chance(85) ? 1 : 2;
  statement.header.number = at + 1;
  statement.header.entered = Moment{kDay * 86'400 - 1'000'000 + static_cast<std::int64_t>(at) * 60, 0};
  statement.id = sha256("statement " + std::to_string(seed_) + " " + std::to_string(at));
  for (const Digest& target : content.targets) statements_[statement_at_.at(target)].current = false;
  if (content.act == Act::state) {
    about_[content.subject].push_back(at);
    if (const auto object = Uuid::parse(content.value)) naming_[*object].push_back(at);
  }
  statement.content = std::move(content);
  statement_at_.emplace(statement.id, at);
  statements_.push_back(std::move(statement));
}

/// What a withdrawn replacement had replaced stands again, as in an archive on disk: from the youngest to the
/// oldest, a statement is current when no current one replaces or withdraws it.
void RandomArchive::finish() {
  std::set<Digest> replaced;
  for (auto statement = statements_.rbegin(); statement != statements_.rend(); ++statement) {
    statement->current = replaced.count(statement->id) == 0;
    if (statement->current)
      replaced.insert(statement->content.targets.begin(), statement->content.targets.end());
  }
  for (RecordInfo& record : records_)
    for (const char* property : {"description", "title", "name"})
      for (const std::size_t at : about_[record.id])
        if (statements_[at].current &&
            statements_[at].content.property == Registry::standard().named(property).id)
          record.name = statements_[at].content.value;
}

void RandomArchive::each_statement(const Query& query, const OnStatement& on_statement) const {
  const auto fits = [&](const Statement& statement) {
    const Content& said = statement.content;
    if (query.current_only && !statement.current) return false;
    if (query.subject && said.subject != *query.subject) return false;
    if (query.object && said.value != query.object->text()) return false;
    if (query.kind && (said.act != Act::state || record(said.subject)->kind != *query.kind)) return false;
    if (!query.properties.empty() &&
        std::find(query.properties.begin(), query.properties.end(), said.property) == query.properties.end())
      return false;
    return !query.source || std::any_of(said.citations.begin(), said.citations.end(),
                                        [&](const Citation& one) { return one.source == *query.source; });
  };
  const auto& list = query.subject ? about_ : naming_;
  std::vector<const Statement*> found;
  if (query.subject || query.object) {
    const auto some = list.find(query.subject ? *query.subject : *query.object);
    if (some == list.end()) return;
    for (const std::size_t at : some->second)
      if (fits(statements_[at])) found.push_back(&statements_[at]);
  } else {
    for (const Statement& statement : statements_)
      if (fits(statement)) found.push_back(&statement);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Statement* a, const Statement* b) { return a->header.chain < b->header.chain; });
  for (const Statement* statement : found) {
    Statement copy = *statement;
    if (!on_statement(copy)) return;
  }
}

void RandomArchive::each_record(Kind kind, const OnRecord& on_record) const {
  for (const RecordInfo& info : records_)
    if ((kind == Kind::unknown || info.kind == kind) && !on_record(info)) return;
}

std::optional<RecordInfo> RandomArchive::record(const Uuid& id) const {
  const auto found = record_at_.find(id);
  if (found == record_at_.end()) return std::nullopt;
  return records_[found->second];
}

std::optional<RecordInfo> RandomArchive::record_by_code(std::string_view code) const {
  for (const RecordInfo& info : records_)
    if (info.code == code) return info;
  return std::nullopt;
}

std::optional<Statement> RandomArchive::statement(const Digest& id) const {
  const auto found = statement_at_.find(id);
  if (found == statement_at_.end()) return std::nullopt;
  return statements_[found->second];
}

}  // namespace lathbook::test
