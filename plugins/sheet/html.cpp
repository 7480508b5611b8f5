// The sheet as one page of HTML that is well-formed XML too.
#include <functional>
#include <sstream>

#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/sheet/phrases.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

class Page {
public:
  Page(const Sheet& sheet, XmlWriter& out) : sheet_(sheet), out_(out), unfolded_(sheet.whys.size()) {}

  void write() {
    out_.start("html").attribute("xmlns", "http://www.w3.org/1999/xhtml").attribute("lang", "en");
    out_.attribute("xml:lang", "en");
    head();
    out_.start("body");
    out_.start("div").attribute("class", "sheet");
    title_block();
    contents();
    phases();
    drawing();
    entries("outside", std::string(english().heading_outside), sheet_.outside);
    entries("undated", std::string(english().heading_undated_things), sheet_.undated);
    entries("pieces", std::string(english().heading_pieces), sheet_.pieces);
    sentences("works", std::string(english().heading_works), sheet_.works);
    contradictions();
    sentences("rulings", std::string(english().heading_rulings), sheet_.rulings);
    sentences("examined", std::string(english().heading_examined), sheet_.examined);
    tasks();
    sentences("cautions", std::string(english().heading_cautions), sheet_.cautions);
    sentences("settings", std::string(english().heading_settings), sheet_.settings);
    notes();
    sources();
    out_.start("footer");
    out_.element("p", fill(english().footer,
                           {{"place", sheet_.title}, {"day", sheet_.known}, {"digest", sheet_.fingerprint}}));
    out_.end();
    out_.end();
    out_.end();
    out_.end();
  }

private:
  void tag(std::string_view name, std::string_view css) { out_.start(name).attribute("class", css); }
  void line() { out_.text("\n"); }

  void head() {
    out_.start("head");
    out_.start("meta").attribute("charset", "utf-8").end();
    out_.start("meta").attribute("name", "viewport");
    out_.attribute("content", "width=device-width, initial-scale=1").end();
    out_.element("title", fill(english().page_title, {{"place", sheet_.title}}));
    out_.element("style", page_style);
    out_.end();
    line();
  }

  void title_block() {
    out_.start("header");
    tag("p", "kicker");
    out_.text(fill(sheet_.code.empty() ? english().history : english().history_of, {{"code", sheet_.code}}))
        .end();
    out_.element("h1", sheet_.title);
    if (!sheet_.private_copy.empty()) {
      tag("p", "warn");
      out_.text(sheet_.private_copy).end();
    }
    tag("dl", "block");
    const auto cell = [&](std::string_view css, const std::string& label, const std::string& words) {
      tag("div", css);
      out_.element("dt", label);
      out_.element("dd", words);
      out_.end();
      line();
    };
    cell("cell", std::string(english().cell_known), sheet_.known);
    cell("cell", std::string(english().cell_evidence), sheet_.trusted);
    tag("div", "across");
    out_.element("dt", english().cell_state);
    tag("dd", "mono");
    out_.text(sheet_.fingerprint).end();
    out_.end();
    if (!sheet_.withheld.empty()) cell("across", std::string(english().cell_withheld), sheet_.withheld);
    sentence_cell(std::string(english().heading_what_if), sheet_.what_if);
    sentence_cell(std::string(english().heading_names), sheet_.names);
    sentence_cell(std::string(english().heading_uses), sheet_.uses);
    out_.end();
    out_.end();
    line();
  }

  void sentence_cell(const std::string& label, const std::vector<Sentence>& list) {
    if (list.empty()) return;
    tag("div", "across");
    out_.element("dt", label);
    for (const Sentence& one : list) {
      out_.start("dd");
      sentence(one, false);
      out_.end();
    }
    out_.end();
  }

