// Makes the reports of the sample house.
#include "tests/report/fairlead.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <memory>
#include <sstream>
#include <stdexcept>

#include "plugins/finishes/analysis.hpp"
#include "plugins/timeline/result.hpp"

namespace lathbook::test {

namespace {

class Quiet : public Services {
public:
  void note(Severity, const std::string&) override {}
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return nullptr; }
};

/// The media folder of the sample, as an archive that has taken it in would lend it.
class Media : public ArchiveFiles {
public:
  Media() {
    for (const auto& file : std::filesystem::directory_iterator(std::filesystem::path(LATHBOOK_SOURCE_DIR) /
                                                                "archive-sample" / "media")) {
      std::string bytes = read_file(file.path());
      held_[sha256(bytes)] = std::move(bytes);
    }
  }
  std::unique_ptr<std::istream> media(const Digest& digest) const override {
    const auto found = held_.find(digest);
    if (found == held_.end()) return nullptr;
    return std::make_unique<std::istringstream>(found->second);
  }
  void write_exchange(std::ostream&) const override {}

private:
  std::map<Digest, std::string> held_;
};

}  // namespace

Sample& fairlead() {
  static Sample sample;
  if (!sample.faults.empty()) throw std::runtime_error(sample.faults);
  return sample;
}

report::Document report_of(const std::string& place, report::Options options,
                           const std::vector<std::pair<std::string, std::string>>& settings) {
  const auto reader = fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  const auto scope = reader->record_by_code(place);
  if (!scope) throw std::runtime_error("no place " + place);
  Quiet services;
  AnalysisRequest request;
  request.scope = scope->id;
  request.settings = settings;
  request.settings.emplace_back("all-tasks", "yes");
  const Timeline timeline = timeline::make_timeline(snapshot, request, services);
  const FinishLayers layers = finishes::layers_of(snapshot, {scope->id, Level::possible, {}, {}}, services);
  const std::vector<Digest> none;
  static const Media media;
  const report::Material material{snapshot, timeline, &layers, &media, none};
  return report::Builder(material, std::move(options)).build();
}

const report::Document& whole_house() {
  static const report::Document document = report_of("FL-H");
  return document;
}

std::string lathbook_says(const std::vector<std::string>& arguments) {
  std::vector<std::string> all{program(), "--archive", (fairlead().folder / "archive").string()};
  all.insert(all.end(), arguments.begin(), arguments.end());
  const Ran ran = run(all);
  if (ran.code != 0) throw std::runtime_error(ran.err);
  return ran.out;
}

bool can_run(const std::string& program) {
  if (run({"sh", "-c", "command -v " + program}).code == 0) return true;
  WARN("there is no " << program << " here: what needs it is not tested");
  return false;
}

}  // namespace lathbook::test
