// Crate lists, and labels for crates, boxes and bags.
#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/printed_page.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/map_svg.hpp"
#include "plugins/pieces/qr_code.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

using Lines = std::map<Uuid, const PieceLine*>;

std::string or_else(const std::string& text, const char* otherwise) {
  return text.empty() ? otherwise : text;
}

std::string came_from(const PieceLine* line) {
  if (line == nullptr || !line->row || !line->column) return "";
  return "row " + std::to_string(*line->row) + ", column " + std::to_string(*line->column);
}

// Black: in this container. What else is of the field is only outlined.
void plan_of(XmlWriter& xml, const FieldAccount& field, const Uuid& container) {
  const double side = std::min(7.0, 170.0 / field.columns);
  const auto mm = [](double value) {
    const auto hundredths = std::lround(value * 100);
    return std::to_string(hundredths / 100) + "." + (hundredths % 100 < 10 ? "0" : "") +
           std::to_string(hundredths % 100);
  };
  const double width = side * field.columns + 1, height = side * field.rows + 1;
  xml.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  xml.attribute("width", mm(width) + "mm").attribute("height", mm(height) + "mm");
  xml.attribute("viewBox", "-0.5 -0.5 " + mm(width) + " " + mm(height)).attribute("role", "img");
  xml.element("title", "Where the pieces of this container belong in " + display(field.element));
  for (const auto& line : field.pieces) {
    if (line.is_bag || !line.row || !line.column || *line.row < 1 || *line.row > field.rows) continue;
    const bool here = line.container && line.container->id == container && line.state == "in container";
    const double x = (*line.column - 1) * side, y = (field.rows - *line.row + 1 - line.high) * side;
    xml.start("rect").attribute("x", mm(x)).attribute("y", mm(y)).attribute("width", mm(side * line.wide));
    xml.attribute("height", mm(side * line.high)).attribute("fill", here ? "#16181a" : "#fff");
    xml.attribute("stroke", "#16181a").attribute("stroke-width", "0.2").end();
    if (!here) continue;
    xml.start("text").attribute("x", mm(x + side / 2)).attribute("y", mm(y + side * 0.65));
    const std::string words = short_code(line.record.code, field.element.code);
    const double size = side * std::min(0.42, 1.5 / static_cast<double>(display_width(words)));
    xml.attribute("font-size", mm(size)).attribute("text-anchor", "middle").attribute("fill", "#fff");
    xml.attribute("font-family", "DejaVu Sans Condensed, Noto Sans, sans-serif");
    xml.text(words).end();
  }
  xml.end();
}

void plans_of(PrintedPage& page, const PieceAccounts& accounts, const ContainerAccount& container) {
  for (const auto& field : accounts.fields) {
    if (field.rows == 0 || field.columns == 0) continue;
    const bool has_any = std::any_of(field.pieces.begin(), field.pieces.end(), [&](const PieceLine& line) {
      return line.container && line.container->id == container.record.id && line.row &&
             line.state == "in container";
    });
    if (!has_any) continue;
    page.xml().start("div").attribute("class", "whole");
    page.paragraph("Where they belong in " + display(field.element) +
                   ", seen from the room (black: in here):");
    plan_of(page.xml(), field, container.record.id);
    page.xml().end();
  }
}

// A page for each, to be kept with it.
void list_of(PrintedPage& page, const PieceAccounts& accounts, const ContainerAccount& container,
             const Lines& lines, const Care& all) {
  page.xml().start("div").attribute("class", "sheet");
  page.heading(display(container.record));
  page.stopped(all.stops);
  const auto& care = all.hazards;
  std::vector<std::string> cautions;
  if (!container.hazards.empty())
    cautions.push_back("In this container: " + join(container.hazards, "; ") + ".");
  if (!care.empty()) cautions.push_back("Where it came from: " + join(care, "; ") + ".");
  page.cautions(cautions);
  page.table("", {"type", "which way up", "gross weight", "packed by, on", "seal"},
             {{or_else(container.type, "not said"), or_else(container.way_up, "not said"),
               or_else(container.weight, "not weighed"), or_else(container.packed, "not said"),
               or_else(container.seal, "none on record")}});
  page.paragraph("Stood: " +
                 (container.stood.empty() ? std::string("not said, or not for this list")
                                          : join(container.stood, "; ")) +
                 ".");
  plans_of(page, accounts, container);
  std::vector<std::vector<std::string>> rows;
  for (const auto& [order, piece] : container.contents) {
    const auto found = lines.find(piece.id);
    const PieceLine* line = found == lines.end() ? nullptr : found->second;
    rows.push_back({order == 0 ? "" : std::to_string(order), piece.code, piece.name, came_from(line),
                    line == nullptr ? "" : line->condition, ""});
  }
  page.table(
      std::to_string(container.contents.size()) + (container.contents.size() == 1 ? " piece" : " pieces"),
      {"order", "code", "what it is", "from", "condition", "checked"}, rows);
  // Each page is kept with its container, apart from the others; the last has the foot of the whole list.
  if (&container != &accounts.containers.back())
    page.xml().start("p").attribute("class", "foot").text(foot_line(accounts)).end();
  page.xml().end();
}

