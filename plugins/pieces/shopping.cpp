// The matching sheet: what to look for when pieces are missing, one card for each field.
#include "core/base/munsell.hpp"
#include "core/base/printed_page.hpp"
#include "core/base/renotation.hpp"
#include "core/base/text.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/likeness.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

// A chip 24 mm wide, with what the screen or printer could not do said beside it.
void chip(XmlWriter& xml, const std::string& notation) {
  const MunsellReading read = read_munsell(notation);
  if (!read.good()) {
    xml.element("div", "Munsell " + notation + " cannot be read: " + read.fault);
    return;
  }
  const ScreenColour shown = on_screen(read.colour);
  xml.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg").attribute("width", "24mm");
  xml.attribute("height", "16mm").attribute("viewBox", "0 0 24 16").attribute("role", "img");
  xml.element("title", "Munsell " + read.colour.text());
  xml.start("rect").attribute("x", "0.2").attribute("y", "0.2").attribute("width", "23.6");
  xml.attribute("height", "15.6").attribute("fill", shown.hex()).attribute("stroke", "#16181a");
  xml.attribute("stroke-width", "0.3").end().end();
  std::string words = "Munsell " + read.colour.text() + ", on screens " + shown.hex();
  if (shown.trust != ColourTrust::renotation) words += " (" + word(shown.trust) + ")";
  xml.element("div", words);
}

std::string joint_words(const FieldAccount& field) {
  if (!field.joint) return "joint not measured";
  const auto tenths = static_cast<long>(*field.joint * 10 + 0.5);
  return "joint " + std::to_string(tenths / 10) +
         (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10)) + " mm";
}

// Cells that want a piece, by state or condition.
std::string wanted_words(const FieldAccount& field) {
  std::vector<std::string> words;
  if (field.missing != 0) words.push_back(std::to_string(field.missing) + " missing");
  if (field.broken != 0) words.push_back(std::to_string(field.broken) + " broken");
  return join(words, ", ");
}

// A field by its type; pieces of a thing that is no field by their names.
std::string what_words(const FieldAccount& field) {
  constexpr std::size_t kMost = 6;
  std::vector<std::string> names;
  for (const auto& line : field.pieces) {
    const PieceState state = piece_state_from_word(line.state);
    if (!line.is_bag && state != PieceState::unknown && !is_held(state))
      names.push_back(display(line.record));
  }
  if (field.rows == 0 && !names.empty() && names.size() <= kMost) return join(names, "; ");
  return field.order.type.empty() ? display(field.element) : field.order.type;
}

void card(PrintedPage& page, const FieldAccount& field, const ArchiveFiles& files) {
  const OrderLine& order = field.order;
  XmlWriter& xml = page.xml();
  xml.start("div").attribute("class", "whole");
  page.heading(display(field.element));
  xml.start("div").attribute("class", "card");
  xml.start("div").attribute("class", "count");
  xml.element("div", std::to_string(order.needed + order.spares));
  xml.element("p", "wanted: " + wanted_words(field) +
                       (order.spares == 0 ? "" : ", and " + std::to_string(order.spares) + " spare") +
                       ". Look at " + std::to_string(order.to_buy + order.spares) + ".");
  xml.end();
  xml.start("div");
  const auto fact = [&](const std::string& label, const std::string& text) {
    xml.start("p").element("b", label + " ").text(text).end();
  };
  fact("What:", what_words(field));
  fact("Size as measured:", size_words(order.size) + "; " + joint_words(field));
  fact("Back:", order.back_pattern.empty() ? "not recorded: look before buying" : order.back_pattern);
  fact("Colour:", order.colour.empty() ? "not recorded in words" : order.colour);
  xml.end().start("div");
  if (order.munsell.empty())
    xml.element("div", "Munsell not matched: take a surviving piece along.");
  else
    chip(xml, order.munsell);
  xml.end().end();
  if (const auto shown = likenesses(field); !shown.empty())
    write_likenesses(xml, shown, files);
  else
    page.paragraph("No piece of it is marked on a photograph (pictured-in): take a surviving piece along.");
  page.table("Candidates",
             {"dealer, day", "length", "width", "thickness", "back", "colour in daylight", "taken"},
             {{"", "", "", "", "", "", ""}, {"", "", "", "", "", "", ""}, {"", "", "", "", "", "", ""}});
  xml.end();
}

}  // namespace

void write_shopping(const PieceAccounts& accounts, const Care& care, const ArchiveFiles& files,
                    std::ostream& out) {
  PrintedPage page(
      out, "Matching sheet",
      accounts.scope.id == Uuid{} ? "Pieces to find" : "Pieces to find for " + display(accounts.scope));
  page.stopped(care.stops);
  page.cautions(care.hazards);
  page.paragraph(
      "Counted cell by cell, never by area. Measure every candidate: trade sizes are names, and early "
      "six-inch tiles "
      "differ by several millimetres. Hold it against a surviving piece in daylight, look at the back, and "
      "tap it. A "
      "printed colour is a guide; the book and the surviving piece decide.");
  bool any = false;
  for (const auto& field : accounts.fields) {
    if (field.order.needed == 0) continue;
    any = true;
    card(page, field, files);
  }
  if (!any) page.paragraph("Nothing is missing or broken in what was counted.");
  for (const auto& field : accounts.fields)
    for (const auto& mismatch : field.mismatches)
      page.paragraph("Before buying, look again: " + mismatch.text + ".");
  page.finish(foot_line(accounts));
}

}  // namespace lathbook::pieces
