// Text for the terminal and JSON.
#include "plugins/chances/write.hpp"

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::chances {

namespace {

void put(std::ostream& out, std::size_t columns, const std::string& mark, const std::string& words) {
  const std::size_t depth = display_width(mark);
  bool is_first = true;
  for (const std::string& line : wrap(safe_display(words), columns > depth + 20 ? columns - depth : 20)) {
    out << (is_first ? mark : std::string(depth, ' ')) << line << '\n';
    is_first = false;
  }
}

std::string_view word(ChanceState state) {
  constexpr std::string_view words[] = {"drawn", "certain", "unbounded", "not-mixed"};
  return words[static_cast<std::size_t>(state)];
}

void put_record(JsonWriter& json, std::string_view key, const RecordInfo& record, int placement) {
  json.key(key).begin_object().key("id").string(record.id.text()).key("code").string(record.code);
  json.key("name").string(record.name).key("placement").number(placement).end_object();
}

void put_date(JsonWriter& json, const ChanceDate& date) {
  json.begin_object();
  put_record(json, "thing", date.record, date.placement);
  json.key("state").string(word(date.state));
  if (date.not_before) json.key("not-before").string(iso_day(*date.not_before));
  if (date.not_after) json.key("not-after").string(iso_day(*date.not_after));
  if (date.state == ChanceState::drawn) {
    json.key("likely-from")
        .string(iso_day(date.likely_first))
        .key("likely-to")
        .string(iso_day(date.likely_last));
    json.key("share").number(0.95).key("middle").string(iso_day(date.middle));
    json.key("r-hat").number(date.r_hat).key("effective-draws").number(date.draws);
  }
  json.key("words").string(date.words).end_object();
}

void put_order(JsonWriter& json, const ChanceOrder& order) {
  json.begin_object();
  put_record(json, "first", order.first, order.first_placement);
  put_record(json, "second", order.second, order.second_placement);
  json.key("state").string(word(order.state));
  if (order.state == ChanceState::drawn || order.state == ChanceState::certain)
    json.key("before")
        .number(order.before)
        .key("same-year")
        .number(order.same_year)
        .key("after")
        .number(order.after);
  if (order.state == ChanceState::drawn)
    json.key("error")
        .number(order.error)
        .key("r-hat")
        .number(order.r_hat)
        .key("effective-draws")
        .number(order.draws);
  if (order.orders)
    json.key("orders")
        .string(std::to_string(*order.orders))
        .key("orders-before")
        .string(std::to_string(*order.orders_before));
  json.key("words").string(order.words).end_object();
}

}  // namespace

void write_text(const Chances& chances, std::size_t columns, std::ostream& out) {
  const std::string title = chances.scope.id == Uuid{} ? "Chances" : "Chances of " + display(chances.scope);
  out << safe_display(title) << '\n' << std::string(display_width(title), '=') << '\n';
  for (const ChanceOrder& order : chances.orders) put(out, columns, "", order.words);
  if (!chances.orders.empty()) out << '\n';
  if (chances.orders.empty()) put(out, columns, "", "When each thing began.");
  for (const ChanceDate& date : chances.dates) put(out, columns, "* ", date.words);
  out << '\n';
  put(out, columns, "Prior: ", chances.prior);
  if (chances.instants > 0) {
    put(out, columns, "Drawing: ", chances.method);
    put(out, columns, "         ",
        std::to_string(chances.instants) + " dates drawn together; seed " + std::to_string(chances.seed) +
            " gives the same figures again.");
  }
  put(out, columns, "Evidence: ", "'lathbook why CODE begins' tells what each bound rests on.");
  for (const std::string& caution : chances.cautions) put(out, columns, "! ", caution);
  out << "State of the archive: " << chances.reading.fingerprint.hex() << '\n';
}

void write_json(const Chances& chances, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object()
      .key("code")
      .string(chances.scope.code)
      .key("as-known-on")
      .string(iso_day(chances.reading.known_day));
  json.key("fingerprint").string(chances.reading.fingerprint.hex()).key("prior").string(chances.prior);
  json.key("method").string(chances.method).key("seed").string(std::to_string(chances.seed));
  json.key("chains").number(chances.chains).key("draws").number(chances.draws);
  json.key("dates-drawn").number(chances.instants).key("left-out").number(chances.left_out);
  json.key("cautions").begin_array();
  for (const std::string& caution : chances.cautions) json.string(caution);
  json.end_array().key("orders").begin_array();
  for (const ChanceOrder& order : chances.orders) put_order(json, order);
  json.end_array().key("dates").begin_array();
  for (const ChanceDate& date : chances.dates) put_date(json, date);
  json.end_array().end_object();
  json.finish();
}

}  // namespace lathbook::chances
