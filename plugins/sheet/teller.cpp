// Records, statements and citations in words; the numbering of notes.
#include "plugins/sheet/teller.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

namespace {

constexpr int deepest_ground = 3;

/// The source's view with its date as a reader says it.
SourceView readable(RecordView view) {
  SourceView source(std::move(view));
  if (!source.date_typed.empty()) source.date_typed = date_in_words(source.date_typed);
  return source;
}

/// 'Other document' is a word of the list, and no name for a paper.
std::string type_words(const SourceView& source) {
  return source.type == "other document" ? std::string("document") : foreign(source.type);
}

std::string title_of(const SourceView& source) {
  return foreign(source.title.empty() ? display(source.record.info) : source.title);
}

/// "Ada Crane's house": a name that begins with whose it is takes no article.
bool is_owned(const std::string& name) {
  const std::vector<std::string> words = split(name, ' ');
  return std::any_of(words.begin(),
                     words.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(words.size(), 3)),
                     [](const std::string& word) {
                       return word.ends_with("'s") || word.ends_with("s'") || word.ends_with("’s");
                     });
}

}  // namespace

std::string foreign(std::string_view text) {
  std::string line = safe_display(text);
  std::replace(line.begin(), line.end(), '\n', ' ');
  return std::string(trim(line));
}

void add_notes(std::vector<int>& notes, const std::vector<int>& more) {
  notes.insert(notes.end(), more.begin(), more.end());
  std::sort(notes.begin(), notes.end());
  notes.erase(std::unique(notes.begin(), notes.end()), notes.end());
}

Teller::Teller(const Snapshot& archive, const std::vector<Digest>& leave_out)
    : archive_(archive), leave_out_(leave_out) {}

std::optional<RecordInfo> Teller::record(const Uuid& id) const {
  return id == Uuid{} ? std::nullopt : reader().record(id);
}

const SourceView* Teller::source(const Uuid& id) {
  const auto known = sources_.find(id);
  if (known != sources_.end()) return known->second ? &*known->second : nullptr;
  const auto info = record(id);
  auto& kept = sources_[id];
  if (info && info->kind == Kind::source) kept = readable(RecordView::read(reader(), *info));
  return kept ? &*kept : nullptr;
}

std::string Teller::name(const Uuid& id) {
  const auto known = names_.find(id);
  if (known != names_.end()) return known->second;
  const auto info = record(id);
  std::string words(english().not_given);
  if (const SourceView* view = source(id)) {
    words = (view->type.empty() ? "" : "the " + type_words(*view) + " ") + "“" + title_of(*view) + "”";
    if (!view->date_typed.empty()) words += " (" + foreign(view->date_typed) + ")";
  } else if (info && (info->kind == Kind::agent || info->name.empty())) {
    words = foreign(info->name.empty() ? display(*info) : info->name);
  } else if (info) {
    const bool has_article = info->name.starts_with("The ") || info->name.starts_with("the ");
    const bool owned = is_owned(info->name) && inside(info->name) == info->name;
    words = (has_article || owned ? "" : "the ") + foreign(inside(info->name));
    if (has_article) words[0] = 't';
    if (!info->code.empty()) words += " (" + foreign(info->code) + ")";
  }
  return names_[id] = words;
}

std::string Teller::value(const Statement& statement) {
  const Content& content = statement.content;
  const Property* property = Registry::standard().find(content.property);
  if (property && property->type == ValueType::record) {
    const auto id = Uuid::parse(content.value);
    return id ? name(*id) : std::string(english().not_given);
  }
  if (property && property->type == ValueType::date) return foreign(date_in_words(content.value));
  return foreign(content.value);
}

std::string Teller::say(const Statement& statement) {
  const Property* property = Registry::standard().find(statement.content.property);
  const std::string label = property ? property->label : std::string();
  const bool verb = property && (property->type == ValueType::record || property->type == ValueType::date) &&
                    label != "dated" && label != "born" && label != "died";
  return name(statement.content.subject) + (verb ? " " : ": ") + label + " " + value(statement);
}

std::vector<int> Teller::cite(const Statement& statement) {
  std::vector<int> numbers;
  for (const Citation& citation : statement.content.citations) add_notes(numbers, {note(citation)});
  if (numbers.empty() && source(statement.content.subject) != nullptr)
    numbers.push_back(note({statement.content.subject, {}, {}}));
  if (numbers.empty()) numbers.push_back(note_of_archive(statement));
  return numbers;
}