  void contents() {
    out_.start("nav").attribute("aria-label", english().contents).start("ul");
    const auto link = [&](bool there, const std::string& id, std::string_view label) {
      if (!there) return;
      out_.start("li").start("a").attribute("href", "#" + id).text(label).end().end();
    };
    link(!sheet_.phases.empty(), "phases", english().link_phases);
    link(!sheet_.things.empty(), "drawing", english().link_drawn);
    link(!sheet_.outside.empty(), "outside", english().link_outside);
    link(!sheet_.undated.empty(), "undated", std::string(english().heading_undated_things));
    link(!sheet_.pieces.empty(), "pieces", english().link_pieces);
    link(!sheet_.works.empty(), "works", english().heading_works);
    link(!sheet_.contradictions.empty(), "contradictions", english().link_contradictions);
    link(!sheet_.rulings.empty(), "rulings", std::string(english().heading_rulings));
    link(!sheet_.examined.empty(), "examined", english().link_examined);
    link(!sheet_.tasks.empty(), "tasks", english().link_tasks);
    link(!sheet_.cautions.empty(), "cautions", std::string(english().heading_cautions));
    link(!sheet_.settings.empty(), "settings", english().link_settings);
    link(!sheet_.notes.empty(), "notes", std::string(english().heading_notes));
    link(!sheet_.sources.empty(), "sources", std::string(english().heading_sources));
    out_.end().end();
    line();
  }

  void section(const std::string& id, std::string_view heading, const std::function<void()>& inside) {
    out_.start("section").attribute("id", id);
    out_.element("h2", heading);
    inside();
    out_.end();
    line();
  }

  void numbers(const std::vector<int>& notes) {
    if (notes.empty()) return;
    // The word joiner (U+2060) keeps the numbers on the line of the word before them.
    tag("sup", notes.size() < 6 ? "short" : "long");
    out_.text("\u2060[");
    for (std::size_t at = 0; at < notes.size(); ++at) {
      if (at != 0) out_.text(", ");
      const std::string number = std::to_string(notes[at]);
      out_.start("a")
          .attribute("href", "#note-" + number)
          .attribute("aria-label", fill(english().note_label, {{"n", number}}));
      out_.text(number).end();
    }
    out_.text("]").end();
  }

  /// The words of a sentence; `link` makes a link of each date, to its reasons elsewhere on the page.
  void sentence(const Sentence& one, bool link) {
    for (const Part& part : one.parts) {
      if (part.why && link)
        out_.start("a").attribute("class", "date").attribute("href", "#why-" + std::to_string(*part.why + 1));
      else if (part.why)
        tag("span", "date");
      out_.text(part.words);
      if (part.why) out_.end();
    }
    numbers(one.notes);
  }

  /// A sentence whose dates unfold into their reasons, the first time that they are told.
  void unfolding(const Sentence& one) {
    std::vector<std::size_t> fresh;
    for (const Part& part : one.parts)
      if (part.why && !unfolded_[*part.why]) {
        fresh.push_back(*part.why);
        unfolded_[*part.why] = true;
      }
    if (fresh.empty()) {
      out_.start("p").text("");
      sentence(one, true);
      out_.end();
      return;
    }
    tag("details", "why");
    out_.start("summary").text("");
    sentence(one, false);
    out_.end();
    for (const std::size_t why : fresh) reasons(why);
    out_.end();
  }

  void reasons(std::size_t place) {
    const Why& why = sheet_.whys[place];
    out_.start("div").attribute("class", "chain").attribute("id", "why-" + std::to_string(place + 1));
    out_.element("p", capital(why.label) + ": " + why.words + ".");
    for (const Chain* chain : {&why.earliest, &why.latest}) {
      tag("p", "bound");
      out_.text(chain->words + (chain->steps.empty() ? "" : std::string(english().because))).end();
      steps(chain->steps, "ol");
    }
    out_.end();
    line();
  }

