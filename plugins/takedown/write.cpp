#include "plugins/takedown/write.hpp"

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::takedown {

namespace {

void json_of(JsonWriter& json, const std::vector<WorkStep>& steps) {
  json.begin_array();
  for (const auto& step : steps) {
    json.begin_object().key("things").begin_array();
    for (const auto& thing : step.things) json.string(thing.code);
    json.end_array().key("level").number(step.level).key("choices").number(step.choices);
    json.key("instead").begin_array();
    for (const auto& thing : step.instead) json.string(thing.code);
    json.end_array().key("unsupported").begin_array();
    for (const auto& thing : step.unsupported) json.string(thing.code);
    json.end_array().key("note").string(step.note).end_object();
  }
  json.end_array();
}

// A proposed order is judged and not planned.
void write_proposed(const WorkOrder& order, std::ostream& out) {
  out << safe_display(display(order.scope)) << ": proposed order " << safe_display(codes(order.proposed))
      << '\n';
  for (const auto& warning : order.warnings) out << "  " << safe_display(warning.words) << '\n';
  if (order.warnings.empty()) out << "  endangers nothing that is on record\n";
}

}  // namespace

void write_text(const WorkOrder& order, const SheetFor& sheet, const std::vector<std::string>& stops,
                std::ostream& out) {
  for (const auto& line : stops) out << safe_display(line) << '\n';
  if (!order.proposed.empty()) return write_proposed(order, out);
  const auto& steps = sheet.back ? order.back : order.down;
  out << safe_display(display(order.scope)) << ": " << (sheet.back ? "putting back" : "taking down") << ", "
      << steps.size() << (steps.size() == 1 ? " step" : " steps") << '\n';
  for (const auto& warning : order.warnings)
    if (!sheet.back && !is_of_the_past(warning)) out << "  " << safe_display(warning.words) << '\n';
  for (const Stage& stage : stages_of(steps)) {
    out << "  " << numbers(stage) << ". " << safe_display(things_of(stage));
    if (!stage.note.empty()) out << "   [" << stage.note << ']';
    out << '\n';
    if (!stage.unsupported.empty())
      out << "     then held by their bed alone: " << safe_display(codes(stage.unsupported)) << '\n';
    if (!stage.instead.empty())
      out << "     could go now instead: " << safe_display(codes(stage.instead)) << '\n';
  }
  for (const auto& circle : order.circles)
    out << "  look again: " << safe_display(circle_words(circle)) << '\n';
  if (!order.retained.empty()) out << "  stays as evidence: " << safe_display(codes(order.retained)) << '\n';
  for (const auto& line : blocked_lines(order)) out << "  " << safe_display(line) << '\n';
  for (const auto& warning : order.warnings)
    if (is_of_the_past(warning)) out << "  as done: " << safe_display(warning.words) << '\n';
  out << "  " << practice(order) << '\n';
}

void write_json(const WorkOrder& order, const std::vector<std::string>& stops, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("scope").string(order.scope.code);
  json.key("stopped").begin_array();
  for (const auto& line : stops) json.string(line);
  json.end_array();
  json.key("known-on").string(iso_day(order.reading.known_day));
  json.key("fingerprint").string(order.reading.fingerprint.hex());
  json.key("down");
  json_of(json, order.down);
  json.key("back");
  json_of(json, order.back);
  json.key("reasons").begin_array();
  for (const auto& reason : order.reasons) {
    json.begin_object().key("first").string(reason.first.code).key("second").string(reason.second.code);
    json.key("words").string(reason.why.words);
    json.key("statement")
        .string(reason.why.statement == Digest{} ? "" : reason.why.statement.hex())
        .end_object();
  }
  json.end_array().key("circles").begin_array();
  for (const auto& circle : order.circles) json.string(circle_words(circle));
  json.end_array().key("warnings").begin_array();
  for (const auto& warning : order.warnings) json.string(warning.words);
  json.end_array().key("followed").begin_array();
  for (const auto& step : order.followed) {
    json.begin_object().key("day").string(step.day).key("event").string(step.event.code);
    json.key("thing").string(step.thing.code).key("how").string(step.how).key("outcome").string(step.outcome);
    json.key("learnt").string(step.lesson).end_object();
  }
  json.end_array().key("proposed").begin_array();
  for (const auto& record : order.proposed) json.string(record.code);
  json.end_array().key("retained").begin_array();
  for (const auto& record : order.retained) json.string(record.code);
  json.end_array().key("blocked").begin_array();
  for (const auto& block : order.blocked) {
    json.begin_object().key("code").string(block.thing.code).key("kept").string(block.kept.code);
    json.key("words").string(block.words).end_object();
  }
  json.end_array().end_object().finish();
}

}  // namespace lathbook::takedown
