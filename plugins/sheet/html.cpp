// The sheet as one page of HTML that is well-formed XML too.
#include <sstream>

#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/html_parts.hpp"
#include "plugins/sheet/phrases.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

class Page : HtmlParts {
public:
  Page(const Sheet& sheet, XmlWriter& out) : HtmlParts(sheet, out) {}

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
    for (const Sentence& one : sheet_.stopped) {
      tag("p", "warn");
      sentence(one, true);
      out_.end();
    }
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
    section(id, heading, [&] { listed({}, list); });
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

  void contradictions() {
    if (sheet_.contradictions.empty()) return;
    section("contradictions", std::string(english().heading_contradictions), [&] {
      int number = 1;
      for (const Contradiction& one : sheet_.contradictions) {
        tag("div", "clash");
        out_.start("p").text(std::to_string(number++) + ". ");
        sentence(one.head, true);
        out_.end();
        out_.element("p", one.clash);
        tag("div", "sides");
        side(one.set_aside.empty() ? english().cannot_hold : english().one_side, one.one_side);
        side(english().other_side, one.set_aside);
        out_.end();
        out_.element("p", one.proposal);
        listed({}, one.ways_out);
        listed(english().fallen_with, one.fallen_with);
        listed(english().beside, one.beside);
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

  void notes() {
    if (sheet_.notes.empty()) return;
    section("notes", std::string(english().heading_notes), [&] {
      tag("ol", "notes-list");
      for (const Note& note : sheet_.notes) {
        out_.start("li").attribute("id", "note-" + std::to_string(note.number));
        out_.text(with_full_stop(note.words));
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
