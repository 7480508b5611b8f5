#include "plugins/takedown/write.hpp"

#include <optional>
#include <utility>

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/printed_page.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::takedown {

namespace {

std::string names(const std::vector<RecordInfo>& records) {
  std::vector<std::string> words;
  for (const auto& record : records) words.push_back(display(record));
  return join(words, "; ");
}

// The number at the end of a code and what stands before it.
std::pair<std::string, std::optional<long>> parted(const std::string& code) {
  std::size_t at = code.size();
  while (at > 0 && code[at - 1] >= '0' && code[at - 1] <= '9') --at;
  if (at == code.size() || code.size() - at > 9) return {code, std::nullopt};
  return {code.substr(0, at), std::stol(code.substr(at))};
}

// "N-203.25 to N-203.34, N-203.36": runs of three or more are drawn together.
std::string codes(const std::vector<RecordInfo>& records) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < records.size();) {
    const auto [stem, first] = parted(records[i].code);
    std::size_t last = i;
    while (first && last + 1 < records.size()) {
      const auto next = parted(records[last + 1].code);
      if (next.first != stem || next.second != *first + static_cast<long>(last + 1 - i)) break;
      ++last;
    }
    if (last >= i + 2) {
      words.push_back(records[i].code + " to " + records[last].code);
    } else {
      for (std::size_t k = i; k <= last; ++k) words.push_back(records[k].code);
    }
    i = last + 1;
  }
  return join(words, ", ");
}

// Steps in a row that do not wait for one another and need the same care: one line of a sheet.
struct Stage {
  std::size_t first = 0, last = 0;  // numbers of steps, from 1
  std::vector<RecordInfo> things;
  std::vector<RecordInfo> unsupported;
  std::string note;
  bool together = false;  // one step of several things
};

std::vector<Stage> stages_of(const std::vector<WorkStep>& steps) {
  std::vector<Stage> stages;
  std::size_t level = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const WorkStep& step = steps[i];
    const bool goes_on = !stages.empty() && level == step.level && stages.back().note == step.note &&
                         !stages.back().together && step.things.size() == 1 &&
                         stages.back().unsupported.empty() && step.unsupported.empty();
    if (goes_on) {
      stages.back().last = i + 1;
      stages.back().things.push_back(step.things.front());
      continue;
    }
    stages.push_back({i + 1, i + 1, step.things, step.unsupported, step.note, step.things.size() > 1});
    level = step.level;
  }
  return stages;
}

std::string numbers(const Stage& stage) {
  if (stage.first == stage.last) return std::to_string(stage.first);
  return std::to_string(stage.first) + " to " + std::to_string(stage.last);
}

std::string things_of(const Stage& stage) {
  if (stage.things.size() < 2 || stage.together) return names(stage.things);
  if (stage.things.size() <= 6) return names(stage.things) + " (in any order)";
  return codes(stage.things) + " (in any order)";
}

std::string circle_words(const WorkCircle& circle) {
  std::vector<std::string> why;
  for (const auto& reason : circle.reasons) why.push_back(reason.why.words);
  return names(circle.things) + " hold one another: " + join(why, "; ") +
         ". They come away as one, or one of these relations is wrong: look again";
}

const char* const kPractice =
    "Loose tile comes off from the top down, so that nothing falls on what remains and each upper edge is "
    "free; "
    "relaying runs from the bottom up (common practice, no source).";

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

void list(PrintedPage& page, const std::string& heading, const std::vector<std::string>& lines,
          const std::string& none) {
  page.heading(heading);
  if (lines.empty()) {
    page.paragraph(none);
    return;
  }
  page.xml().start("ul");
  for (const auto& line : lines) page.xml().element("li", line);
  page.xml().end();
}

void head(PrintedPage& page, const Undertaking& plan, const SheetFor& sheet) {
  list(page, "Why", plan.reasons,
       "Nobody has written down why. Say so before anything moves: plan-reason of the works.");
  list(page, "Considered instead", plan.alternatives,
       "No alternative is on record. Leaving it, or consolidating it in place, is one.");
  list(page, "Who answers for it", plan.responsible, "Nobody is named.");
  list(page, "Leave to do it", plan.permissions, "No consent or permit is on record. Ask before starting.");
  if (!sheet.back)
    list(page, "To record first", plan.record_first,
         "Nothing is listed. As a rule: overall and square-on photographs with scale, datum and diagonals, "
         "and a sample of bed and fixing.");
}

