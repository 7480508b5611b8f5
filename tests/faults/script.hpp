// A day's work on an archive, entry by entry, with what each entry added and when it was acknowledged.
#pragma once

#include <algorithm>
#include <cstdlib>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "core/evidence/registry.hpp"
#include "core/exchange/sheets.hpp"
#include "core/storage/archive.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

inline constexpr const char* kSecretWord = "quillfeather";

inline Content about(const Uuid& subject, const std::string& property, const std::string& value,
                     const std::optional<Uuid>& source = std::nullopt) {
  const auto& row = Registry::standard().named(property);
  Content content;
  content.subject = subject;
  content.property = row.id;
  content.value = value;
  if (row.cites != Cites::none) {
    content.evidence = EvidenceClass::documentary;
    content.confidence = Confidence::certain;
    if (source) content.citations.push_back({*source, "p. 1", ""});
  }
  return content;
}

inline std::set<Digest> ids_of(const Archive& archive) {
  std::set<Digest> ids;
  archive.ledger({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}})
      ->each_sealed([&](const Sealed& sealed) {
        ids.insert(sealed.id());
        return true;
      });
  return ids;
}

inline std::string faults_of(const Findings& findings) {
  std::string text;
  for (const auto& finding : findings) {
    if (finding.severity == Severity::fault) text += finding.code + ": " + finding.text + "\n";
  }
  return text;
}

/// What one entry added, all of it or nothing.
struct Step {
  std::string name;
  std::vector<Digest> ids;
  std::size_t acknowledged_at = 0;  ///< length of the disk's log when commit had returned
};

/// Empty when the archive holds every step that was acknowledged and none by half; else what is wrong.
inline std::string wrong_with(const Archive& archive, const std::vector<Step>& steps, std::size_t cut) {
  const auto ids = ids_of(archive);
  std::string wrong = faults_of(archive.check({}, true));
  for (const auto& step : steps) {
    const auto here = static_cast<std::size_t>(std::count_if(
        step.ids.begin(), step.ids.end(), [&](const Digest& id) { return ids.count(id) != 0; }));
    if (here != 0 && here != step.ids.size()) {
      wrong += step.name + " is there by half: " + std::to_string(here) + " of " +
               std::to_string(step.ids.size()) + "\n";
    }
    if (step.acknowledged_at <= cut && here != step.ids.size())
      wrong += step.name + " was acknowledged and is lost\n";
  }
  return wrong;
}

/// Sheets of `elements` elements and two photographs in a folder; about five statements an element.
inline std::vector<std::filesystem::path> write_sheets(const std::filesystem::path& folder,
                                                       const std::string& stem, int elements) {
  write_file(folder / (stem + "-a.png"), "not really a picture: " + stem + " a");
  write_file(folder / (stem + "-b.png"), "not really a picture: " + stem + " b");
  write_file(folder / "sources.csv", "code,source-type,title,class,confidence,media\nS-" + stem +
                                         "1,photograph,North wall,documentary,certain," + stem +
                                         "-a.png\nS-" + stem +
                                         "2,photograph,South wall,documentary,certain," + stem + "-b.png\n");
  std::string rows = "code,element-type,material,description,source,locator,class,confidence\n";
  for (int i = 1; i <= elements; ++i) {
    rows += "E-" + stem + std::to_string(i) + ",plank,pine,\"plank " + std::to_string(i) +
            " from the door\",S-" + stem + "1,left,physical,certain\n";
  }
  write_file(folder / "elements.csv", rows);
  return {folder / "elements.csv", folder / "sources.csv"};
}

inline void import(Archive& archive, const std::vector<std::filesystem::path>& sheets) {
  const auto writer = archive.write();
  const auto report = import_sheets(sheets, *writer, {});
  if (!report.applied) throw std::runtime_error("the sheets were refused: " + report.faults.front().text());
  writer->commit();
}

}  // namespace lathbook::test
