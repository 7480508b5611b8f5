// The accounts for a terminal and for machines.
#include <ostream>

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/number.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

void write_field(const FieldAccount& field, std::ostream& out) {
  out << safe_display(display(field.element));
  if (field.rows > 0)
    out << ", " << field.rows << (field.rows == 1 ? " row of " : " rows of ") << field.columns;
  if (field.laid == 0) {
    out << "\n  bags of fragments only\n";
    return;
  }
  out << "\n  " << field.laid << " laid = " << field.whole << " whole + " << field.broken << " broken + "
      << field.missing << " missing\n";
  std::vector<std::string> states;
  for (const auto& [state, pieces] : field.by_state)
    if (pieces != 0) states.push_back(std::to_string(pieces) + " " + state);
  if (!states.empty()) out << "  on record: " << join(states, ", ") << '\n';
  if (field.order.needed != 0) {
    out << "  to find: " << field.order.needed << ", so look at " << field.order.to_buy;
    if (field.order.spares != 0) out << " and take " << field.order.spares << " spare";
    out << "; " << size_words(field.order.size) << '\n';
  }
  for (const auto& mismatch : field.mismatches)
    out << "  look again: " << safe_display(mismatch.text) << '\n';
}

void write_line(JsonWriter& json, const PieceLine& line) {
  json.begin_object().key("code").string(line.record.code).key("name").string(line.record.name);
  if (line.row) json.key("row").number(*line.row);
  if (line.column) json.key("column").number(*line.column);
  json.key("rotation").number(line.rotation).key("state").string(line.state).key("since").string(line.since);
  json.key("container").string(line.container ? line.container->code : "");
  json.key("condition").string(line.condition).key("sounds").string(line.sounds);
  json.key("fragments").begin_array();
  for (const auto& fragment : line.fragments) json.string(fragment.code);
  json.end_array().key("incomplete").boolean(line.incomplete);
  json.key("statement")
      .string(line.state_statement == Digest{} ? "" : line.state_statement.hex())
      .end_object();
}

void write_field(JsonWriter& json, const FieldAccount& field) {
  json.begin_object().key("element").string(field.element.code).key("name").string(field.element.name);
  json.key("rows").number(field.rows).key("columns").number(field.columns);
  json.key("laid").number(field.laid).key("whole").number(field.whole);
  json.key("broken").number(field.broken).key("missing").number(field.missing);
  json.key("states").begin_object();
  for (const auto& [state, pieces] : field.by_state) json.key(state).number(pieces);
  json.end_object();
  json.key("needed").number(field.order.needed).key("to-buy").number(field.order.to_buy);
  json.key("spares").number(field.order.spares).key("size").string(size_words(field.order.size));
  json.key("look-again").begin_array();
  for (const auto& mismatch : field.mismatches)
    json.begin_object().key("code").string(mismatch.code).key("text").string(mismatch.text).end_object();
  json.end_array().key("pieces").begin_array();
  for (const auto& line : field.pieces) write_line(json, line);
  json.end_array().end_object();
}

}  // namespace

std::string size_words(const PieceSize& size) {
  if (!size.length && !size.width && !size.thickness) return "size not measured: measure before buying";
  const auto part = [](const std::optional<double>& value) {
    return value ? in_hundredths(*value) : std::string("?");
  };
  std::string words = part(size.length) + " x " + part(size.width) + " x " + part(size.thickness) + " mm";
  if (!size.thickness) words += " (thickness not measured)";
  words += size.tolerance.empty() ? ", tolerance not said" : ", tolerance " + size.tolerance;
  return words;
}

std::string foot_line(const PieceAccounts& accounts) {
  return "As known on " + iso_day(accounts.reading.known_day) + ". State of the archive " +
         accounts.reading.fingerprint.hex();
}

void write_text(const PieceAccounts& accounts, const std::vector<std::string>& stops, std::ostream& out) {
  for (const auto& line : stops) out << safe_display(line) << '\n';
  if (accounts.fields.empty()) out << "nothing here is laid in pieces that are on record\n";
  for (const auto& field : accounts.fields) write_field(field, out);
  if (accounts.containers.empty()) return;
  out << '\n';
  Table table({"container", "type", "pieces", "weight", "which way up"});
  for (const auto& container : accounts.containers)
    table.add({display(container.record), container.type, std::to_string(container.contents.size()),
               container.weight, container.way_up});
  table.print(out);
}

void write_json(const PieceAccounts& accounts, const std::vector<std::string>& stops, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("known-on").string(iso_day(accounts.reading.known_day));
  json.key("fingerprint").string(accounts.reading.fingerprint.hex());
  json.key("stopped").begin_array();
  for (const auto& line : stops) json.string(line);
  json.end_array().key("fields").begin_array();
  for (const auto& field : accounts.fields) write_field(json, field);
  json.end_array().key("containers").begin_array();
  for (const auto& container : accounts.containers) {
    json.begin_object().key("code").string(container.record.code).key("type").string(container.type);
    json.key("weight").string(container.weight).key("contents").begin_array();
    for (const auto& [order, piece] : container.contents) json.string(piece.code);
    json.end_array().end_object();
  }
  json.end_array().end_object().finish();
}

}  // namespace lathbook::pieces