// The address under which exports name the record; without a base address its code, percent-encoded.
std::string scanned(const std::string& base_iri, const RecordInfo& record) {
  const std::string text = base_iri.empty() ? record.code : record_address(base_iri, record.id);
  std::string ascii;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      ascii += c;
    } else {
      static constexpr char kDigits[] = "0123456789ABCDEF";
      ascii += {'%', kDigits[byte >> 4], kDigits[byte & 15]};
    }
  }
  return ascii;
}

void label(PrintedPage& page, const Labelling& labelling, const RecordInfo& record,
           const std::vector<std::string>& below) {
  XmlWriter& xml = page.xml();
  xml.start("div").attribute("class", "label");
  write_qr(xml, scanned(labelling.base_iri, record), "QR code of " + record.code);
  xml.start("div").start("div").attribute("class", "code").text(record.code).end();
  if (!record.name.empty()) xml.element("div", record.name);
  for (const auto& line : below)
    if (!line.empty()) xml.element("div", line);
  if (!labelling.house.empty()) xml.start("div").attribute("class", "house").text(labelling.house).end();
  xml.end().end();
}

// Untested dangers count as present: how many of them is enough on a label, the crate list names them.
std::string hazards_on_label(const ContainerAccount& container, const Care& care) {
  std::vector<std::string> words = container.hazards;
  for (const auto& line : care.hazards)
    if (line.find(": found") != std::string::npos || line.find(": presumed") != std::string::npos)
      words.push_back(line);
  return words.empty() ? "Dangers: see the crate list" : "Take care: " + join(words, "; ");
}

}  // namespace

void write_crate_list(const PieceAccounts& accounts, const Care& care, std::ostream& out) {
  PrintedPage page(
      out, "Crate list",
      accounts.scope.id == Uuid{} ? "All containers" : "Containers for " + display(accounts.scope));
  page.paragraph(
      "Keep each page outside its container, and a copy of all elsewhere, so that nobody turns the contents "
      "over to find a number.");
  if (accounts.containers.empty()) {
    page.stopped(care.stops);
    page.cautions(care.hazards);
    page.paragraph("No piece that was counted is in a container.");
  }
  Lines lines;
  for (const auto& field : accounts.fields)
    for (const auto& line : field.pieces) lines[line.record.id] = &line;
  for (const auto& container : accounts.containers) list_of(page, accounts, container, lines, care);
  page.finish(foot_line(accounts));
}

void write_labels(const PieceAccounts& accounts, const Labelling& labelling, const Care& care,
                  std::ostream& out) {
  PrintedPage page(out, "Labels", "For containers and bags");
  page.stopped(care.stops);
  page.cautions(
      {"Tie these to bags and crates. Never stick one on a tile: the glue stains the body and lifts the "
       "glaze (Tiles and Architectural Ceramics Society, advice on the care of tiles). A tile carries "
       "soft pencil on its back, or lies in a numbered bag."});
  std::map<Uuid, std::pair<const FieldAccount*, const PieceLine*>> lines;
  for (const auto& field : accounts.fields)
    for (const auto& line : field.pieces) lines[line.record.id] = {&field, &line};
  page.xml().start("div").attribute("class", "labels");
  for (const auto& container : accounts.containers) {
    label(
        page, labelling, container.record,
        {std::to_string(container.contents.size()) + (container.contents.size() == 1 ? " piece" : " pieces") +
             (container.way_up.empty() ? "" : ", " + container.way_up),
         hazards_on_label(container, care)});
    for (const auto& [order, piece] : container.contents) {
      const auto& [field, line] = lines.at(piece.id);
      const std::string cell = came_from(line);
      label(page, labelling, piece,
            {display(field->element), cell,
             "in " + container.record.code + (order == 0 ? "" : ", place " + std::to_string(order))});
    }
  }
  page.xml().end();
  page.finish(foot_line(accounts));
}

}  // namespace lathbook::pieces
