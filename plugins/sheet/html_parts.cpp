// Writes the parts with the page's XML writer.
#include "plugins/sheet/html_parts.hpp"

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

void HtmlParts::tag(std::string_view name, std::string_view css) {
  out_.start(name).attribute("class", css);
}

void HtmlParts::line() {
  out_.text("\n");
}

void HtmlParts::section(const std::string& id, std::string_view heading,
                        const std::function<void()>& inside) {
  out_.start("section").attribute("id", id);
  out_.element("h2", heading);
  inside();
  out_.end();
  line();
}

void HtmlParts::numbers(const std::vector<int>& notes) {
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

void HtmlParts::sentence(const Sentence& one, bool link) {
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

void HtmlParts::unfolding(const Sentence& one) {
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

void HtmlParts::reasons(std::size_t place) {
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

void HtmlParts::steps(const std::vector<Step>& list, std::string_view sort) {
  if (list.empty()) return;
  out_.start(sort);
  for (const Step& step : list) {
    out_.start("li").text(with_full_stop(step.words));
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

void HtmlParts::entry(const Entry& one) {
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

void HtmlParts::cell(std::string_view label, const std::string& words, std::optional<std::size_t> why) {
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

void HtmlParts::side(std::string_view heading, const std::vector<Step>& list) {
  if (list.empty()) return;
  out_.start("div");
  out_.start("h4").element("span", heading).end();
  steps(list, "ul");
  out_.end();
}

void HtmlParts::listed(std::string_view heading, const std::vector<Sentence>& list) {
  if (list.empty()) return;
  if (!heading.empty()) {
    tag("p", "bound");
    out_.text(heading).end();
  }
  out_.start("ul");
  for (const Sentence& one : list) {
    out_.start("li").text("");
    sentence(one, true);
    out_.end();
  }
  out_.end();
}

}  // namespace lathbook::sheet
