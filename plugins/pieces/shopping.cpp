// The matching sheet: what to look for when pieces are missing.
#include "core/base/printed_page.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

void write_shopping(const PieceAccounts& accounts, const std::vector<std::string>& care, std::ostream& out) {
  PrintedPage page(
      out, "Matching sheet",
      accounts.scope.id == Uuid{} ? "Pieces to find" : "Pieces to find for " + display(accounts.scope));
  page.cautions(care);
  page.paragraph(
      "Measure every candidate: trade sizes are names, and early six-inch tiles differ by several "
      "millimetres. "
      "Hold it against a surviving piece in daylight, look at the back, and tap it.");
  std::vector<std::vector<std::string>> rows;
  for (const auto& field : accounts.fields) {
    const OrderLine& order = field.order;
    if (order.needed == 0) continue;
    rows.push_back({display(field.element), std::to_string(order.needed),
                    std::to_string(order.to_buy) +
                        (order.spares == 0 ? "" : " + " + std::to_string(order.spares) + " spare"),
                    size_words(order.size),
                    order.colour + (order.munsell.empty() ? "" : " (Munsell " + order.munsell + ")"),
                    order.back_pattern.empty() ? "not recorded" : order.back_pattern});
  }
  if (rows.empty())
    page.paragraph("Nothing is missing or broken in what was counted.");
  else
    page.table("Counted cell by cell, never by area",
               {"field", "needed", "look at", "measured size", "colour", "back"}, rows);
  for (const auto& field : accounts.fields)
    for (const auto& mismatch : field.mismatches)
      page.paragraph("Before buying, look again: " + mismatch.text + ".");
  page.finish(foot_line(accounts));
}

}  // namespace lathbook::pieces
