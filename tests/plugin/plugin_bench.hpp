// What the tests of the host share: a folder of chosen plugins, an empty archive, a listener that remembers.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "core/plugin/host.hpp"
#include "tests/support/support.hpp"
#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

/// Sets a variable of the environment (null: takes it away) for as long as it lives.
class Variable {
public:
  Variable(const char* name, const char* value) : name_(name) {
    if (const char* before = std::getenv(name)) before_ = before;
    value ? ::setenv(name, value, 1) : ::unsetenv(name);
  }
  ~Variable() { before_ ? ::setenv(name_, before_->c_str(), 1) : ::unsetenv(name_); }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;

private:
  const char* name_;
  std::optional<std::string> before_;
};

/// Remembers what plugins said.
class Ears : public PluginListener {
public:
  std::vector<std::string> notes;
  std::uint64_t steps = 0;
  bool stop = false;
  void note(const std::string& plugin, Severity, const std::string& text) override {
    notes.push_back(plugin + ": " + text);
  }
  void progress(const std::string&, std::uint64_t, std::uint64_t) override { ++steps; }
  bool stop_requested() override { return stop; }
};

/// A fresh folder for plugins and a file for their traces.
class Bench {
public:
  TempFolder folder;
  Ears ears;
  FakeReader reader;
  Snapshot archive{reader};

  Bench() { std::filesystem::create_directory(plugins()); }
  std::filesystem::path plugins() const { return folder / "plugins"; }
  std::filesystem::path file(const std::string& name) const { return plugins() / (name + ".so"); }
  /// Copies a plugin of the build into the folder, under another name if wanted.
  std::filesystem::path take(const std::string& name, const std::string& as = {}) {
    const std::filesystem::path from =
        (name == "example" ? LATHBOOK_PLUGINS_BUILT "/" : LATHBOOK_TEST_PLUGINS "/") + name + ".so";
    std::filesystem::copy_file(from, file(as.empty() ? name : as));
    return file(as.empty() ? name : as);
  }
  PluginHost host() { return PluginHost({plugins()}, ears); }
  std::vector<std::string> traces() const {
    std::vector<std::string> lines;
    std::ifstream in(folder / "trace");
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
  }

private:
  const std::string trace_file_ = (folder / "trace").string();
  Variable trace_{"LATHBOOK_TEST_TRACE", trace_file_.c_str()};
  Variable keep_{"LATHBOOK_KEEP_PLUGINS", nullptr};
};

/// The sentence and kind of what is thrown; "nothing" when nothing is.
struct Thrown {
  std::string text = "nothing";
  ErrorKind kind = ErrorKind::io;
};
template <typename Work>
Thrown thrown_by(Work&& work) {
  try {
    work();
  } catch (const Error& error) {
    return {error.what(), error.kind()};
  }
  return {};
}

}  // namespace lathbook::test
