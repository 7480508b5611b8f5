// The notes style: which fields, in which order, with which signs between.
#include "plugins/report/chicago.hpp"

#include <algorithm>
#include <array>

#include "core/base/text.hpp"

namespace lathbook::report {

namespace {

struct TypeForm {
  std::string_view type;
  Form form;
  std::string_view genre;
};

constexpr std::array<TypeForm, 16> kForms{{{"photograph", Form::picture, "photograph"},
                                           {"video", Form::video, "video"},
                                           {"plan sheet", Form::drawing, "architectural drawing"},
                                           {"permit", Form::paper, "building permit"},
                                           {"contract", Form::paper, "contract"},
                                           {"bill", Form::paper, "bill"},
                                           {"directory", Form::book, ""},
                                           {"newspaper", Form::newspaper, ""},
                                           {"letter", Form::letter, "letter"},
                                           {"trade catalogue", Form::book, "trade catalogue"},
                                           {"interview", Form::interview, "interview"},
                                           {"laboratory report", Form::report, "laboratory report"},
                                           {"physical inspection", Form::inspection, "physical inspection"},
                                           {"day-book", Form::paper, "day-book"},
                                           {"deed", Form::paper, "deed"},
                                           {"table", Form::paper, "table"}}};

bool has_italic_title(Form form) {
  return form == Form::drawing || form == Form::picture || form == Form::video || form == Form::book ||
         form == Form::report || form == Form::inspection;
}

/// Gathers parts with a sign between: a comma in notes, a full stop in the bibliography.
class Line {
public:
  explicit Line(bool bibliography) : bibliography_(bibliography) {}

  void add(std::string text, bool emphasis = false) {
    if (text.empty()) return;
    if (bibliography_ && !runs_.empty()) text = capital(std::move(text));
    part(std::move(text), emphasis);
  }
  /// As it is: no capital is put to it.
  void add_name(const std::string& text, bool emphasis = false) {
    if (!text.empty()) part(text, emphasis);
  }
  /// Straight behind what stands, without a sign.
  void join(const std::string& text) {
    if (text.empty()) return;
    if (runs_.empty() || runs_.back().emphasis)
      runs_.push_back({text, kNothing, false});
    else
      runs_.back().text += text;
  }
  void title(const std::string& title, bool italic) {
    if (title.empty()) return;
    if (italic) return part(title, true);
    // The sign stands inside the closing quotation mark, so the next part brings only a blank.
    part("“" + title, false);
    closing_ = true;
  }
  std::vector<Run> done() {
    if (closing_) {
      join(ends_sentence() ? "”" : ".”");
    } else if (!ends_sentence()) {
      join(".");
    }
    return std::move(runs_);
  }

private:
  void part(std::string text, bool emphasis) {
    std::string before;
    const std::string sign = bibliography_ ? "." : ",";
    if (closing_)
      before = (ends_sentence() ? "" : sign) + "” ";
    else if (!runs_.empty())
      before = bibliography_ ? (ends_sentence() ? " " : ". ") : ", ";
    closing_ = false;
    join(before);
    if (!emphasis && !runs_.empty() && !runs_.back().emphasis)
      runs_.back().text += text;
    else
      runs_.push_back({std::move(text), kNothing, emphasis});
  }
  bool ends_sentence() const {
    if (runs_.empty()) return false;
    const std::string& text = runs_.back().text;
    return text.ends_with('.') || text.ends_with('?') || text.ends_with('!') || text.ends_with("…");
  }

