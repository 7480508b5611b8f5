// The printed work sheets: down, back, for volunteers, and the order that was followed.
#include <cmath>

#include "core/base/calendar.hpp"
#include "core/base/printed_page.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

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
      care += (care.empty() ? "" : "; ") + std::string("then held by their bed alone: ") +
              codes(stage.unsupported);
    if (!stage.instead.empty())
      care += (care.empty() ? "" : "; ") + std::string("could go now instead: ") + codes(stage.instead);
    rows.push_back({numbers(stage), things_of(stage), care, ""});
  }
  return rows;
}

std::string foot(const WorkOrder& order) {
  return "As known on " + iso_day(order.reading.known_day) + ". State of the archive " +
         order.reading.fingerprint.hex();
}

std::string days(double number) {
  const bool whole = number == std::floor(number);
  std::string text = whole ? std::to_string(static_cast<long>(number)) : std::to_string(number);
  if (!whole) text.erase(text.find_last_not_of('0') + 1);
  return text + (number == 1 ? " day" : " days");
}

// What is done for each course, then what is done once; the days of waiting add up.
void write_repairs(PrintedPage& page, const std::vector<RepairStep>& repairs) {
  page.heading("Steps of putting back");
  if (repairs.empty()) {
    page.paragraph(
        "No steps are on record. As a rule, for each course from the bottom: clean and wet the bed, lay on a "
        "level "
        "batten, leave it to cure as the product says, then the next course (common practice, no source). "
        "Enter "
        "your own: lathbook say WORKS repair-step \"bed in lime putty\" --with order=1 --with waits=2 --with "
        "each=course");
    return;
  }
  std::vector<std::vector<std::string>> rows;
  double waits = 0;
  for (const auto& step : repairs) {
    waits += step.waits;
    rows.push_back({std::to_string(step.order), step.words, step.product.empty() ? "not said" : step.product,
                    step.each.empty() ? "not said" : step.each, step.waits > 0 ? days(step.waits) : "none",
                    ""});
  }
  page.table("", {"step", "what", "with", "for each", "then wait", "batch"}, rows);
  page.paragraph("Waiting in all, when each is done once: " + days(waits) +
                 ". The product's own sheet decides.");
}

void write_volunteers(PrintedPage& page, const Undertaking& plan) {
  list(page, "For volunteers", plan.volunteer_tasks,
       "No task here has been found fit for volunteers by a named person, so there is none on this sheet.");
  page.paragraph("Everything else is for the people named by the person responsible.");
}

void write_maps(PrintedPage& page, const std::vector<StepMap>& maps, bool back) {
  for (const auto& map : maps) {
    page.xml().start("div").attribute("class", "whole");
    page.heading("Map: " + display(map.element));
    page.paragraph(
        std::string("Seen from the room. The number in a cell is the step of this sheet in which that "
                    "piece goes ") +
        (back ? "back" : "down") + "; E stays as evidence; an empty cell is no part of this order.");
    write_step_map(page.xml(), map);
    page.xml().end();
  }
}

}  // namespace

void write_sheet(const WorkOrder& order, const SheetParts& parts, const SheetFor& sheet, std::ostream& out) {
  const char* kind = sheet.volunteers ? "Work sheet: volunteers"
                     : sheet.back     ? "Work sheet: putting back"
                                      : "Work sheet: taking down";
  PrintedPage page(out, kind, display(order.scope));
  page.stopped(parts.stops);
  page.cautions(parts.care);
  if (sheet.volunteers) {
    write_volunteers(page, parts.plan);
    page.finish(foot(order));
    return;
  }
  head(page, parts.plan, sheet);
  if (sheet.back) write_repairs(page, parts.repairs);
  page.heading(sheet.back ? "Order of putting back" : "Order of taking down");
  page.paragraph(practice(order));
  for (const auto& warning : order.warnings)
    if (!sheet.back && !is_of_the_past(warning)) page.paragraph("Take care, " + warning.words + ".");
  page.table("", {"step", "what", "take care", "done by, on"}, rows_of(sheet.back ? order.back : order.down));
  if (sheet.back)
    page.paragraph(
        "Enter each course with 'lathbook put-back': product, batch, days of curing, and how and where new "
        "work is "
        "marked.");
  std::vector<std::string> again;
  for (const auto& circle : order.circles) again.push_back(circle_words(circle));
  for (const auto& warning : order.warnings)
    if (is_of_the_past(warning)) again.push_back("As done: " + warning.words);
  if (!again.empty()) list(page, "Look again", again, "");
  if (!order.retained.empty()) page.heading("Stays as evidence").paragraph(codes(order.retained) + ".");
  for (const auto& line : blocked_lines(order)) page.paragraph(line + ".");
  write_maps(page, parts.maps, sheet.back);
  page.finish(foot(order));
}

void write_followed(const WorkOrder& order, const std::vector<std::string>& stops, std::ostream& out) {
  PrintedPage page(out, "Order followed", display(order.scope));
  page.stopped(stops);
  page.paragraph(
      "What was really taken down, in the order in which it was entered. Read it backwards for putting "
      "back.");
  std::vector<std::vector<std::string>> rows;
  std::size_t number = 0;
  for (const auto& step : order.followed) {
    std::string came = step.outcome;
    if (!step.lesson.empty()) came += (came.empty() ? "" : ". ") + std::string("Learnt: ") + step.lesson;
    rows.push_back(
        {std::to_string(++number), step.day, display(step.thing), step.how, came, step.event.code});
  }
  if (rows.empty())
    page.paragraph("No removal is on record here.");
  else
    page.table("", {"", "day", "what", "how", "what came of it", "event"}, rows);
  std::vector<std::string> again;
  for (const auto& warning : order.warnings)
    if (is_of_the_past(warning)) again.push_back(warning.words);
  if (!again.empty()) list(page, "Look again", again, "");
  page.finish(foot(order));
}

}  // namespace lathbook::takedown
