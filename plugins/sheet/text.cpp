// The sheet as plain text for the terminal.
#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"

#include <algorithm>

#include "plugins/sheet/phrases.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

class Text {
public:
  Text(const Sheet& sheet, std::ostream& out, std::size_t columns)
      : sheet_(sheet), out_(out), columns_(columns) {}

  void write(bool with_reasons) {
    title();
    for (const Chapter& chapter : sheet_.phases) phase(chapter);
    entries(std::string(english().heading_outside), sheet_.outside);
    entries(std::string(english().heading_undated_things), sheet_.undated);
    entries(std::string(english().heading_pieces), sheet_.pieces);
    sentences(std::string(english().heading_works), sheet_.works);
    contradictions();
    sentences(std::string(english().heading_rulings), sheet_.rulings);
    sentences(std::string(english().heading_examined), sheet_.examined);
    tasks();
    sentences(std::string(english().heading_cautions), sheet_.cautions);
    sentences(std::string(english().heading_settings), sheet_.settings);
    if (with_reasons) reasons();
    notes();
    sources();
  }

private:
  /// Wraps with the first line behind `mark`, later ones as deep as it.
  void put(const std::string& mark, const std::string& words) {
    const std::size_t depth = display_width(mark);
    bool first = true;
    for (const std::string& line : wrap(words, columns_ > depth + 20 ? columns_ - depth : 20)) {
      out_ << (first ? mark : std::string(depth, ' ')) << line << '\n';
      first = false;
    }
  }

  void heading(const std::string& words) {
    out_ << '\n' << words << '\n' << std::string(display_width(words), '-') << '\n';
  }

  static std::string numbers(const std::vector<int>& notes) {
    std::vector<std::string> words;
    for (const int note : notes) words.push_back(std::to_string(note));
    return words.empty() ? std::string() : "[" + join(words, ",") + "]";
  }

  static std::string told(const Sentence& sentence) { return sentence.words() + numbers(sentence.notes); }

  void title() {
    for (const Sentence& line : sheet_.stopped) put("", told(line));
    const std::string name = sheet_.title + (sheet_.code.empty() ? "" : " (" + sheet_.code + ")");
    out_ << name << '\n' << std::string(display_width(name), '=') << '\n';
    if (!sheet_.private_copy.empty()) put("", sheet_.private_copy);
    put("", fill(english().as_known, {{"day", sheet_.known}, {"trusted", sheet_.trusted}}));
    out_ << fill(english().state, {{"digest", sheet_.fingerprint}}) << '\n';
    if (!sheet_.withheld.empty()) put("", sheet_.withheld);
    sentences(std::string(english().heading_what_if), sheet_.what_if);
    sentences(std::string(english().heading_names), sheet_.names);
    sentences(std::string(english().heading_uses), sheet_.uses);
  }

  void phase(const Chapter& chapter) {
    const std::string number = std::string(english().phase) + " " + std::to_string(chapter.number);
    heading((chapter.heading.starts_with(number) ? "" : number + ": ") + chapter.heading);
    for (const Sentence& one : chapter.opening) put("", told(one));
    for (const Group& group : chapter.groups) {
      out_ << "\n  " << group.label << '\n';
      if (group.names_only) {
        std::string names;
        for (const Entry& one : group.entries) names += (names.empty() ? "" : "; ") + one.head.words();
        put("    ", capital(names) + ".");
      } else {
        for (const Entry& one : group.entries) entry(one);
      }
    }
  }

  void entry(const Entry& one) {
    put("  * ", told(one.head));
    for (const Sentence& more : one.more) put("    ", told(more));
  }

  void entries(const std::string& title, const std::vector<Entry>& list) {
    if (list.empty()) return;
    heading(title);
    for (const Entry& one : list) entry(one);
  }

  void sentences(const std::string& title, const std::vector<Sentence>& list) {
    if (list.empty()) return;
    heading(title);
    for (const Sentence& one : list) put("  ", told(one));
  }

  void step(const std::string& mark, const Step& one) {
    std::string words = with_full_stop(one.words) + numbers(one.notes);
    std::string basis = one.basis;
    if (!one.statement.empty())
      basis += (basis.empty() ? "" : "; ") + fill(english().statement, {{"name", one.statement}});
    if (!basis.empty()) words += " (" + basis + ")";
    if (!one.remark.empty()) words += " " + one.remark;
    put(mark, words);
    for (const Step& ground : one.grounds)
      step(std::string(display_width(mark), ' ') + std::string(english().from_ground), ground);
  }

  void contradictions() {
    if (sheet_.contradictions.empty()) return;
    heading(std::string(english().heading_contradictions));
    int number = 1;
    for (const Contradiction& one : sheet_.contradictions) {
      put(std::to_string(number++) + ". ", told(one.head));
      put("  ", one.clash);
      put("  ", std::string(one.set_aside.empty() ? english().cannot_hold : english().one_side) + ":");
      for (const Step& side : one.one_side) step("    - ", side);
      if (!one.set_aside.empty()) put("  ", std::string(english().other_side) + ":");
      for (const Step& side : one.set_aside) step("    - ", side);
      put("  ", one.proposal);
      for (const Sentence& way : one.ways_out) put("    - ", told(way));
      if (!one.fallen_with.empty()) put("  ", std::string(english().fallen_with) + ":");
      for (const Sentence& fallen : one.fallen_with) put("    - ", told(fallen));
      if (!one.beside.empty()) put("  ", std::string(english().beside) + ":");
      for (const Sentence& beside : one.beside) put("    - ", told(beside));
    }
  }

  void tasks() {
    if (sheet_.tasks.empty()) return;
    heading(std::string(english().heading_tasks));
    int number = 1;
    for (const Task& task : sheet_.tasks) {
      put("  " + std::to_string(number++) + ". ", told(task.task));
      put("     ", task.gain);
      for (const Sentence& known : task.known) put("     - ", told(known));
    }
    put("  ", std::string(english().tasks_caution));
  }

  void reasons() {
    heading(std::string(english().heading_reasons));
    for (const Why& why : sheet_.whys) {
      if (why.earliest.steps.empty() && why.latest.steps.empty()) continue;
      put("* ", capital(why.label) + ": " + why.words + ".");
      for (const Chain* chain : {&why.earliest, &why.latest}) {
        put("  ", chain->words + (chain->steps.empty() ? "" : std::string(english().because)));
        for (const Step& one : chain->steps) step("    - ", one);
      }
    }
  }

  void notes() {
    if (sheet_.notes.empty()) return;
    heading(std::string(english().heading_notes));
    for (const Note& note : sheet_.notes) {
      std::string words = with_full_stop(note.words);
      if (!note.quote.empty()) words += " “" + note.quote + "”";
      if (note.full_in) words += " (" + fill(english().in_full, {{"n", std::to_string(*note.full_in)}}) + ")";
      const std::string number = std::to_string(note.number);
      put(std::string(number.size() < 3 ? 3 - number.size() : 0, ' ') + number + ". ", words);
    }
  }

  void sources() {
    if (sheet_.sources.empty()) return;
    heading(std::string(english().heading_sources));
    for (const SourceLine& source : sheet_.sources)
      put("  ", (source.code.empty() ? "" : source.code + ". ") + source.words + ".");
  }

  const Sheet& sheet_;
  std::ostream& out_;
  std::size_t columns_;
};

}  // namespace

void write_text(const Sheet& sheet, std::ostream& out, std::size_t columns, bool reasons) {
  Text(sheet, out, columns).write(reasons);
}

}  // namespace lathbook::sheet
