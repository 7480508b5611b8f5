// One page for a screen of any width and for paper: the drawing, and the same in words beneath.
#include "core/base/calendar.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/sequence/basis.hpp"
#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

// No '<', '>' or '&' in it: the text must mean the same to a reader of HTML and of XML.
constexpr const char* kStyle = R"css(
:root { --ink: #16181a; --soft: #55585c; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: var(--ink); font: 1rem/1.45 Charter, "Bitstream Charter", Georgia, "DejaVu Serif", serif; overflow-wrap: anywhere; }
main { max-width: 76rem; margin: 0 auto; padding: .8rem; }
h1, h2 { font-family: "Gill Sans", "Gill Sans MT", Optima, "DejaVu Sans Condensed", "Noto Sans", sans-serif; font-weight: 600; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: .2rem 0 .5rem; }
h2 { font-size: .95rem; text-transform: uppercase; letter-spacing: .12em; border-top: 3px double var(--ink); padding-top: .45rem; margin: 1.8rem 0 .6rem; }
figure { margin: 1rem 0; }
svg { display: block; }
.wide { display: none; }
.loop { border: 2.4px solid var(--ink); padding: .5rem .7rem; margin: .7rem 0; }
li { margin: .25rem 0; }
.more { color: var(--soft); }
.basis { color: var(--soft); font-size: .85rem; }
footer { margin-top: 2rem; border-top: 1px solid var(--ink); padding-top: .5rem; font-size: .82rem; color: var(--soft); }
@media (min-width: 46rem) { .wide { display: block; } .narrow { display: none; } }
@page { margin: 14mm; }
@page drawing { size: landscape; margin: 10mm; }
@media print { figure { page: drawing; margin: 0; } .wide { display: block; margin: 0 auto; max-height: 178mm; } .narrow { display: none; } }
)css";

class Page {
public:
  Page(const Sequence& sequence, const Snapshot& archive, bool all, std::ostream& out)
      : sequence_(sequence), archive_(archive), all_(all), xml_(out) {}

  void write() {
    xml_.start("html").attribute("xmlns", "http://www.w3.org/1999/xhtml").attribute("lang", "en");
    xml_.start("head").start("meta").attribute("charset", "utf-8").end();
    xml_.start("meta")
        .attribute("name", "viewport")
        .attribute("content", "width=device-width, initial-scale=1")
        .end();
    xml_.element("title", title_of(sequence_)).element("style", kStyle).end();
    xml_.start("body").start("main").element("h1", title_of(sequence_));
    xml_.element("p", summary_of(sequence_));
    loops();
    drawings();
    relations();
    lines("Contacts that order nothing", sequence_.no_order);
    foot();
    xml_.end().end().end();
    xml_.finish();
  }

private:
  void loops() {
    for (std::size_t at = 0; at < sequence_.loops.size(); ++at) {
      xml_.start("div").attribute("class", "loop");
      xml_.element("p", "Loop " + loop_letter(at) + ": " + loop_words(sequence_, at));
      xml_.start("ul");
      for (const std::uint32_t relation : loop_statements(sequence_, at)) {
        xml_.start("li").text(sequence_.relations[relation].words);
        basis(sequence_.relations[relation]);
        xml_.end();
      }
      xml_.end().end();
    }
  }

  void basis(const SequenceRelation& relation) {
    xml_.empty("br");
    xml_.start("span").attribute("class", "basis").text(basis_of(archive_, relation)).end();
  }

  void drawings() {
    if (sequence_.things.size() > kMostDrawn) {
      xml_.element("p", "This is too much to draw; ask for a room of it. All relations are listed below.");
      return;
    }
    xml_.start("figure");
    draw_boxes(sequence_, {all_, "wide-", "wide"}, xml_);
    draw_rows(sequence_, {all_, "narrow-", "narrow"}, xml_);
    xml_.end();
  }

  void relations() {
    if (sequence_.relations.empty()) return;
    xml_.element("h2", "What is said of the order").start("ul");
    for (const SequenceRelation& relation : sequence_.relations) {
      xml_.start("li").text(relation.words);
      std::string more;
      if (!relation.kept) more += "; set aside, as it clashes with what is surer";
      if (relation.redundant) more += "; not drawn, as the others say it already";
      if (!more.empty()) xml_.start("span").attribute("class", "more").text(more).end();
      basis(relation);
      xml_.end();
    }
    xml_.end();
  }

  void lines(const std::string& heading, const std::vector<ReasonStep>& steps) {
    if (steps.empty()) return;
    xml_.element("h2", heading).start("ul");
    for (const ReasonStep& step : steps) xml_.element("li", step.words);
    xml_.end();
  }

  void foot() {
    xml_.start("footer");
    xml_.element("p", "As known on " + plain_day(sequence_.reading.known_day) +
                          ". State of the archive: " + sequence_.reading.fingerprint.hex());
    if (sequence_.reading.withheld > 0)
      xml_.element("p", std::to_string(sequence_.reading.withheld) +
                            " statements withheld; the private archive may order more.");
    xml_.end();
  }

  const Sequence& sequence_;
  const Snapshot& archive_;
  bool all_;
  XmlWriter xml_;
};

}  // namespace

void write_page(const Sequence& sequence, const Snapshot& archive, bool all, std::ostream& out) {
  Page(sequence, archive, all, out).write();
}

}  // namespace lathbook::sequence
