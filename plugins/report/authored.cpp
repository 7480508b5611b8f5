// Sections that only a person can write: statements with an author, a day and citations, printed as they are.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// Text parted at blank lines.
std::vector<std::string> paragraphs_of(const std::string& text) {
  std::vector<std::string> parts;
  std::string part;
  for (const std::string& line : split(text, '\n')) {
    if (!trim(line).empty()) {
      part += (part.empty() ? "" : " ") + std::string(trim(line));
    } else if (!part.empty()) {
      parts.push_back(std::move(part));
      part.clear();
    }
  }
  if (!part.empty()) parts.push_back(std::move(part));
  return parts;
}

}  // namespace

std::vector<Statement> Builder::authored(const Uuid& place, std::string_view section) {
  std::vector<Statement> found;
  for (const Statement& one : teller_.said(place, "report-section"))
    if (one.content.qualifier("section") == section) found.push_back(one);
  std::stable_sort(found.begin(), found.end(), [](const Statement& a, const Statement& b) {
    return compare_for_people(a.content.qualifier("order"), b.content.qualifier("order")) < 0;
  });
  return found;
}

// A section that nobody has written keeps its place, with what it must hold, so that a person can go on.
void Builder::add_authored(const Uuid& place, const std::string& name, int level) {
  const auto found = authored(place, name);
  if (level > 1) chapter_.blocks.emplace_back(Heading{level, capital(name), {}});
  if (found.empty()) {
    missing_.push_back(name);
    Sentence unwritten = remark("to-write", {{"holds", phrase("to-write." + choice(name))}});
    for (Run& run : unwritten.runs) run.emphasis = true;
    add(std::move(unwritten));
    return;
  }
  for (std::size_t at = 0; at < found.size(); ++at) {
    const Statement& one = found[at];
    const std::vector<int> notes = teller_.cite(one);
    const auto parts = paragraphs_of(one.content.value);
    bool marked = false;
    for (std::size_t part = 0; part < parts.size(); ++part) {
      Sentence words = marked_text(foreign(parts[part]), one);
      marked = marked || !words.notes.empty();
      if (parts.size() == 1) add_notes(words.notes, notes);
      add(std::move(words));
    }
    std::string who = phrase("authored.unknown");
    if (one.content.author && teller_.record(*one.content.author)) {
      who = teller_.name(*one.content.author);
      add_once(document_.writers, without_marks(who));
    }
    const bool same_writer = at + 1 < found.size() && found[at + 1].content.author == one.content.author &&
                             found[at + 1].content.said_on == one.content.said_on;
    if (same_writer && (parts.size() == 1 || marked)) continue;
    const char* basis = parts.size() == 1 || marked ? "own" : "all";
    add(sentence(one.content.said_on.empty() ? "authored.by" : "authored.by-on",
                 {{"who", who},
                  {"day", telling(kDate, foreign(date_in_words(one.content.said_on)))},
                  {"basis", std::string(basis)}},
                 notes));
  }
}

/// A paragraph whose marks "[S-12]" name sources that the statement cites: they become its notes.
Sentence Builder::marked_text(const std::string& text, const Statement& said) {
  std::string words = text;
  std::vector<int> notes;
  for (const Citation& citation : said.content.citations) {
    const auto source = teller_.record(citation.source);
    if (!source) continue;
    const std::string mark = "[" + foreign(source->code) + "]";
    if (text.find(mark) == std::string::npos) continue;
    for (std::size_t at; (at = words.find(mark)) != std::string::npos;) {
      const std::size_t from = at > 0 && words[at - 1] == ' ' ? at - 1 : at;
      words.erase(from, at + mark.size() - from);
    }
    Statement alone = said;
    alone.content.citations = {citation};
    add_notes(notes, teller_.cite(alone));
  }
  return as_sentence(words, notes);
}

/// Sections of the building in one chapter; one alone has the chapter's title.
void Builder::add_authored_chapter(const std::string& anchor, const std::vector<std::string>& sections) {
  begin(anchor, phrase("chapter." + anchor));
  for (const std::string& name : sections)
    add_authored(material_.timeline.scope.id, name, sections.size() == 1 ? 1 : 2);
  end();
}

}  // namespace lathbook::report
