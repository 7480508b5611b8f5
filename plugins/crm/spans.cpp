// Time-spans from EDTF.
#include <cstdio>
#include <cstdlib>

#include "core/base/edtf.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

namespace {

/// XML Schema 1.1 part 2 (W3C 2012), 3.3.7: at least four digits of year, no sign before later years.
Term moment(Day day, const char* time) {
  const CivilDay civil = civil_from_days(day);
  char text[64];
  std::snprintf(text, sizeof text, "%s%04lld-%02d-%02dT%sZ", civil.year < 0 ? "-" : "",
                static_cast<long long>(std::llabs(civil.year)), civil.month, civil.day, time);
  return typed(text, "xsd:dateTime");
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

void describe_period(Graph& graph, const std::string& name, std::string_view from, std::string_view to) {
  graph.type(name, "crm:E52_Time-Span");
  const auto start = from.empty() ? std::nullopt : Edtf::try_parse(from);
  const auto end = to.empty() ? std::nullopt : Edtf::try_parse(to);
  graph.add(name, term::label,
            words((from.empty() ? ".." : std::string(from)) + " to " + (to.empty() ? ".." : std::string(to)),
                  "en"));
  // A first use that may be later than the last one leaves no time of which the use is sure.
  const bool sure = start && end && start->latest() && end->earliest() && *start->latest() < *end->earliest();
  if (start && start->earliest()) graph.add(name, term::begin_of_begin, first_moment(*start->earliest()));
  if (sure) graph.add(name, term::end_of_begin, last_moment(*start->latest()));
  if (sure) graph.add(name, term::begin_of_end, first_moment(*end->earliest()));
  if (end && end->latest()) graph.add(name, term::end_of_end, last_moment(*end->latest()));
  if (start) add_doubt(graph, name, term::begin_qualified, doubt(start->first_date()));
  if (end) add_doubt(graph, name, term::end_qualified, doubt(end->last_date()));
}

}  // namespace lathbook::crm
