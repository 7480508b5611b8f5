// Makes an item of a source.
#include "plugins/citations/item.hpp"

#include <algorithm>
#include <array>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/words.hpp"

namespace lathbook::citations {

namespace {

/// What an item carries. Those in the second list may be said several times.
constexpr std::array<std::string_view, 9> kOnce{"source-type", "title",      "source-date",
                                                "repository",  "shelf-mark", "published-in",
                                                "pages",       "rights",     "web-page"};
constexpr std::array<std::string_view, 9> kSeveral{
    "kind", "code", "creator", "interviewer", "informant", "description", "note", "media", "name"};

template <std::size_t size>
bool among(const std::array<std::string_view, size>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

DatePart part_of(const EdtfDate& date, Day bound) {
  const CivilDay civil = civil_from_days(bound);
  DatePart part;
  part.year = civil.year;
  if (date.season >= 21 && date.season <= 24) {
    part.season = date.season - 20;
  } else if (date.season == 0) {
    // A month or day with digits left open is a span, and told as its ends.
    if (date.components >= 2) part.month = civil.month;
    if (date.components == 3) part.day = civil.day;
  }
  return part;
}

bool same(const DatePart& a, const DatePart& b) {
  return a.year == b.year && a.month == b.month && a.day == b.day && a.season == b.season;
}

std::string joined(const RecordView& record, std::string_view property) {
  std::string words;
  for (const Statement* one : record.all(property)) words += (words.empty() ? "" : "\n") + one->content.value;
  return words;
}

std::vector<std::string> agents(const StatementReader& reader, const RecordView& record,
                                std::string_view property) {
  std::vector<std::string> names;
  for (const Statement* one : record.all(property)) {
    const auto id = Uuid::parse(one->content.value);
    const std::string name = id ? agent_in_words(reader, *id) : std::string();
    if (!name.empty()) names.push_back(name);
  }
  return names;
}

void count_the_rest(const RecordView& record, Uncarried& uncarried) {
  const Registry& registry = Registry::standard();
  for (const Statement& fact : record.facts) {
    const Property* property = registry.find(fact.content.property);
    if (property == nullptr) {
      uncarried.add(fact.content);
    } else if (among(kOnce, property->name)) {
      if (&fact != record.best(property->name)) uncarried.add("competing " + property->label);
    } else if (!among(kSeveral, property->name)) {
      uncarried.add(fact.content);
    }
  }
}

}  // namespace

CitedDate cited_date(const std::string& edtf, const std::string& typed) {
  CitedDate date;
  date.edtf = edtf;
  date.words = typed.empty() ? edtf : typed;
  const auto parsed = Edtf::try_parse(edtf);
  if (!parsed) return date;
  date.circa = parsed->uncertain() || parsed->approximate();
  const EdtfDate* first = parsed->first_date();
  const EdtfDate* last = parsed->last_date();
  if (first == nullptr || last == nullptr) return date;
  date.parts.push_back(part_of(*first, first->earliest));
  const DatePart end = part_of(*last, last->latest);
  // A season lies within one part whatever its days; the winter's last day is of the next year.
  const bool one_season = first->text == last->text && date.parts.front().season != 0;
  if (!one_season && !same(date.parts.front(), end)) date.parts.push_back(end);
  return date;
}

Item item_of(const StatementReader& reader, const SourceView& source, Uncarried& uncarried) {
  const RecordView& record = source.record;
  Item item;
  item.record = record.info.id;
  item.key = record.info.code.empty() ? record.info.id.text() : record.info.code;
  item.form = &form_of(source.type);
  item.source_type = source.type;
  item.title = source.title.empty() ? record.info.name : source.title;
  if (item.title.empty()) item.title = item.key;
  item.authors = source.creators;
  if (item.form->csl_type == "interview") {
    auto informants = agents(reader, record, "informant");
    item.authors.insert(item.authors.begin(), informants.begin(), informants.end());
  }
  item.interviewers = agents(reader, record, "interviewer");
  item.issued = cited_date(source.date, source.date_typed);
  item.repository = source.repository;
  item.shelf_mark = source.shelf_mark;
  item.extent = record.text("pages");
  item.published_in = source.published_in;
  item.rights = source.rights;
  item.web_page = record.text("web-page");
  item.abstract = joined(record, "description");
  item.note = joined(record, "note");
  if (const Statement* title = record.best("title")) item.language = title->content.language;
  item.media = source.media;
  count_the_rest(record, uncarried);
  return item;
}

}  // namespace lathbook::citations
