// Crate lists, and labels for crates, boxes and bags.
#include "core/base/printed_page.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/qr_code.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

void list_of(PrintedPage& page, const ContainerAccount& container) {
  page.heading(display(container.record));
  page.paragraph("Type: " + (container.type.empty() ? "not said" : container.type) +
                 ". Gross weight: " + (container.weight.empty() ? "not weighed" : container.weight) +
                 ". Which way up: " + (container.way_up.empty() ? "not said" : container.way_up) + ".");
  if (!container.stood.empty()) page.paragraph("Stood in: " + join(container.stood, "; ") + ".");
  if (!container.hazards.empty()) page.cautions({join(container.hazards, "; ")});
  std::vector<std::vector<std::string>> rows;
  for (const auto& [order, piece] : container.contents)
    rows.push_back({order == 0 ? "not said" : std::to_string(order), piece.code, piece.name, ""});
  page.table(
      std::to_string(container.contents.size()) + (container.contents.size() == 1 ? " piece" : " pieces"),
      {"order", "code", "what it is", "checked"}, rows);
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

void label(PrintedPage& page, const std::string& base_iri, const RecordInfo& record,
           const std::string& below) {
  XmlWriter& xml = page.xml();
  xml.start("div").attribute("class", "label");
  write_qr(xml, scanned(base_iri, record), "QR code of " + record.code);
  xml.start("div").start("div").attribute("class", "code").text(record.code).end();
  if (!record.name.empty()) xml.element("div", record.name);
  if (!below.empty()) xml.element("div", below);
  xml.end().end();
}

}  // namespace

void write_crate_list(const PieceAccounts& accounts, const std::vector<std::string>& care,
                      std::ostream& out) {
  PrintedPage page(
      out, "Crate list",
      accounts.scope.id == Uuid{} ? "All containers" : "Containers for " + display(accounts.scope));
  page.cautions(care);
  page.paragraph(
      "Keep a copy of this list and of the map outside each container, so that nobody turns the contents "
      "over to find a number.");
  if (accounts.containers.empty()) page.paragraph("No piece that was counted is in a container.");
  for (const auto& container : accounts.containers) list_of(page, container);
  page.finish(foot_line(accounts));
}

void write_labels(const PieceAccounts& accounts, const std::string& base_iri, std::ostream& out) {
  PrintedPage page(out, "Labels", "For containers and bags");
  page.cautions(
      {"Tie these to bags and crates. Never stick one on a tile: the glue stains the body and lifts the "
       "glaze (Tiles and Architectural Ceramics Society, advice on the care of tiles). A tile carries "
       "soft pencil on its back, or lies in a numbered bag."});
  page.xml().start("div").attribute("class", "labels");
  for (const auto& container : accounts.containers) {
    label(page, base_iri, container.record,
          std::to_string(container.contents.size()) + " pieces" +
              (container.way_up.empty() ? "" : ", " + container.way_up) +
              (container.hazards.empty() ? "" : ". Take care: " + join(container.hazards, "; ")));
    for (const auto& [order, piece] : container.contents) label(page, base_iri, piece, container.record.code);
  }
  page.xml().end();
  page.finish(foot_line(accounts));
}

}  // namespace lathbook::pieces
