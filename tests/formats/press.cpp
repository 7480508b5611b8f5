#include "tests/formats/press.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <sstream>

#include "core/exchange/sheets.hpp"

namespace lathbook::test {

namespace fs = std::filesystem;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    if (!line.empty()) lines.push_back(line);
  return lines;
}

ExportRequest request(const std::string& format, const Uuid& scope, const std::string& base) {
  ExportRequest wanted;
  wanted.scope = scope;
  wanted.base_iri = base;
  wanted.format = format;
  return wanted;
}

}  // namespace

void Ear::note(const std::string& plugin, Severity, const std::string& text) {
  notes.push_back(plugin + ": " + text);
}

std::unique_ptr<std::istream> FakeFiles::media(const Digest& digest) const {
  const auto found = held.find(digest);
  return found == held.end() ? nullptr : std::make_unique<std::istringstream>(found->second);
}

void FakeFiles::write_exchange(std::ostream& out) const {
  out << "no exchange document\n";
}

Press::Press() : host({fs::path(LATHBOOK_BUILD_DIR) / "lib" / "lathbook" / "plugins"}, ear) {}

std::string Press::text(const StatementReader& reader, const std::string& plugin, const std::string& format,
                        const Uuid& scope, const std::string& base) {
  std::ostringstream out;
  host.export_to(plugin, Snapshot(reader), request(format, scope, base), out, &files);
  return out.str();
}

void Press::folder(const StatementReader& reader, const std::string& plugin, const fs::path& to,
                   const std::string& format, const Uuid& scope, const std::string& base) {
  host.export_folder(plugin, Snapshot(reader), request(format, scope, base), to, &files);
}

Fairlead::Fairlead() {
  const fs::path sample = fs::path(LATHBOOK_SOURCE_DIR) / "archive-sample";
  if (!fs::exists(sample / "sheets")) {
    WARN("the sheets of the sample are not there: this check is left out");
    return;
  }
  setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  std::vector<fs::path> sheets;
  for (const auto& entry : fs::directory_iterator(sample / "sheets"))
    if (entry.path().extension() == ".csv") sheets.push_back(entry.path());
  std::sort(sheets.begin(), sheets.end());
  Archive::create(folder / "archive");
  OpenOptions options;
  options.write = true;
  archive = std::make_unique<Archive>(folder / "archive", clock, options);
  auto writer = archive->write();
  const auto id = writer->make_record(Kind::archive, "ARCHIVE", std::nullopt);
  for (const auto& [property, value] : std::vector<std::pair<std::string, std::string>>{
           {"archive-name", "The Fairlead"},
           {"contact-email", "archive@fairlead.example"},
           {"harvest-address", "https://gateway.example/oai/fairlead"}}) {
    Content content;
    content.subject = id;
    content.property = Registry::standard().named(property).id;
    content.value = value;
    writer->add(content);
  }
  SheetOptions sheet_options;
  sheet_options.media_folder = sample / "media";
  const auto report = import_sheets(sheets, *writer, sheet_options);
  for (const auto& fault : report.faults) WARN(fault.text());
  if (!report.applied) return;
  writer->commit();
  there = true;
}

const Fairlead& Fairlead::get() {
  static const Fairlead made;
  return made;
}

void Fairlead::lend(Press& press) {
  for (const auto& entry :
       fs::directory_iterator(fs::path(LATHBOOK_SOURCE_DIR) / "archive-sample" / "media")) {
    const std::string bytes = read_file(entry.path());
    press.files.held.emplace(sha256(bytes), bytes);
  }
}

bool have_standards() {
  if (!standards().empty()) return true;
  WARN("the published schemas are not at hand (LATHBOOK_STANDARDS): this check is left out");
  return false;
}

bool have_python() {
  if (run({"/usr/bin/python3", "-c", "import jsonschema"}).code == 0) return true;
  WARN("python3-jsonschema is not installed: this check is left out");
  return false;
}

std::vector<std::string> judged(const std::vector<std::string>& what) {
  std::vector<std::string> arguments{"/usr/bin/python3",
                                     std::string(LATHBOOK_SOURCE_DIR) + "/tests/formats/check_exports.py",
                                     standards().empty() ? "-" : standards().string()};
  arguments.insert(arguments.end(), what.begin(), what.end());
  const Ran ran = run(arguments);
  auto lines = lines_of(ran.out);
  if (ran.code != 0 && lines.empty()) lines.push_back("the checks did not run: " + ran.err);
  return lines;
}

std::vector<std::string> against_schema(const std::string& schema, const std::vector<fs::path>& files) {
  if (!fs::exists("/usr/bin/xmllint")) {
    WARN("xmllint is not installed: this check is left out");
    return {};
  }
  std::vector<std::string> faults;
  // A process for some hundred files: arguments have a limit, and a schema is compiled once a process.
  for (std::size_t at = 0; at < files.size(); at += 500) {
    std::vector<std::string> arguments{"/usr/bin/xmllint", "--nonet", "--noout", "--schema",
                                       (standards() / schema).string()};
    for (std::size_t i = at; i < std::min(at + 500, files.size()); ++i)
      arguments.push_back(files[i].string());
    const Ran ran = run(arguments, {"XML_CATALOG_FILES=" + (standards() / "catalog.xml").string()});
    std::vector<std::string> told;
    for (const auto& line : lines_of(ran.err))
      if (line.find(" validates") == std::string::npos) told.push_back(line);
    if (ran.code != 0 && told.empty()) told.push_back("xmllint ended with " + std::to_string(ran.code));
    if (ran.code != 0) faults.insert(faults.end(), told.begin(), told.end());
  }
  return faults;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(lines.size(), 12); ++i) text += lines[i] + "\n";
  return text;
}

}  // namespace lathbook::test
