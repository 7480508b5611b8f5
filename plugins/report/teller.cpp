// Names, values and statements in words.
#include "plugins/report/teller.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/words.hpp"

namespace lathbook::report {

namespace {

/// "Ada Crane's house": a name that begins with whose it is takes no article.
bool is_owned(const std::string& name) {
  const std::vector<std::string> words = split(name, ' ');
  const auto end = words.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(words.size(), 3));
  return std::any_of(words.begin(), end, [](const std::string& word) {
    return word.ends_with("'s") || word.ends_with("s'") || word.ends_with("’s");
  });
}

std::string with_article(const std::string& name) {
  const std::string words = inside(name);
  if (name.starts_with("The ") || name.starts_with("the ")) return "the " + words.substr(4);
  return is_owned(name) && words == name ? words : "the " + words;
}

}  // namespace

Teller::Teller(const Snapshot& archive, const std::vector<Digest>& leave_out)
    : archive_(archive), leave_out_(leave_out), notes_(archive) {}

std::optional<RecordInfo> Teller::record(const Uuid& id) const {
  return id == Uuid{} ? std::nullopt : reader().record(id);
}

const RecordView& Teller::view(const Uuid& id) {
  const auto known = views_.find(id);
  if (known != views_.end()) return known->second;
  RecordView view;
  if (const auto info = record(id)) view = RecordView::read(reader(), *info);
  std::erase_if(view.facts, [&](const Statement& fact) {
    return std::find(leave_out_.begin(), leave_out_.end(), fact.id) != leave_out_.end();
  });
  return views_[id] = std::move(view);
}

std::string Teller::name(const Uuid& id) {
  const auto known = names_.find(id);
  if (known != names_.end()) return known->second;
  const auto info = record(id);
  std::string words = phrase("not-given");
  if (info) {
    const std::string name = foreign(info->name.empty() ? display(*info) : info->name);
    const std::string code = info->code.empty() || info->name.empty() ? "" : " (" + foreign(info->code) + ")";
    if (info->kind == Kind::agent) {
      words = name;
    } else if (info->kind == Kind::source) {
      const SourceView source(view(id));
      const std::string title = foreign(source.title.empty() ? info->name : source.title);
      const std::string type = source.type == "other document" ? "document" : foreign(source.type);
      words = (type.empty() ? "" : "the " + type + " ") + "“" + title + "”";
      if (!source.date.empty()) words += " (" + telling(kDate, foreign(date_in_words(source.date))) + ")";
    } else if (info->kind == Kind::place) {
      words = telling(view(id).text("place-type") == "room" ? kRoom : kNothing,
                      "the " + (name.starts_with("The ") ? name.substr(4) : name) + code);
    } else {
      words = with_article(name) + code;
    }
  }
  return names_[id] = words;
}

std::string Teller::label(const Uuid& id) {
  const auto info = record(id);
  if (!info) return phrase("not-given");
  if (info->kind == Kind::agent || info->kind == Kind::source) return name(id);
  const std::string name = foreign(info->name.empty() ? display(*info) : inside(info->name));
  return name + (info->code.empty() || info->name.empty() ? "" : " (" + foreign(info->code) + ")");
}

std::string Teller::value(const Statement& statement) {
  const Content& content = statement.content;
  const Property* property = Registry::standard().find(content.property);
  if (property != nullptr && property->type == ValueType::record) {
    const auto id = Uuid::parse(content.value);
    return id ? name(*id) : phrase("not-given");
  }
  if (property != nullptr && property->type == ValueType::date)
    return telling(kDate, foreign(date_in_words(edtf_of(content))));
  return foreign(content.value);
}

std::string Teller::doubt(const Statement& statement) const {
  const Confidence confidence = statement.content.confidence;
  if (confidence == Confidence::certain || confidence == Confidence::none) return {};
  return " (" + std::string(word(confidence)) + ")";
}

