#include <cstdio>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/record_view.hpp"
#include "plugins/marks/write.hpp"

namespace lathbook::marks {

namespace {

constexpr double kWorthTelling = 0.005;
constexpr std::size_t kMostTold = 3;

std::string chance(double share) {
  if (share >= 0.995) return "more than 99 in 100";
  if (share < 0.005) return "less than 1 in 200";
  char words[32];
  std::snprintf(words, sizeof words, "%.0f in 100", share * 100);
  return words;
}

// Two rows of letters, one under the other, and a row that marks those that do not fit.
void write_letters(const MarkCandidate& candidate, std::ostream& out) {
  std::string read;
  std::string list;
  std::string fit;
  for (const MarkLetters& pair : candidate.letters) {
    read += pair.read.empty() ? " -" : " " + pair.read;
    list += pair.reference.empty() ? " -" : " " + pair.reference;
    const bool fits = pair.fit == "same" || pair.fit == "not read" || pair.fit == "uncertain";
    fit += fits ? "  " : pair.fit == "confused" ? " ~" : " x";
  }
  out << "       read" << read << "\n       list" << list << '\n';
  if (fit.find_first_not_of(' ') != std::string::npos) {
    out << "           " << fit.substr(0, fit.find_last_not_of(' ') + 1)
        << "   (~ easily taken for one another, x against it)\n";
  }
}

void write_candidate(const MarkCandidate& candidate, std::size_t number, std::ostream& out) {
  out << "  " << number << ". " << safe_display(candidate.form) << "  (" << chance(candidate.share)
      << ")\n     " << safe_display(candidate.maker);
  if (!candidate.place.empty()) out << ", " << safe_display(candidate.place);
  out << "; " << safe_display(candidate.list) << ", no. " << safe_display(candidate.entry);
  if (!candidate.role.empty() && candidate.role != "not told") out << "; as " << candidate.role;
  if (!candidate.from.empty() || !candidate.to.empty())
    out << "; used " << candidate.from << " to " << candidate.to;
  out << "\n     " << safe_display(candidate.words) << '\n';
  write_letters(candidate, out);
}

void write_makers(const ReadMark& mark, std::ostream& out) {
  if (mark.too_little) {
    out << "  Maker: fewer than three letters are read for certain; too little to compare with makers.\n";
    return;
  }
  const bool away = mark.candidates.empty() || mark.unlisted > mark.candidates.front().share;
  if (away) {
    out << "  Maker: not in the lists, as far as can be told (" << chance(mark.unlisted)
        << "). Nothing is entered; a mark on record can be asked again when a list grows.\n";
  } else {
    out << "  Maker: most likely " << safe_display(mark.candidates.front().maker) << ", in the lists";
    if (mark.unlisted >= kWorthTelling) out << ", or else not in them (" << chance(mark.unlisted) << ")";
    out << ".\n";
  }
  std::size_t number = 0;
  for (const MarkCandidate& candidate : mark.candidates) {
    if (number >= kMostTold || (number > 0 && candidate.share < 0.0005 && away)) break;
    write_candidate(candidate, ++number, out);
  }
  if (mark.candidates.size() > number) {
    out << "  and " << mark.candidates.size() - number << " more, each less likely\n";
  }
  if (!away)
    out << "  A back names who made the blank; who decorated or sold the piece is a separate question.\n";
}

void write_code(const DatedCode& code, std::ostream& out) {
  out << "  " << (code.hint ? "Hint: " : "Code: ") << code.kind << ", “" << safe_display(code.text) << "”\n";
  for (const CodeReading& reading : code.readings) {
    out << "     " << (code.readings.size() > 1 ? "either " : "") << date_in_words(reading.date) << ": "
        << reading.words << '\n';
  }
  for (const auto& remark : code.remarks) out << "     " << remark << '\n';
  if (!code.table.empty()) out << "     table: " << code.table << " (" << code.source << ")\n";
  if (code.table.empty() && !code.source.empty()) out << "     source: " << code.source << '\n';
  out << "     mind: " << code.weakness << '\n';
}

}  // namespace

void write_text(const MarkReading& reading, std::ostream& out) {
  if (reading.marks.empty()) out << "no mark with a transcription is here\n";
  for (const ReadMark& mark : reading.marks) {
    if (mark.mark.id != Uuid{}) {
      out << display(mark.mark);
      if (mark.carrier.id != Uuid{}) out << ", on " << display(mark.carrier);
      out << '\n';
    }
    if (!mark.fault.empty()) {
      out << "  " << quote(mark.raw) << ' ' << mark.fault << "\n\n";
      continue;
    }
    out << "  " << safe_display(mark.shown);
    if (!mark.by.empty()) out << "   read by " << safe_display(mark.by);
    if (!mark.read_on.empty()) out << ", " << mark.read_on;
    out << '\n';
    for (const auto& remark : mark.remarks) out << "  " << remark << '\n';
    write_makers(mark, out);
    for (const DatedCode& code : mark.codes) write_code(code, out);
    out << '\n';
  }
  out << "Compared with:";
  for (const MarkListInfo& list : reading.lists) {
    out << (&list == &reading.lists.front() ? " " : "; ") << safe_display(list.title);
    if (list.trouble.empty()) {
      out << " (" << list.marks << (list.marks == 1 ? " mark)" : " marks)");
    } else {
      out << " (not used: " << list.trouble << ")";
    }
  }
  out << ".\nA mark dates its own piece and nothing more: blanks are stocked and old pieces used again. "
         "Chances are fitted on\n"
         "invented damage and are a guide, no proof.\n";
}

}  // namespace lathbook::marks
