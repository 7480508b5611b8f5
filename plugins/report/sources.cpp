// Reads sources as the notes style wants them, and numbers what is cited.
#include "plugins/report/sources.hpp"

#include <algorithm>
#include <cctype>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/picture/region.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/words.hpp"
#include "plugins/report/phrases.hpp"
#include "plugins/report/picture.hpp"
#include "plugins/report/tree_walk.hpp"

namespace lathbook::report {

namespace {

/// A sentence with more places than these has one note that cites them all (common practice in the notes
/// style, from memory: a single note for several sources, parted by semicolons).
constexpr std::size_t kMostNotes = 4;

/// "C." or "J. W.": what stands before a person's family name.
bool initials(std::string_view words) {
  bool letter = false;
  for (const char c : words) {
    if (c >= 'A' && c <= 'Z') {
      if (letter) return false;
      letter = true;
    } else if (c == '.') {
      if (!letter) return false;
      letter = false;
    } else if (c != ' ' || letter) {
      return false;
    }
  }
  return !words.empty() && !letter;
}

/// "1911~" is "ca. 1911", "1931?" is "[1931?]": the two doubts are not the same.
std::string note_date(const std::string& edtf, const std::string& typed) {
  const auto date = Edtf::try_parse(edtf);
  if (!date) return foreign(typed);
  if (date->shape() == EdtfShape::date && date->approximate()) {
    std::string words = date_in_words(edtf);
    if (words.starts_with("about ")) return "ca. " + words.substr(6);
    return words;
  }
  if (date->shape() == EdtfShape::date && date->uncertain() && date->precision() == Precision::year)
    return "[" + date->text().substr(0, date->text().find('?')) + "?]";
  return foreign(date_in_words(edtf));
}

/// "sheet " and "3" of "sheet 3"; nothing where the text does not end in a number.
bool part_number(const std::string& text, std::string& words, long& number) {
  std::size_t at = text.size();
  while (at > 0 && std::isdigit(static_cast<unsigned char>(text[at - 1]))) --at;
  if (at == text.size() || text.size() - at > 6) return false;
  words = text.substr(0, at);
  number = std::stol(text.substr(at));
  return true;
}

/// A place in a source for people: a region of a picture (xywh=196,168,310,104) is told as where it begins
/// and how large it is.
std::string place_words(const std::string& locator) {
  const std::string sign = "xywh=";
  const auto at = locator.find(sign);
  if (at == std::string::npos) return foreign(locator);
  const auto end = locator.find_first_not_of("0123456789,.", at + sign.size());
  const auto numbers = split(locator.substr(at + sign.size(), end - at - sign.size()), ',');
  if (numbers.size() != 4) return foreign(locator);
  return foreign(locator.substr(0, at) +
                 phrase("note.region",
                        {{"x", numbers[0]}, {"y", numbers[1]}, {"wide", numbers[2]}, {"high", numbers[3]}}) +
                 (end == std::string::npos ? "" : locator.substr(end)));
}

/// The best of a text property, fit for a line.
std::string said(const RecordView& record, std::string_view property) {
  return foreign(record.text(property));
}

/// Whether a picture shows the place a note tells of: one of leaf 23 does not show leaf 31.
bool shows(const Figure& figure, const std::string& locator) {
  if (figure.part.empty() || locator.empty()) return true;
  if (!locator.starts_with(figure.part)) return false;
  return locator.size() == figure.part.size() ||
         !std::isalnum(static_cast<unsigned char>(locator[figure.part.size()]));
}

}  // namespace

std::string drawn_together(std::vector<std::string> locators) {
  std::sort(locators.begin(), locators.end(),
            [](const auto& a, const auto& b) { return compare_for_people(a, b) < 0; });
  locators.erase(std::unique(locators.begin(), locators.end()), locators.end());
  std::string out;
  std::string prefix;
  for (std::size_t at = 0; at < locators.size();) {
    std::string words;
    long first = 0;
    const bool numbered = part_number(locators[at], words, first);
    std::size_t end = at + 1;
    long last = first;
    for (std::string next; numbered && end < locators.size(); ++end) {
      long number = 0;
      if (!part_number(locators[end], next, number) || next != words || number != last + 1) break;
      last = number;
    }
    const bool same = numbered && !prefix.empty() && words == prefix;
    out += (out.empty() ? "" : same ? ", " : "; ") + (same ? std::to_string(first) : locators[at]);
    if (last > first) out += "–" + std::to_string(last);
    prefix = numbered ? words : std::string();
    at = end;
  }
  return out;
}

Notes::Notes(const Snapshot& archive) : archive_(archive) {
  archive.each(Kind::agent, [&](const RecordView& agent) {
    if (agent.text("agent-type") != "person") return;
    for (const Statement* name : agent.all("name")) people_.insert(foreign(name->content.value));
  });
}

void Notes::begin_chapter() {
  numbers_.clear();
  archive_numbers_.clear();
}

Person Notes::person(const std::string& name) const {
  Person told{name, name, name};
  const auto blank = name.rfind(' ');
  // "A former lodger's son" is a description, and no name to be turned round.
  const bool described = !name.empty() && name.front() >= 'a' && name.front() <= 'z';
  const bool person =
      people_.count(name) > 0 || (blank != std::string::npos && initials(name.substr(0, blank)));
  if (!person || blank == std::string::npos || described || name.find(',') != std::string::npos) return told;
  told.family = name.substr(blank + 1);
  told.inverted = told.family + ", " + name.substr(0, blank);
  return told;
}

Source Notes::read(const SourceView& view) {
  const RecordView& record = view.record;
  Source source;
  source.form = form_of(view.type);
  source.type = view.type;
  source.genre = genre_of(view.type);
  source.code = foreign(record.info.code);
  source.title = foreign(view.title.empty() ? record.info.name : view.title);
  if (source.title.empty()) source.title = foreign(display(record.info));
  for (const std::string& creator : view.creators) source.authors.push_back(person(foreign(creator)));
  const auto agent = [&](const Statement* one) {
    const auto id = one == nullptr ? std::nullopt : Uuid::parse(one->content.value);
    return id ? foreign(agent_in_words(archive_.statements(), *id)) : std::string();
  };
  if (source.form == Form::interview || source.form == Form::video)
    if (const std::string spoken = agent(record.best("informant")); !spoken.empty())
      source.authors.insert(source.authors.begin(), person(spoken));
  source.interviewer = agent(record.best("interviewer"));
  source.date = note_date(view.date, view.date_typed);
  source.number = said(record, "document-number");
  source.medium = said(record, "medium");
  source.scale = said(record, "scale");
  source.extent = said(record, "pages");
  source.edition = said(record, "edition");
  source.section = said(record, "issue-section");
  source.page = said(record, "issue-page");
  source.publication = foreign(view.published_in);
  source.place = said(record, source.form == Form::inspection ? "inspected-at" : "publication-place");
  source.location = foreign(view.shelf_mark);
  source.collection = said(record, "collection");
  source.holder = foreign(view.repository);
  source.holder_place = said(record, "repository-place");
  source.address = said(record, "web-page");
  return source;
}

const Source* Notes::source(const Uuid& id) {
  const auto known = sources_.find(id);
  if (known != sources_.end()) return known->second ? &*known->second : nullptr;
  auto& kept = sources_[id];
  const auto record = archive_.find(id);
  if (record && record->info.kind == Kind::source) kept = read(SourceView(*record));
  return kept ? &*kept : nullptr;
}

/// What is seen with one's own eyes is cited with who saw it and when, where the notebook leaves it open.
std::string Notes::seen(const Statement& statement, const Source& source) {
  const Content& content = statement.content;
  if (source.form != Form::inspection || content.evidence != EvidenceClass::physical) return {};
  std::string who;
  if (content.author)
    if (const auto agent = archive_.statements().record(*content.author)) who = foreign(agent->name);
  const bool own = std::any_of(source.authors.begin(), source.authors.end(),
                               [&](const Person& one) { return one.name == who; });
  const std::string day = content.said_on.empty() ? std::string() : foreign(date_in_words(content.said_on));
  if (day == source.date && own) return {};
  if (own || who.empty()) return day.empty() ? std::string() : phrase("note.seen", {{"day", day}});
  return day.empty() ? phrase("note.seen-by", {{"who", who}})
                     : phrase("note.seen-by-on", {{"who", who}, {"day", day}});
}

int Notes::note(const Uuid& id, const Place& place, const std::string& region) {
  const auto key = std::make_tuple(id, place.locator + region, place.seen, place.quote);
  const auto [at, is_new] = numbers_.try_emplace(key, static_cast<int>(cited_.size()) + 1);
  if (is_new)
    cited_.push_back({id, place, region, source(id) == nullptr ? phrase("note.withheld") : std::string()});
  return at->second;
}

std::vector<Uuid> Notes::cited() const {
  std::vector<Uuid> all;
  for (const Cited& one : cited_)
    if (one.source != Uuid{} && std::find(all.begin(), all.end(), one.source) == all.end())
      all.push_back(one.source);
  return all;
}

int Notes::note_of_archive(const Statement& statement) {
  const auto [at, is_new] = archive_numbers_.try_emplace(statement.id, static_cast<int>(cited_.size()) + 1);
  if (is_new) cited_.push_back({{}, {}, {}, phrase("note.archive", {{"name", statement.name()}})});
  return at->second;
}

void Notes::settle(Document& document) {
  std::vector<const Figure*> figures;
  int figure_number = 0;
  each_block<Figure>(document, [&](Figure& figure) {
    figure.number = ++figure_number;
    if (!figure.source.empty()) figures.push_back(&figure);
  });
  int table_number = 0;
  each_block<Table>(document, [&](Table& table) { table.number = ++table_number; });
  std::map<std::vector<int>, int> numbers;
  const auto number_of = [&](const std::vector<int>& places) {
    const auto [at, is_new] = numbers.try_emplace(places, static_cast<int>(document.notes.size()) + 1);
    if (!is_new) return at->second;
    Note note{at->second, {}};
    for (const int place : places)
      note.places.push_back(written(cited_[static_cast<std::size_t>(place) - 1], figures));
    document.notes.push_back(std::move(note));
    return at->second;
  };
  each_sentence(document, [&](Sentence& sentence) {
    std::sort(sentence.notes.begin(), sentence.notes.end());
    if (sentence.notes.size() > kMostNotes) {
      sentence.notes = {number_of(sentence.notes)};
      return;
    }
    for (int& number : sentence.notes) number = number_of({number});
    std::sort(sentence.notes.begin(), sentence.notes.end());
  });
}

/// A place in its words. A place that is ringed in a picture of the report is told by that ring, and by its
/// numbers where no picture shows it.
CitedPlace Notes::written(const Cited& cited, const std::vector<const Figure*>& figures) {
  CitedPlace note;
  const Source* view = cited.words.empty() ? source(cited.source) : nullptr;
  if (view == nullptr) {
    note.words = {{cited.words, kNothing, false, false}};
    note.full = true;
    return note;
  }
  note.source = view->code.empty() ? cited.source.text() : view->code;
  Place place = cited.place;
  const std::string region = cited.region.empty() ? region_in(place.locator) : cited.region;
  for (const Figure* figure : figures) {
    if (figure->source != note.source || !shows(*figure, place.locator)) continue;
    note.figure = figure->number;
    const auto ring = std::find(figure->rings.begin(), figure->rings.end(), region);
    if (!region.empty() && ring != figure->rings.end())
      note.ring = static_cast<int>(ring - figure->rings.begin()) + 1;
  }
  place.locator = note.ring != 0 ? foreign(without_region(place.locator)) : place_words(place.locator);
  note.full = !told_[cited.source];
  told_[cited.source] = true;
  note.words = note.full ? full_note(*view, place) : short_note(*view, place);
  return note;
}

std::vector<int> Notes::cite(const Statement& statement) {
  std::vector<int> numbers;
  for (const Citation& citation : statement.content.citations) {
    const Source* view = source(citation.source);
    // What is seen in a picture is found by its spot.
    const bool shown = statement.content.value == citation.source.text() && !names_region(citation.locator);
    add_notes(
        numbers,
        {note(citation.source,
              {citation.locator, view == nullptr ? "" : seen(statement, *view), foreign(citation.quote)},
              shown ? region_in(std::string(statement.content.qualifier("spot"))) : "")});
  }
  if (numbers.empty() && source(statement.content.subject) != nullptr)
    numbers.push_back(cite_source(statement.content.subject));
  // What kind of thing it is follows from what is said of it, and has no source of its own.
  const Property* property = Registry::standard().find(statement.content.property);
  const bool is_kind = property != nullptr && property->name == "element-class";
  if (numbers.empty() && !is_kind) numbers.push_back(note_of_archive(statement));
  return numbers;
}

int Notes::cite_source(const Uuid& id) {
  return note(id, {});
}

std::vector<int> Notes::cite_together(const std::vector<Statement>& statements) {
  std::vector<Uuid> order;
  std::map<Uuid, std::vector<std::string>> places;
  std::vector<int> numbers;
  for (const Statement& statement : statements) {
    if (statement.content.citations.empty()) add_notes(numbers, cite(statement));
    for (const Citation& citation : statement.content.citations) {
      if (places.count(citation.source) == 0) order.push_back(citation.source);
      auto& list = places[citation.source];
      if (!citation.locator.empty()) list.push_back(place_words(citation.locator));
    }
  }
  for (const Uuid& id : order) add_notes(numbers, {note(id, {drawn_together(places[id]), {}, {}})});
  return numbers;
}

/// Those who looked with their own eyes: what they drew, photographed and wrote down is survey.
const std::set<std::string>& Notes::observers() const {
  if (observers_) return *observers_;
  observers_.emplace();
  std::set<Uuid> seen;
  archive_.statements().each_statement({}, [&](const Statement& one) {
    if (one.content.evidence == EvidenceClass::physical && one.content.author &&
        seen.insert(*one.content.author).second)
      if (const auto agent = archive_.statements().record(*one.content.author))
        observers_->insert(foreign(agent->name));
    return true;
  });
  return *observers_;
}

Sort Notes::sort_of(const Source& source) const {
  if (source.form == Form::interview || source.form == Form::video) return Sort::oral;
  if (source.form == Form::inspection || source.form == Form::report) return Sort::survey;
  if (source.type == "book" || source.type == "table") return Sort::secondary;
  const bool observed = std::any_of(source.authors.begin(), source.authors.end(),
                                    [&](const Person& one) { return observers().count(one.name) != 0; });
  return observed ? Sort::survey : Sort::primary;
}

Entry Notes::entry(const Uuid& id, const Source& source) const {
  return {source.code.empty() ? id.text() : source.code, sort_of(source), bibliography_line(source)};
}

namespace {

/// As a line is sorted: without quotation mark or bracket, and without an article, which does not count in
/// the order (common practice, no source).
std::string sorted_as(const Entry& entry) {
  std::string words = plain(entry.words);
  for (const std::string_view sign : {"“", "["})
    if (words.starts_with(sign)) words.erase(0, sign.size());
  for (const std::string_view article : {"a ", "an ", "the ", "A ", "An ", "The "})
    if (words.starts_with(article)) return words.substr(article.size());
  return words;
}

void in_order(std::vector<Entry>& entries) {
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    if (a.sort != b.sort) return a.sort < b.sort;
    return compare_for_people(sorted_as(a), sorted_as(b)) < 0;
  });
}

}  // namespace

std::vector<Entry> Notes::bibliography() {
  std::vector<Entry> entries;
  for (const auto& [id, told] : told_)
    if (const Source* view = source(id); told && view != nullptr) entries.push_back(entry(id, *view));
  in_order(entries);
  return entries;
}

std::vector<Entry> Notes::not_cited() {
  std::vector<Entry> entries;
  archive_.each(Kind::source, [&](const RecordView& record) {
    const auto told = told_.find(record.info.id);
    if (told != told_.end() && told->second) return;
    if (const Source* view = source(record.info.id)) entries.push_back(entry(record.info.id, *view));
  });
  // One list, whatever their kinds.
  for (Entry& one : entries) one.sort = Sort::primary;
  in_order(entries);
  return entries;
}

}  // namespace lathbook::report
