// What every command shares: the archive that is meant, the form of the answer, the person at work.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.hpp"
#include "core/plugin/host.hpp"
#include "core/storage/archive.hpp"

namespace lathbook::cli {

/// Exit codes (docs/commands.md).
enum Exit : int {
  kDone = 0,
  kFaultsFound = 1,
  kWrongUse = 2,
  kNotFound = 3,
  kInvalid = 4,
  kCorrupt = 5,
  kDenied = 6,
  kUnsupported = 7,
  kDiskRefused = 8
};
int exit_code(ErrorKind kind);

/// Options that stand before or after any command.
struct Common {
  std::string archive;   ///< folder; empty = LATHBOOK_ARCHIVE, else found from the current folder upward
  std::string recorder;  ///< code of who enters; empty = LATHBOOK_RECORDER, else nobody
  std::string plugins;   ///< folder of plugins
  bool json = false;
  bool clock_is_right = false;
  bool with_private = false;
  std::string known_on;  ///< a day, as typed
  bool by_entry_day = false;
  std::string state;  ///< fingerprint
};

class Context : public PluginListener {
public:
  Context(const Common& common, const Clock& clock, std::ostream& out, std::ostream& err);
  ~Context() override;

  const Common& common() const { return common_; }
  const Clock& clock() const { return clock_; }
  std::ostream& out() const { return out_; }
  std::ostream& err() const { return err_; }
  bool json() const { return common_.json; }
  /// Text in bold on a terminal, plain elsewhere.
  std::string strong(const std::string& text) const;

  std::filesystem::path archive_folder() const;
  Archive open(bool write) const;
  ReadOptions read_options() const;
  std::optional<Uuid> recorder(const EntrySink& sink) const;
  /// Its code, as given; empty when nobody was named.
  std::string recorder_code() const;
  PluginHost& plugins();
  /// What plugins say goes to the error stream.
  void note(const std::string& plugin, Severity severity, const std::string& text) override;
  bool stop_requested() override;

private:
  Common common_;
  const Clock& clock_;
  std::ostream& out_;
  std::ostream& err_;
  bool colour_ = false;
  std::unique_ptr<PluginHost> host_;
};

/// The record with this code. Throws Error(not_found) offering the nearest codes.
RecordInfo need_record(const EntrySink& sink, const std::string& code);
RecordInfo need_record(const StatementReader& reader, const std::string& code);

/// Words that a terminal cannot be steered by, wrapped at 80 columns behind a first-line mark; later lines go
/// as deep as the mark.
void tell_wrapped(const Context& context, const std::string& mark, const std::string& words);

/// The statements of these short names; throws Error(not_found) for one that the archive does not hold.
std::vector<Digest> statements_named(const Archive& archive, const std::vector<std::string>& names);

/// Says on the error stream how much the reading leaves out, when it does.
void tell_withheld(const Context& context, const Reading& reading);

}  // namespace lathbook::cli
