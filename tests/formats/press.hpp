// Exports of archives by the real plugins, and the checks that judge them.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/plugin/host.hpp"
#include "core/storage/archive.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

inline const std::string kBase = "https://example.org/archive/";

/// Keeps what plugins say; asks them to stop after so many steps.
class Ear : public PluginListener {
public:
  void note(const std::string& plugin, Severity, const std::string& text) override;
  void progress(const std::string&, std::uint64_t, std::uint64_t) override { ++steps; }
  bool stop_requested() override { return stop_after != 0 && steps >= stop_after; }
  std::vector<std::string> notes;
  std::uint64_t steps = 0;
  std::uint64_t stop_after = 0;
};

/// Media held in memory; everything else is not offered.
class FakeFiles : public ArchiveFiles {
public:
  std::map<Digest, std::string> held;
  std::unique_ptr<std::istream> media(const Digest& digest) const override;
  void write_exchange(std::ostream& out) const override;
};

class Press {
public:
  Press();
  /// One stream.
  std::string text(const StatementReader& reader, const std::string& plugin, const std::string& format,
                   const Uuid& scope = {}, const std::string& base = kBase);
  /// A folder, which must not be there.
  void folder(const StatementReader& reader, const std::string& plugin, const std::filesystem::path& to,
              const std::string& format = {}, const Uuid& scope = {}, const std::string& base = kBase);
  Ear ear;
  FakeFiles files;
  PluginHost host;
};

/// The Fairlead, taken in from its sheets, once a run; `there` is false with a WARN when the sample is not.
struct Fairlead {
  static const Fairlead& get();
  TempFolder folder;
  FixedClock clock{Moment{1'750'000'000, 0}};
  std::unique_ptr<Archive> archive;
  bool there = false;
  /// Lends the sample's files to a press.
  static void lend(Press& press);

private:
  Fairlead();
};

/// Runs check_exports.py on 'kind=path' arguments: its lines, none when all is well. Says with WARN what
/// cannot run here.
std::vector<std::string> judged(const std::vector<std::string>& what);
/// Runs xmllint with a published schema on files, in one process. Lines that name a fault; a WARN and nothing
/// when schema or program are not at hand.
std::vector<std::string> against_schema(const std::string& schema,
                                        const std::vector<std::filesystem::path>& files);
/// Whether schema files are at hand.
bool have_standards();
bool have_python();
std::string joined(const std::vector<std::string>& lines);

}  // namespace lathbook::test
