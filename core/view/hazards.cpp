#include "core/view/hazards.hpp"

#include <algorithm>
#include <set>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/scope.hpp"
#include "core/view/stops.hpp"

namespace lathbook {

int hazard_gravity(std::string_view status) {
  if (status == "found") return 3;
  if (status == "presumed") return 2;
  return status == "tested clear" ? 0 : 1;
}

namespace {

// A stop presumes its danger as long as it stands; once it is lifted, until somebody says how the matter is.
void presume_stopped(const Snapshot& archive, const std::set<Uuid>& around,
                     std::vector<HazardStatus>& hazards, const std::vector<bool>& said) {
  for (const auto& stop : every_stop(archive))
    for (const auto& at : stop.at) {
      if (around.count(at.id) == 0) continue;
      for (std::size_t i = 0; i < hazards.size(); ++i) {
        HazardStatus& one = hazards[i];
        const bool met =
            std::find(stop.hazards.begin(), stop.hazards.end(), one.hazard) != stop.hazards.end();
        if (!met || (stop.lifted && said[i]) || hazard_gravity(one.status) >= hazard_gravity("presumed"))
          continue;
        one = {one.hazard, "presumed", at.id, stop.statement};
      }
    }
}

}  // namespace

std::vector<HazardStatus> hazards_of(const Snapshot& archive, const std::vector<Uuid>& records) {
  std::vector<HazardStatus> hazards;
  for (const auto& hazard : Registry::standard().choices("hazard"))
    hazards.push_back({hazard, "not tested", {}, {}});
  std::vector<bool> said(hazards.size(), false);
  const auto around = bearing_on(archive, records);
  for (const Uuid& id : around) {
    const auto record = archive.find(id);
    if (!record) continue;
    for (const Statement* statement : record->all("hazard")) {
      const auto found = std::find_if(hazards.begin(), hazards.end(), [&](const HazardStatus& one) {
        return one.hazard == statement->content.value;
      });
      if (found == hazards.end()) continue;
      const auto place = static_cast<std::size_t>(found - hazards.begin());
      const std::string status(statement->content.qualifier("status"));
      if (said[place] && hazard_gravity(status) <= hazard_gravity(found->status)) continue;
      said[place] = true;
      *found = {found->hazard, status, id, statement->id};
    }
  }
  presume_stopped(archive, around, hazards, said);
  return hazards;
}

const std::vector<Caution>& cautions() {
  static const std::vector<Caution> table = [] {
    std::vector<Caution> read;
    auto known = Registry::standard().choices("hazard");
    const auto& alarms = Registry::standard().choices("alarm");
    known.insert(known.end(), alarms.begin(), alarms.end());
    for (const auto& line : split(embedded_table("cautions"), '\n')) {
      if (line.empty() || line.front() == '#') continue;
      const auto cells = split(line, '\t');
      if (cells.size() != 5 || std::find(known.begin(), known.end(), cells[0]) == known.end())
        fail(ErrorKind::corrupt, "the table of cautions has a broken row: " + quote(line));
      read.push_back({cells[0], cells[1], cells[2] == "-" ? "" : cells[2], cells[3], cells[4]});
    }
    return read;
  }();
  return table;
}

std::string jurisdiction_of(const Snapshot& archive) {
  std::string jurisdiction;
  Query query;
  query.properties = {Registry::standard().named("jurisdiction").id};
  archive.statements().each_statement(query, [&](const Statement& statement) {
    jurisdiction = statement.content.value;
    return true;
  });
  return jurisdiction;
}

std::vector<std::string> caution_lines(const std::vector<HazardStatus>& hazards,
                                       const std::string& jurisdiction) {
  std::vector<std::string> lines;
  for (const auto& hazard : hazards) {
    if (!hazard.counts_as_present()) continue;
    for (const auto& caution : cautions()) {
      if (caution.hazard != hazard.hazard) continue;
      if (caution.jurisdiction != "any" && fold(caution.jurisdiction) != fold(jurisdiction)) continue;
      std::string line = hazard.hazard + ": " + caution.advice + " (" + caution.source;
      if (caution.jurisdiction != "any") line += "; " + caution.jurisdiction;
      if (!caution.since.empty()) line += ", since " + caution.since;
      lines.push_back(line + ")");
    }
  }
  lines.push_back(
      "Rules change: local codes and licensed people decide what may be done here; this list does not.");
  return lines;
}

std::vector<std::string> hazard_lines(const std::vector<HazardStatus>& hazards) {
  std::vector<std::string> lines, untested, clear;
  for (const auto& one : hazards) {
    if (one.status == "not tested")
      untested.push_back(one.hazard);
    else if (one.status == "tested clear")
      clear.push_back(one.hazard);
    else
      lines.push_back(one.hazard + ": " + one.status);
  }
  if (!untested.empty()) lines.push_back("not tested, presume present: " + join(untested, ", "));
  if (!clear.empty()) lines.push_back("tested clear: " + join(clear, ", "));
  return lines;
}

}  // namespace lathbook
