// Shared by the tests of the crm plugin: exporting to text, looking into N-Triples, running the tools.
#pragma once

#include <algorithm>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "plugins/crm/exporter.hpp"

namespace lathbook::test {

inline const std::string kBase = "http://example.org/archive/";
inline const std::string kCrm = "http://www.cidoc-crm.org/cidoc-crm/";
inline const std::string kType = "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type>";

/// Keeps what is said; never stops.
class QuietServices : public Services {
public:
  std::vector<std::string> notes;
  void note(Severity, const std::string& text) override { notes.push_back(text); }
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return nullptr; }
};

inline std::string exported(const StatementReader& reader, const std::string& format, const Uuid& scope = {},
                            Level level = Level::possible) {
  std::ostringstream out;
  QuietServices services;
  ExportRequest request{scope, level, kBase, format, {}};
  crm::CrmExporter().write(Snapshot(reader), request, out, services);
  return out.str();
}

using Lines = std::set<std::string>;

inline Lines lines_of(const std::string& text) {
  Lines lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.insert(line);
  return lines;
}

inline std::string rec(const Uuid& id, const std::string& part = {}) {
  return "<" + kBase + "record/" + id.text() + (part.empty() ? "" : "-" + part) + ">";
}
inline std::string st(const Digest& id, const std::string& part = {}) {
  return "<" + kBase + "statement/" + id.hex() + (part.empty() ? "" : "-" + part) + ">";
}
inline std::string crm_name(const std::string& local) {
  return "<" + kCrm + local + ">";
}
inline std::string extension(const std::string& model, const std::string& local) {
  return "<http://www.cidoc-crm.org/extensions/" + model + "/" + local + ">";
}
inline bool says(const Lines& lines, const std::string& subject, const std::string& predicate,
                 const std::string& object) {
  return lines.count(subject + " " + predicate + " " + object + " .") != 0;
}
inline std::size_t count_with(const Lines& lines, const std::string& part) {
  return static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(part) != std::string::npos;
  }));
}

}  // namespace lathbook::test
