// Time-spans from EDTF.
#include <cstdio>
#include <cstdlib>

#include "core/base/edtf.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

namespace {

/// XML Schema 1.1 part 2 (W3C 2012), 3.3.7: at least four digits of year, no sign before later years.
std::string day_text(Day day) {
  const CivilDay civil = civil_from_days(day);
  char text[64];
  std::snprintf(text, sizeof text, "%s%04lld-%02d-%02d", civil.year < 0 ? "-" : "",
                static_cast<long long>(std::llabs(civil.year)), civil.month, civil.day);
  return text;
}

Term moment(Day day, const char* time) {
  return typed(day_text(day) + "T" + time + "Z", "xsd:dateTime");
}

std::string doubt(const EdtfDate* date) {
  if (date == nullptr) return {};
  const DateQualifier qualifier = date->qualifier();
  if (qualifier.approximate && qualifier.uncertain) return "approximate and uncertain";
  if (qualifier.approximate) return "approximate";
  return qualifier.uncertain ? "uncertain" : std::string();
}

void add_doubt(Graph& graph, const std::string& name, const char* predicate, const std::string& text) {
  if (!text.empty()) graph.add(name, predicate, words(text, "en"));
}

}  // namespace

Term first_moment(Day day) {
  return moment(day, "00:00:00");
}
Term last_moment(Day day) {
  return moment(day, "23:59:59");
}

void describe_span(Graph& graph, const std::string& name, std::string_view edtf, std::string_view as_typed,
                   Ends ends) {
  graph.type(name, "crm:E52_Time-Span");
  graph.add(name, term::label, words(std::string(as_typed)));
  const auto date = Edtf::try_parse(edtf);
  if (!date) return;
  if (edtf != as_typed) graph.add(name, term::note, words("EDTF " + std::string(edtf)));
  if (ends != Ends::upper) {
    if (date->earliest()) graph.add(name, term::begin_of_begin, first_moment(*date->earliest()));
    add_doubt(graph, name, term::begin_qualified, doubt(date->first_date()));
  }
  if (ends != Ends::lower) {
    if (date->latest()) graph.add(name, term::end_of_end, last_moment(*date->latest()));
    add_doubt(graph, name, term::end_qualified, doubt(date->last_date()));
  }
}

namespace {

void add_bounds(Graph& graph, const std::string& name, const Days& days) {
  const bool sure = days.last_begin && days.first_end && *days.last_begin < *days.first_end;
  if (days.first_begin) graph.add(name, term::begin_of_begin, first_moment(*days.first_begin));
  if (sure) graph.add(name, term::end_of_begin, last_moment(*days.last_begin));
  if (sure) graph.add(name, term::begin_of_end, first_moment(*days.first_end));
  if (days.last_end) graph.add(name, term::end_of_end, last_moment(*days.last_end));
}

std::string either(const std::optional<Day>& from, const std::optional<Day>& to) {
  if (from && to) return *from == *to ? day_text(*from) : day_text(*from) + "/" + day_text(*to);
  if (from) return day_text(*from) + "/..";
  return to ? "../" + day_text(*to) : "..";
}

}  // namespace

void describe_days(Graph& graph, const std::string& name, const Days& days) {
  graph.type(name, "crm:E52_Time-Span");
  const bool lasting = days.last_begin || days.first_end;
  graph.add(name, term::label,
            words(lasting ? either(days.first_begin, days.last_begin) + " to " +
                                either(days.first_end, days.last_end)
                          : either(days.first_begin, days.last_end),
                  "en"));
  add_bounds(graph, name, days);
}

void describe_period(Graph& graph, const std::string& name, std::string_view from, std::string_view to) {
  graph.type(name, "crm:E52_Time-Span");
  const auto start = from.empty() ? std::nullopt : Edtf::try_parse(from);
  const auto end = to.empty() ? std::nullopt : Edtf::try_parse(to);
  graph.add(name, term::label,
            words((from.empty() ? ".." : std::string(from)) + " to " + (to.empty() ? ".." : std::string(to)),
                  "en"));
  Days days;
  if (start) days.first_begin = start->earliest();
  if (start) days.last_begin = start->latest();
  if (end) days.first_end = end->earliest();
  if (end) days.last_end = end->latest();
  // What was said to end before it began gets no bounds: no time fits it.
  if (days.first_begin && days.last_end && *days.first_begin > *days.last_end)
    graph.add(name, term::note, words("as stated it ends before it begins", "en"));
  else
    add_bounds(graph, name, days);
  if (start) add_doubt(graph, name, term::begin_qualified, doubt(start->first_date()));
  if (end) add_doubt(graph, name, term::end_qualified, doubt(end->last_date()));
}

}  // namespace lathbook::crm