  bool bibliography_;
  bool closing_ = false;
  std::vector<Run> runs_;
};

std::string with(const std::string& before, const std::string& words) {
  return words.empty() ? words : before + words;
}

std::string and_list(const std::vector<std::string>& names) {
  if (names.size() < 3) return join(names, " and ");
  return join({names.begin(), names.end() - 1}, ", ") + ", and " + names.back();
}

std::string authors_in(const Source& source, bool bibliography) {
  std::vector<std::string> names;
  for (const Person& person : source.authors)
    names.push_back(bibliography && names.empty() ? person.inverted : person.name);
  return and_list(names);
}

/// "00:22:40" is told "at 22:40"; bare numbers of pages stand without 'p.' in books.
std::string locator_in(const Source& source, const std::string& locator) {
  const bool timed = source.form == Form::interview || source.form == Form::video;
  const bool is_time = timed && locator.size() >= 4 && locator.find(':') != std::string::npos &&
                       locator.find_first_not_of("0123456789:") == std::string::npos;
  if (is_time) return "at " + (locator.starts_with("00:") ? locator.substr(3) : locator);
  if (source.form == Form::book)
    for (const std::string_view sign : {"pp. ", "p. "})
      if (locator.starts_with(sign)) return locator.substr(sign.size());
  return locator;
}

std::string number_in(const Source& source) {
  if (source.number.empty()) return {};
  const bool bare = source.number.find_first_not_of("0123456789-/") == std::string::npos;
  return (bare ? " no. " : " ") + source.number;
}

std::string published(const Source& source) {
  std::string words = source.place;
  words += (words.empty() || source.publication.empty() ? "" : ": ") + source.publication;
  words += (words.empty() || source.date.empty() ? "" : ", ") + source.date;
  return words;
}

/// Holder, its town, collection and shelf mark, in the order of the form.
void add_keeping(Line& line, const Source& source) {
  const std::string holder = source.holder + with(", ", source.holder_place);
  if (source.form == Form::picture) {
    line.add_name(holder + with(", ", source.collection) + with(", ", source.location));
    return;
  }
  line.add(source.location);
  line.add_name(source.collection);
  line.add_name(holder);
}

/// The parts between the title and the keeping.
void add_middle(Line& line, const Source& source, bool bibliography, const std::string& at) {
  const std::string genre = source.genre + number_in(source);
  switch (source.form) {
    case Form::book:
      line.add(source.genre.empty() ? with("", source.number) : genre);
      line.add(source.edition);
      if (bibliography)
        line.add_name(published(source));
      else if (!published(source).empty())
        line.join(" (" + published(source) + ")");
      line.add_name(at);
      break;
    case Form::newspaper:
      line.add(source.section);
      if (!bibliography) line.add_name(source.publication, true);
      if (!bibliography && !source.place.empty()) line.join(" (" + source.place + ")");
      line.add_name(source.date);
      line.add(source.edition);
      line.add_name(source.page);
      break;
    case Form::picture:
      line.add(genre);
      if (source.date.starts_with('[') && !bibliography)
        line.join(" " + source.date);
      else
        line.add_name(source.date);
      line.add(source.medium.empty() ? source.extent : source.medium + with(", ", source.extent));
      break;
    case Form::interview:
    case Form::video:
      line.add(genre + with(" by ", source.interviewer));
      line.add_name(source.date);
      line.add_name(at);
      line.add(source.medium.empty() ? source.extent : source.medium + with(", ", source.extent));
      break;
    default:
      line.add(genre);
      line.add_name(source.date);
      line.add(source.medium + with(source.medium.empty() ? "" : ", ", source.scale));
      if (source.form == Form::inspection) line.add(source.place);
      break;
  }
}

void add_title(Line& line, const Source& source, bool bibliography) {
  if (source.form == Form::newspaper && bibliography) {
    line.add_name(source.publication + (source.place.empty() ? "" : " (" + source.place + ")"), true);
  }
  const bool notes_of_inspection = source.form == Form::inspection && !source.medium.empty();
  line.title(source.title, has_italic_title(source.form) && !notes_of_inspection);
}

void add_end(std::vector<Run>& runs, const std::string& text) {
  if (text.empty()) return;
  if (runs.back().emphasis)
    runs.push_back({text, kNothing, false});
  else
    runs.back().text += text;
}

void add_quote(std::vector<Run>& runs, const Source& source, const Place& place) {
  if (!source.code.empty()) {
    std::string& last = runs.back().text;
    if (last.ends_with('.') && !runs.back().emphasis) last.pop_back();
    add_end(runs, " [" + source.code + "].");
  }
  if (!place.quote.empty()) {
    const bool ends = place.quote.ends_with('.') || place.quote.ends_with('?') || place.quote.ends_with('!');
    add_end(runs, " “" + place.quote + (ends ? "”" : ".”"));
  }
}

}  // namespace

Form form_of(std::string_view source_type) {
  if (source_type == "book") return Form::book;
  const auto found = std::find_if(kForms.begin(), kForms.end(),
                                  [&](const TypeForm& one) { return one.type == source_type; });
  return found == kForms.end() ? Form::paper : found->form;
}

std::string genre_of(std::string_view source_type) {
  const auto found = std::find_if(kForms.begin(), kForms.end(),
                                  [&](const TypeForm& one) { return one.type == source_type; });
  return found == kForms.end() ? std::string() : std::string(found->genre);
}

std::vector<Run> full_note(const Source& source, const Place& place) {
  const std::string at = locator_in(source, place.locator);
  const bool told = source.form == Form::book || source.form == Form::interview || source.form == Form::video;
  Line line(false);
  line.add_name(authors_in(source, false));
  add_title(line, source, false);
  add_middle(line, source, false, at);
  add_keeping(line, source);
  line.add_name(source.address);
  line.add_name(place.seen);
  if (!told) line.add_name(at);
  auto runs = line.done();
  add_quote(runs, source, place);
  return runs;
}

std::vector<Run> short_note(const Source& source, const Place& place) {
  Line line(false);
  if (!source.authors.empty()) line.add_name(source.authors.front().family);
  add_title(line, source, false);
  line.add_name(place.seen);
  line.add_name(locator_in(source, place.locator));
  auto runs = line.done();
  add_quote(runs, source, place);
  return runs;
}

std::vector<Run> bibliography_line(const Source& source) {
  Line line(true);
  line.add_name(authors_in(source, true));
  add_title(line, source, true);
  add_middle(line, source, true, {});
  add_keeping(line, source);
  line.add_name(source.address);
  auto runs = line.done();
  add_quote(runs, source, {});
  return runs;
}

std::string plain(const std::vector<Run>& runs) {
  std::string words;
  for (const Run& run : runs) words += run.text;
  return words;
}

}  // namespace lathbook::report
