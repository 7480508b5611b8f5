// Other people's tools and published models, where they are installed: the checks of exports run on them.
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "core/plugin/host.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

inline std::string tool(const char* name) {
  const std::string path = std::string("/usr/bin/") + name;
  if (std::filesystem::exists(path)) return path;
  WARN(name << " is not installed: its check is left out");
  return {};
}

/// True when Debian's Python has these modules; says aloud what is left out when not.
inline bool python_has(const std::string& modules) {
  if (run({"/usr/bin/python3", "-c", "import " + modules}).code == 0) return true;
  WARN("python3 has no " << modules << ": its checks are left out");
  return false;
}

inline std::string script(const char* name) {
  return std::string(LATHBOOK_SOURCE_DIR) + "/tests/crm/" + name;
}

/// The folder of published RDFS, empty and said aloud when it is not at hand.
inline std::string published_models() {
  const auto folder = standards() / "cidoc-crm";
  if (!standards().empty() && std::filesystem::exists(folder)) return folder.string();
  WARN("the published RDFS of CIDOC CRM is not at hand (LATHBOOK_STANDARDS): its check is left out");
  return {};
}

/// What check_crm.py says of these triples; "skipped" when it cannot run here.
inline Ran check_models(const std::filesystem::path& ntriples, const std::filesystem::path& facts = {}) {
  const std::string models = published_models();
  if (models.empty() || !python_has("rdflib")) return {0, "skipped", {}};
  std::vector<std::string> call{"/usr/bin/python3", script("check_crm.py"), models, ntriples.string()};
  if (!facts.empty()) call.push_back(facts.string());
  return run(call);
}

/// Turtle read by three parsers that share no code, and by way of RDF/XML: each time the triples of our own
/// N-Triples. Gives how many ways were tried.
inline int check_parsers(const std::filesystem::path& turtle, const std::filesystem::path& ntriples) {
  const TempFolder folder;
  std::vector<std::string> call{"/usr/bin/python3", script("same_triples.py"), ntriples.string()};
  const auto read_with = [&](const std::vector<std::string>& command, const std::string& name) {
    const Ran ran = run(command);
    INFO(name << ": " << ran.err.substr(0, 2000));
    CHECK(ran.code == 0);
    write_file(folder / name, ran.out);
    return (folder / name).string();
  };
  if (const auto serdi = tool("serdi"); !serdi.empty())
    call.push_back(read_with({serdi, "-q", "-i", "turtle", "-o", "ntriples", turtle.string()}, "serdi.nt"));
  if (const auto rapper = tool("rapper"); !rapper.empty()) {
    call.push_back(read_with({rapper, "-q", "-i", "turtle", "-o", "ntriples", turtle.string()}, "rapper.nt"));
    const auto xml =
        read_with({rapper, "-q", "-i", "ntriples", "-o", "rdfxml", ntriples.string()}, "ours.rdf");
    call.push_back(read_with({rapper, "-q", "-i", "rdfxml", "-o", "ntriples", xml}, "xml.nt"));
  }
  if (python_has("rdflib")) {
    call.emplace_back("--turtle");
    call.push_back(turtle.string());
  }
  const Ran ran = run(call);
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  return static_cast<int>(call.size()) - 3;
}

/// The plugins of this build, as the program loads them.
class Plugins {
public:
  Plugins()
      : host_({std::filesystem::path(LATHBOOK_BUILD_DIR) / "lib" / "lathbook" / "plugins"}, listener_) {}
  PluginHost* operator->() { return &host_; }

private:
  PluginListener listener_;
  PluginHost host_;
};

}  // namespace lathbook::test