  void steps(const std::vector<Step>& list, std::string_view sort) {
    if (list.empty()) return;
    out_.start(sort);
    for (const Step& step : list) {
      out_.start("li").text(step.words + (step.words.ends_with('.') ? "" : "."));
      numbers(step.notes);
      std::string basis = step.basis;
      if (!step.statement.empty())
        basis += (basis.empty() ? "" : "; ") + fill(english().statement, {{"name", step.statement}});
      if (!basis.empty()) {
        out_.text(" ");
        tag("span", "basis");
        out_.text("(" + basis + ")").end();
      }
      if (!step.remark.empty()) {
        tag("p", "remark");
        out_.text(step.remark).end();
      }
      if (!step.grounds.empty()) {
        tag("p", "remark");
        out_.text(english().concluded_from).end();
        steps(step.grounds, "ul");
      }
      out_.end();
    }
    out_.end();
  }

  void entry(const Entry& one) {
    out_.start("li").text("");
    unfolding(one.head);
    if (!one.more.empty()) {
      tag("div", "more");
      for (const Sentence& more : one.more) unfolding(more);
      out_.end();
    }
    out_.end();
    line();
  }

  void phases() {
    if (sheet_.phases.empty()) return;
    section("phases", english().heading_phases, [&] {
      for (const Chapter& chapter : sheet_.phases) {
        out_.start("article");
        out_.start("h3");
        tag("span", "bubble");
        out_.text(std::to_string(chapter.number)).end();
        out_.element("span", chapter.heading);
        out_.end();
        for (const Sentence& one : chapter.opening) unfolding(one);
        for (const Group& group : chapter.groups) members(group);
        out_.end();
        line();
      }
    });
  }

  void members(const Group& group) {
    tag("h4", group.surely ? "surely" : "possibly");
    out_.element("span", group.label).end();
    if (group.names_only) {
      std::string names;
      for (const Entry& one : group.entries) names += (names.empty() ? "" : "; ") + one.head.words();
      out_.element("p", capital(names) + ".");
      return;
    }
    out_.start("ul");
    for (const Entry& one : group.entries) entry(one);
    out_.end();
  }

  void entries(const std::string& id, const std::string& heading, const std::vector<Entry>& list) {
    if (list.empty()) return;
    section(id, heading, [&] {
      out_.start("ul");
      for (const Entry& one : list) entry(one);
      out_.end();
    });
  }

  void sentences(const std::string& id, const std::string& heading, const std::vector<Sentence>& list) {
    if (list.empty()) return;
    section(id, heading, [&] {
      out_.start("ul");
      for (const Sentence& one : list) {
        out_.start("li").text("");
        sentence(one, true);
        out_.end();
      }
      out_.end();
    });
  }

  void drawing() {
    if (sheet_.things.empty()) return;
    section("drawing", english().heading_drawn, [&] {
      if (!sheet_.drawing.bars.empty()) {
        out_.start("figure");
        write_charts(sheet_, out_, "wide-", false);
        write_charts(sheet_, out_, "narrow-", true);
        out_.end();
        line();
      }
      if (!sheet_.drawing.ticks.empty()) {
        tag("ul", "letters");
        for (const Tick& tick : sheet_.drawing.ticks) {
          out_.start("li").element("b", tick.letter);
          sentence(tick.sentence, false);
          out_.end();
        }
        out_.end();
        line();
      }
      table();
    });
  }

  void table() {
    out_.start("table").element("caption", english().table_caption);
    out_.start("thead").start("tr");
    for (const std::string_view heading :
         {english().column_thing, english().column_put_in, english().column_gone, english().column_notes})
      out_.start("th").attribute("scope", "col").text(heading).end();
    out_.end().end();
    out_.start("tbody");
    for (const Thing& thing : sheet_.things) {
      out_.start("tr").start("th").attribute("scope", "row");
      out_.text((thing.code.empty() || thing.code == thing.name ? "" : thing.code + " ") + thing.name);
      if (!thing.material.empty()) out_.text("; " + thing.material);
      out_.end();
      cell(english().column_put_in, thing.begins, thing.begins_why);
      cell(english().column_gone, thing.ends, thing.ends_why);
      out_.start("td").attribute("data-label", english().column_notes).text("");
      numbers(thing.notes);
      out_.end().end();
      line();
    }
    out_.end().end();
  }