int Teller::note(const Citation& citation) {
  const auto key = std::make_tuple(citation.source, citation.locator, citation.quote);
  if (const auto known = numbers_.find(key); known != numbers_.end()) return known->second;
  Note note;
  note.number = static_cast<int>(notes_.size()) + 1;
  note.quote = foreign(citation.quote);
  const SourceView* view = source(citation.source);
  if (view == nullptr) {
    note.words = english().source_not_given;
    note.quote.clear();
  } else if (const auto full = full_.find(citation.source); full != full_.end()) {
    note.full_in = full->second;
    note.words = title_of(*view) + (citation.locator.empty() ? "" : ", " + foreign(citation.locator));
  } else {
    full_[citation.source] = note.number;
    note.words = foreign(view->footnote(citation.locator));
  }
  notes_.push_back(note);
  return numbers_[key] = note.number;
}

int Teller::note_of_archive(const Statement& statement) {
  const auto known = archive_numbers_.find(statement.id);
  if (known != archive_numbers_.end()) return known->second;
  Note note;
  note.number = static_cast<int>(notes_.size()) + 1;
  note.words = fill(english().no_source, {{"name", statement.name()}});
  notes_.push_back(note);
  return archive_numbers_[statement.id] = note.number;
}

Step Teller::step(const ReasonStep& reason, std::set<Digest>& shown) {
  if (reason.statement == Digest{}) return {capital(foreign(reason.words)), {}, {}, {}, {}, {}};
  const auto found = statement(reason.statement);
  if (!found) return {std::string(english().statement_not_given), {}, {}, {}, {}, {}};
  Step step = this->step(*found, shown);
  if (!reason.words.empty()) step.words = capital(foreign(reason.words));
  return step;
}

Step Teller::step(const Statement& statement, std::set<Digest>& shown, int depth) {
  const Content& content = statement.content;
  Step step;
  step.words = capital(say(statement));
  step.basis = basis_words(content.evidence, content.confidence);
  std::string who;
  if (content.author && record(*content.author)) who = name(*content.author);
  if (!content.said_on.empty()) who += (who.empty() ? "" : ", ") + date_in_words(content.said_on);
  if (!who.empty()) step.basis += (step.basis.empty() ? "" : "; ") + who;
  step.remark = foreign(content.why);
  step.statement = statement.name();
  step.notes = cite(statement);
  if (shown.insert(statement.id).second && depth < deepest_ground)
    for (const Digest& ground : content.grounds)
      if (const auto found = this->statement(ground))
        step.grounds.push_back(this->step(*found, shown, depth + 1));
  return step;
}

std::vector<Statement> Teller::query(const Query& query) const {
  std::vector<Statement> found;
  reader().each_statement(query, [&](const Statement& statement) {
    const bool is_left_out =
        std::find(leave_out_.begin(), leave_out_.end(), statement.id) != leave_out_.end();
    if (statement.presence == Presence::present && !is_left_out) found.push_back(statement);
    return true;
  });
  return found;
}

std::vector<Statement> Teller::said(const Uuid& subject, std::string_view property) const {
  Query query;
  query.subject = subject;
  query.properties = {Registry::standard().named(property).id};
  return this->query(query);
}

std::vector<Statement> Teller::said_to(const Uuid& object, std::string_view property) const {
  Query query;
  query.object = object;
  query.properties = {Registry::standard().named(property).id};
  return this->query(query);
}

std::optional<Statement> Teller::statement(const Digest& id) const {
  auto found = reader().statement(id);
  if (found && found->presence != Presence::present) found.reset();
  return found;
}

std::vector<SourceLine> Teller::sources() const {
  std::vector<SourceLine> lines;
  for (const auto& [id, number] : full_)
    if (const auto& view = sources_.at(id))
      lines.push_back({foreign(view->record.info.code), foreign(view->footnote({}))});
  std::sort(lines.begin(), lines.end(), [](const SourceLine& a, const SourceLine& b) {
    const int order = compare_for_people(a.code, b.code);
    return order != 0 ? order < 0 : a.words < b.words;
  });
  return lines;
}

}  // namespace lathbook::sheet
