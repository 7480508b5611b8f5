#include "core/cli/context.hpp"

#include <unistd.h>

#include <cstdlib>
#include <iostream>

#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/base/typed_date.hpp"
#include "core/plugin/search_path.hpp"
#include "core/view/english.hpp"

namespace lathbook::cli {

namespace fs = std::filesystem;

int exit_code(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::not_found:
      return kNotFound;
    case ErrorKind::corrupt:
      return kCorrupt;
    case ErrorKind::denied:
      return kDenied;
    case ErrorKind::unsupported:
      return kUnsupported;
    case ErrorKind::io:
      return kDiskRefused;
    case ErrorKind::invalid:
      break;
  }
  return kInvalid;
}

Context::Context(const Common& common, const Clock& clock, std::ostream& out, std::ostream& err)
    : common_(common), clock_(clock), out_(out), err_(err) {
  colour_ = &out == &std::cout && ::isatty(STDOUT_FILENO) != 0 && std::getenv("NO_COLOR") == nullptr;
}

Context::~Context() = default;

std::string Context::strong(const std::string& text) const {
  return colour_ ? "\033[1m" + text + "\033[0m" : text;
}

fs::path Context::archive_folder() const {
  if (!common_.archive.empty()) return common_.archive;
  if (const char* named = std::getenv("LATHBOOK_ARCHIVE"); named != nullptr && *named != '\0') return named;
  std::error_code failed;
  for (fs::path folder = fs::current_path(failed); !folder.empty(); folder = folder.parent_path()) {
    if (fs::exists(folder / "archive.sqlite", failed)) return folder;
    if (folder == folder.root_path()) break;
  }
  fail(
      ErrorKind::not_found,
      "no archive is named; give --archive FOLDER, set LATHBOOK_ARCHIVE, or work inside an archive's folder");
}

Archive Context::open(bool write) const {
  return Archive(archive_folder(), clock_, {.write = write, .vfs = {}, .media_disk = {}});
}

ReadOptions Context::read_options() const {
  ReadOptions options;
  options.with_private = common_.with_private;
  options.by_entry_day = common_.by_entry_day;
  if (!common_.known_on.empty()) {
    const auto day = read_typed_date(common_.known_on).edtf.latest();
    if (!day) fail(ErrorKind::invalid, "--known-on needs a day, not " + quote(common_.known_on));
    options.known_on = day;
  }
  if (!common_.state.empty()) {
    options.fingerprint = Digest::from_hex(common_.state);
    if (!options.fingerprint) {
      fail(ErrorKind::invalid, "--state needs the 64 digits of a fingerprint, not " + quote(common_.state));
    }
  }
  return options;
}

std::string Context::recorder_code() const {
  if (!common_.recorder.empty()) return common_.recorder;
  const char* named = std::getenv("LATHBOOK_RECORDER");
  return named == nullptr ? std::string() : std::string(named);
}

std::optional<Uuid> Context::recorder(const EntrySink& sink) const {
  const std::string code = recorder_code();
  if (code.empty()) return std::nullopt;
  const auto record = sink.record_by_code(code);
  const std::string said = common_.recorder.empty() ? "LATHBOOK_RECORDER" : "--recorder";
  if (!record)
    fail(ErrorKind::not_found, "there is no person with the code " + quote(code) + ", whom " + said +
                                   " names as the one who enters; make the record first, without " + said);
  if (record->kind != Kind::agent)
    fail(ErrorKind::invalid, quote(code) + ", whom " + said + " names, is no agent; name who enters this");
  return record->id;
}

PluginHost& Context::plugins() {
  if (!host_)
    host_ = std::make_unique<PluginHost>(
        plugin_folders(common_.plugins.empty() ? std::nullopt : std::optional<fs::path>(common_.plugins)),
        *this);
  return *host_;
}

void Context::note(const std::string& plugin, Severity severity, const std::string& text) {
  err_ << plugin << (severity == Severity::note ? ": " : ": warning: ") << text << '\n';
}

bool Context::stop_requested() {
  return lathbook::stop_requested();
}

namespace {

[[noreturn]] void no_such(const std::string& code, const std::vector<std::string>& nearest,
                          bool is_now = true) {
  fail(ErrorKind::not_found,
       "there is no record with the code " + quote(code) +
           (is_now ? "" : " in the state of the archive that was asked for; it may be younger") +
           (nearest.empty() ? "" : "; did you mean " + listed(nearest, "or") + "?"));
}

}  // namespace

RecordInfo need_record(const EntrySink& sink, const std::string& code) {
  if (auto record = sink.record_by_code(code)) return *record;
  no_such(code, sink.nearest_codes(code));
}

RecordInfo need_record(const StatementReader& reader, const std::string& code) {
  if (auto record = reader.record_by_code(code)) return *record;
  std::vector<std::string> codes;
  reader.each_record(Kind::unknown, [&](const RecordInfo& record) {
    if (!record.code.empty()) codes.push_back(record.code);
    return true;
  });
  no_such(code, nearest(code, codes), reader.reading().is_head);
}

void tell_wrapped(const Context& context, const std::string& mark, const std::string& words) {
  constexpr std::size_t columns = 80;
  const std::size_t depth = display_width(mark);
  bool first = true;
  for (const std::string& line : wrap(safe_display(words), columns - depth)) {
    context.out() << (first ? mark : std::string(depth, ' ')) << line << '\n';
    first = false;
  }
}

std::vector<Digest> statements_named(const Archive& archive, const std::vector<std::string>& names) {
  std::vector<Digest> found;
  for (const auto& name : names) found.push_back(archive.statement_named(name));
  return found;
}

void tell_withheld(const Context& context, const Reading& reading) {
  if (reading.withheld == 0 || context.json()) return;
  context.err() << reading.withheld << (reading.withheld == 1 ? " statement is" : " statements are")
                << " withheld as private; dates may be narrower in the private archive\n";
}

}  // namespace lathbook::cli