std::vector<std::vector<std::string>> rows_of(const std::vector<WorkStep>& steps) {
  std::vector<std::vector<std::string>> rows;
  for (const Stage& stage : stages_of(steps)) {
    std::string care = stage.note;
    if (!stage.unsupported.empty())
      care += (care.empty() ? "" : "; ") + std::string("leaves without support: ") + codes(stage.unsupported);
    rows.push_back({numbers(stage), things_of(stage), care, ""});
  }
  return rows;
}

}  // namespace

void write_text(const WorkOrder& order, const SheetFor& sheet, std::ostream& out) {
  const auto& steps = sheet.back ? order.back : order.down;
  out << safe_display(display(order.scope)) << ": " << (sheet.back ? "putting back" : "taking down") << ", "
      << steps.size() << (steps.size() == 1 ? " step" : " steps") << '\n';
  for (const Stage& stage : stages_of(steps)) {
    out << "  " << numbers(stage) << ". " << safe_display(things_of(stage));
    if (!stage.note.empty()) out << "   [" << stage.note << ']';
    out << '\n';
    if (!stage.unsupported.empty())
      out << "     leaves without support: " << safe_display(codes(stage.unsupported)) << '\n';
  }
  for (const auto& circle : order.circles)
    out << "  look again: " << safe_display(circle_words(circle)) << '\n';
  if (!order.retained.empty()) out << "  stays as evidence: " << safe_display(codes(order.retained)) << '\n';
  if (!order.blocked.empty())
    out << "  cannot come away, something kept as evidence is in the way: "
        << safe_display(codes(order.blocked)) << '\n';
  for (const auto& warning : order.warnings) out << "  as done: " << safe_display(warning.words) << '\n';
  out << "  " << kPractice << '\n';
}

void write_json(const WorkOrder& order, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("scope").string(order.scope.code);
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
  json.end_array().key("retained").begin_array();
  for (const auto& record : order.retained) json.string(record.code);
  json.end_array().key("blocked").begin_array();
  for (const auto& record : order.blocked) json.string(record.code);
  json.end_array().end_object().finish();
}

void write_sheet(const WorkOrder& order, const Undertaking& plan, const std::vector<std::string>& care,
                 const SheetFor& sheet, std::ostream& out) {
  PrintedPage page(out, sheet.back ? "Work sheet: putting back" : "Work sheet: taking down",
                   display(order.scope));
  page.cautions(care);
  if (sheet.volunteers) {
    list(page, "For volunteers", plan.volunteer_tasks,
         "No task here has been found fit for volunteers by a named person, so there is none on this sheet.");
    page.paragraph("Everything else is for the people named by the person responsible.");
    page.finish("As known on " + iso_day(order.reading.known_day) + ". State of the archive " +
                order.reading.fingerprint.hex());
    return;
  }
  head(page, plan, sheet);
  page.heading(sheet.back ? "Order of putting back" : "Order of taking down");
  page.paragraph(kPractice);
  page.table("", {"step", "what", "take care", "done by, on"}, rows_of(sheet.back ? order.back : order.down));
  if (sheet.back)
    page.paragraph(
        "Each course: bed, set to the batten, leave to cure as the product says, then the next. Enter "
        "product, "
        "batch, and how and where new work is marked with 'lathbook put-back'.");
  std::vector<std::string> again;
  for (const auto& circle : order.circles) again.push_back(circle_words(circle));
  for (const auto& warning : order.warnings) again.push_back("As done: " + warning.words);
  if (!again.empty()) list(page, "Look again", again, "");
  if (!order.retained.empty()) page.heading("Stays as evidence").paragraph(codes(order.retained) + ".");
  if (!order.blocked.empty())
    page.paragraph(
        "Cannot come away, because something kept as evidence is in the way: " + codes(order.blocked) + ".");
  page.finish("As known on " + iso_day(order.reading.known_day) + ". State of the archive " +
              order.reading.fingerprint.hex());
}

}  // namespace lathbook::takedown