  void cell(std::string_view label, const std::string& words, std::optional<std::size_t> why) {
    out_.start("td").attribute("data-label", label).text("");
    if (why && unfolded_[*why]) {
      sentence({{{words, why, true}}, {}}, true);
    } else if (why) {
      unfolding({{{words, why, true}}, {}});
    } else {
      out_.text(words);
    }
    out_.end();
  }

  void contradictions() {
    if (sheet_.contradictions.empty()) return;
    section("contradictions", std::string(english().heading_contradictions), [&] {
      for (const Contradiction& one : sheet_.contradictions) {
        tag("div", "clash");
        out_.start("p").text("");
        sentence(one.head, true);
        out_.end();
        out_.element("p", one.clash);
        tag("div", "sides");
        side(one.set_aside.empty() ? english().cannot_hold : english().one_side, one.one_side);
        side(english().other_side, one.set_aside);
        out_.end();
        out_.element("p", one.proposal);
        if (!one.beside.empty()) {
          tag("p", "bound");
          out_.text(english().beside).end();
          out_.start("ul");
          for (const Sentence& said : one.beside) {
            out_.start("li").text("");
            sentence(said, true);
            out_.end();
          }
          out_.end();
        }
        out_.end();
        line();
      }
    });
  }

  void tasks() {
    if (sheet_.tasks.empty()) return;
    section("tasks", english().heading_tasks, [&] {
      out_.start("ol");
      for (const Task& task : sheet_.tasks) {
        out_.start("li").text("");
        sentence(task.task, false);
        tag("p", "remark");
        out_.text(task.gain).end();
        if (!task.known.empty()) {
          out_.start("ul");
          for (const Sentence& known : task.known) {
            out_.start("li").text("");
            sentence(known, false);
            out_.end();
          }
          out_.end();
        }
        out_.end();
        line();
      }
      out_.end();
      out_.element("p", english().tasks_caution);
    });
  }

  void side(std::string_view heading, const std::vector<Step>& list) {
    if (list.empty()) return;
    out_.start("div");
    out_.start("h4").element("span", heading).end();
    steps(list, "ul");
    out_.end();
  }

  void notes() {
    if (sheet_.notes.empty()) return;
    section("notes", std::string(english().heading_notes), [&] {
      tag("ol", "notes-list");
      for (const Note& note : sheet_.notes) {
        out_.start("li").attribute("id", "note-" + std::to_string(note.number));
        out_.text(note.words + (note.words.ends_with('.') ? "" : "."));
        if (!note.quote.empty()) {
          out_.text(" ");
          tag("span", "quote");
          out_.text("“" + note.quote + "”").end();
        }
        if (note.full_in) {
          const std::string full = std::to_string(*note.full_in);
          out_.text(" (").start("a").attribute("href", "#note-" + full);
          out_.text(fill(english().in_full, {{"n", full}})).end().text(")");
        }
        out_.end();
        line();
      }
      out_.end();
    });
  }

  void sources() {
    if (sheet_.sources.empty()) return;
    section("sources", std::string(english().heading_sources), [&] {
      tag("ul", "sources");
      for (const SourceLine& source : sheet_.sources)
        out_.element("li", (source.code.empty() ? "" : source.code + ". ") + source.words + ".");
      out_.end();
    });
  }

  const Sheet& sheet_;
  XmlWriter& out_;
  std::vector<bool> unfolded_;
};

}  // namespace

void write_html(const Sheet& sheet, std::ostream& out) {
  std::ostringstream gathered;
  XmlWriter writer(gathered, XmlWriter::Layout::compact);
  Page(sheet, writer).write();
  writer.finish();
  const std::string page = gathered.str();
  // HTML knows no XML declaration: UTF-8 is the default of XML, and a meta element says it to HTML.
  out << "<!DOCTYPE html>\n" << std::string_view(page).substr(page.find("<html"));
}

}  // namespace lathbook::sheet