std::string Teller::claim(const Statement& statement) {
  const Property* property = Registry::standard().find(statement.content.property);
  const std::string label = property == nullptr ? std::string() : property->label;
  const bool verb = property != nullptr &&
                    (property->type == ValueType::record || property->type == ValueType::date) &&
                    label != "dated" && label != "born" && label != "died";
  std::string said = value(statement);
  // "belongs to the works" and "the works of 1924" have the same words where they meet.
  const std::string twice = "the works";
  if (label.ends_with(twice) && said.starts_with(twice)) said.erase(0, twice.size() + 1);
  return name(statement.content.subject) + (verb ? " " : ": ") + label + " " + said;
}

std::vector<Uuid> Teller::places_around(const Uuid& place) {
  // A loop of 'within', which a merge can make, ends where it meets itself.
  std::vector<Uuid> around;
  for (std::optional<Uuid> next = place;
       next && record(*next) && std::find(around.begin(), around.end(), *next) == around.end();
       next = view(*next).record("within"))
    around.push_back(*next);
  return around;
}

std::vector<int> Teller::cite(const Bound& bound) {
  std::vector<int> numbers;
  if (!bound.known) return numbers;
  for (const ReasonStep& step : bound.reason)
    if (const auto found = statement(step.statement)) add_notes(numbers, cite(*found));
  return numbers;
}

std::vector<int> Teller::cite(const Span& span) {
  std::vector<int> numbers = cite(span.earliest);
  add_notes(numbers, cite(span.latest));
  return numbers;
}

std::vector<Statement> Teller::query(const Query& query) const {
  std::vector<Statement> found;
  reader().each_statement(query, [&](const Statement& one) {
    const bool is_left_out = std::find(leave_out_.begin(), leave_out_.end(), one.id) != leave_out_.end();
    if (one.presence == Presence::present && !is_left_out) found.push_back(one);
    return true;
  });
  return found;
}

std::vector<Statement> Teller::said(const Uuid& subject, std::string_view property) {
  const std::uint32_t wanted = Registry::standard().named(property).id;
  std::vector<Statement> found;
  for (const Statement& fact : view(subject).facts)
    if (fact.presence == Presence::present && fact.content.property == wanted) found.push_back(fact);
  return found;
}

std::vector<Statement> Teller::said_to(const Uuid& object, std::string_view property) const {
  Query wanted;
  wanted.object = object;
  wanted.properties = {Registry::standard().named(property).id};
  return query(wanted);
}

std::vector<Statement> Teller::all(std::string_view property) const {
  Query wanted;
  wanted.properties = {Registry::standard().named(property).id};
  return query(wanted);
}

std::vector<Statement> Teller::citing(const Uuid& source) const {
  Query wanted;
  wanted.source = source;
  return query(wanted);
}

std::optional<Statement> Teller::statement(const Digest& id) const {
  if (id == Digest{}) return std::nullopt;
  auto found = reader().statement(id);
  if (found && found->presence != Presence::present) found.reset();
  return found;
}

std::string Teller::said_in_words(const Uuid& subject, std::string_view property, std::vector<int>& notes,
                                  std::string_view detail) {
  std::vector<std::string> words;
  for (const Statement& one : said(subject, property)) {
    const std::string more = detail.empty() ? std::string() : foreign(one.content.qualifier(detail));
    const std::string said = value(one) + (more.empty() ? "" : " (" + more + ")") + doubt(one);
    if (std::find(words.begin(), words.end(), said) == words.end()) words.push_back(said);
    add_notes(notes, cite(one));
  }
  return join(words, "; ");
}

std::string Teller::about(const Span& span) const {
  if (!span.earliest.known || !span.latest.known || span.earliest.day == span.latest.day) return {};
  const Day middle = span.earliest.day + (span.latest.day - span.earliest.day) / 2;
  for (const ReasonStep& step : span.earliest.reason) {
    const auto same = [&](const ReasonStep& other) { return other.statement == step.statement; };
    if (std::none_of(span.latest.reason.begin(), span.latest.reason.end(), same)) continue;
    const auto said = statement(step.statement);
    const auto date = said ? Edtf::try_parse(edtf_of(said->content)) : std::nullopt;
    const EdtfDate* point = date && date->shape() == EdtfShape::date ? date->first_date() : nullptr;
    if (point && point->qualifier().approximate && point->earliest <= middle && middle <= point->latest)
      return date_in_words(date->text());
  }
  return {};
}

}  // namespace lathbook::report
