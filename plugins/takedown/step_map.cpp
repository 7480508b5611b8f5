// A field drawn small, its cells numbered by the lines of the work sheet.
#include <algorithm>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

double shift_of(std::string_view bond) {
  if (bond.find("half") != std::string_view::npos) return 0.5;
  return bond.find("third") != std::string_view::npos ? 1.0 / 3 : 0;
}

// Which line of the sheet each thing stands in.
std::map<Uuid, std::string> lines_of(const WorkOrder& order, const SheetFor& what) {
  std::map<Uuid, std::string> lines;
  for (const Stage& stage : stages_of(what.back ? order.back : order.down))
    for (const auto& thing : stage.things) lines[thing.id] = std::to_string(stage.first);
  for (const auto& thing : order.retained) lines[thing.id] = "E";
  return lines;
}

}  // namespace

std::vector<StepMap> step_maps(const Snapshot& archive, const WorkOrder& order, const SheetFor& what) {
  const auto lines = lines_of(order, what);
  std::map<Uuid, StepMap> maps;
  archive.each(Kind::piece, {"piece-of", "position", "fragment-of"}, [&](const RecordView& view) {
    const auto line = lines.find(view.info.id);
    if (line == lines.end()) return;
    const PieceView piece(view);
    if (!piece.element || !piece.row || !piece.column || piece.fragment_of) return;
    maps[*piece.element].cells[{*piece.row, *piece.column}] = line->second;
  });
  std::vector<StepMap> out;
  for (auto& [id, map] : maps) {
    const auto element = archive.find(id);
    const Statement* said = element ? element->best("piece-map") : nullptr;
    if (said == nullptr) continue;
    map.element = element->info;
    map.rows = number_in<int>(said->content.qualifier("rows")).value_or(0);
    map.columns = number_in<int>(said->content.qualifier("columns")).value_or(0);
    map.shift = shift_of(said->content.qualifier("bond"));
    if (map.rows > 0 && map.rows <= 500 && map.columns > 0 && map.columns <= 500)
      out.push_back(std::move(map));
  }
  std::sort(out.begin(), out.end(), [](const StepMap& a, const StepMap& b) {
    return compare_for_people(a.element.code, b.element.code) < 0;
  });
  return out;
}

void write_step_map(XmlWriter& xml, const StepMap& map) {
  const double side = std::min(14.0, 170.0 / (map.columns + map.shift));
  const double width = side * (map.columns + map.shift), height = side * map.rows;
  xml.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  xml.attribute("width", in_hundredths(width + 1) + "mm")
      .attribute("height", in_hundredths(height + 1) + "mm");
  xml.attribute("viewBox", "-0.5 -0.5 " + in_hundredths(width + 1) + " " + in_hundredths(height + 1))
      .attribute("role", "img");
  xml.element("title", "Steps of the sheet on the map of " + display(map.element));
  for (int row = map.rows; row >= 1; --row)
    for (int column = 1; column <= map.columns; ++column) {
      const double x = (column - 1 + (row % 2 == 0 ? map.shift : 0)) * side, y = (map.rows - row) * side;
      const auto cell = map.cells.find({row, column});
      xml.start("rect")
          .attribute("x", in_hundredths(x))
          .attribute("y", in_hundredths(y))
          .attribute("width", in_hundredths(side));
      xml.attribute("height", in_hundredths(side))
          .attribute("fill", cell == map.cells.end() ? "none" : "#fff");
      xml.attribute("stroke", "#16181a")
          .attribute("stroke-width", cell == map.cells.end() ? "0.1" : "0.3")
          .end();
      if (cell == map.cells.end()) continue;
      xml.start("text")
          .attribute("x", in_hundredths(x + side / 2))
          .attribute("y", in_hundredths(y + side * 0.64));
      xml.attribute("font-size", in_hundredths(std::min(side * 0.42, 4.2)))
          .attribute("text-anchor", "middle");
      xml.attribute("font-family", "DejaVu Sans Condensed, Noto Sans, sans-serif")
          .attribute("fill", "#16181a");
      xml.text(cell->second).end();
    }
  xml.end();
}

}  // namespace lathbook::takedown
