// The plugin host: finds plugins, refuses bad ones in words, loads those that are needed, and calls them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <istream>
#include <memory>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook {

/// A file (or folder of the search path) that was looked at. Refused ones keep the words that could be read
/// from their descriptor, often none.
struct PluginInfo {
  std::string name, version, kind, summary;
  std::string provides, needs, works_without;  ///< as in the descriptor
  std::filesystem::path file;
  bool loaded = false;
  std::string reason;  ///< why it was refused; goes on after the file's name and a colon; empty when loaded
};

/// Hears what plugins say while they work. Every function does nothing unless overridden.
class LATHBOOK_API PluginListener {
public:
  virtual ~PluginListener();
  virtual void note(const std::string& plugin, Severity severity, const std::string& text);
  virtual void progress(const std::string& plugin, std::uint64_t done, std::uint64_t total);
  virtual bool stop_requested();
};

/// Owns every plugin and its library; both stay until the host dies, objects before their libraries, and
/// with the host go all results it lent. Declare it before anything that holds such a result by reference.
/// The constructor loads nothing: a plugin is loaded when something first asks for it by name.
///
/// A setting that neither the plugin nor an analysis it needs takes is refused with Error(invalid).
///
/// Whatever a plugin throws ends as one Error, with the plugin named: its own kind when it was an Error,
/// else unsupported. The host stays usable after any failure. One thread at a time.
class LATHBOOK_API PluginHost {
public:
  /// Looks in these folders (plugin_folders), earlier ones first. The listener must outlive the host.
  PluginHost(std::vector<std::filesystem::path> folders, PluginListener& listener);
  ~PluginHost();
  PluginHost(const PluginHost&) = delete;
  PluginHost& operator=(const PluginHost&) = delete;

  /// Loads every plugin of every folder that can be loaded and tells of each file and why it was refused,
  /// in order of folder and file name. Files that do not end in '.so' are passed over.
  std::vector<PluginInfo> discover();
  /// What has been looked at so far, without looking further.
  std::vector<PluginInfo> known() const;

  /// The result of an analysis by its name ("timeline"). The analyses it needs are run before it with the
  /// same request. Kept, and not made anew, as long as the state of the archive and the request are the
  /// same; the reference is good until forget_results() or the host's end. Throws Error(not_found) when
  /// nothing provides it, Error(invalid) for a circle of needs or when a need cannot be met.
  /// `files` are lent to it and to those it needs; null when the caller has none to lend.
  const AnalysisResult& run_analysis(std::string_view name, const Snapshot& archive,
                                     const AnalysisRequest& request, const ArchiveFiles* files = nullptr);
  void forget_results();

  /// Lets a plugin write. Needs are met as for analyses, with the request's scope and level. When it
  /// throws, part of the output may have been written: write to a file that can be dropped. `files` are lent
  /// to the plugin; null when the caller has none to lend.
  void export_to(std::string_view plugin, const Snapshot& archive, ExportRequest request, std::ostream& out,
                 const ArchiveFiles* files = nullptr);
  void report_to(std::string_view plugin, const Snapshot& archive, ReportRequest request, std::ostream& out,
                 const ArchiveFiles* files = nullptr);
  /// The same for a format that is a folder, which appears only when all of it is written: throws
  /// Error(invalid) when the name is taken by anything but an empty folder.
  void export_folder(std::string_view plugin, const Snapshot& archive, ExportRequest request,
                     const std::filesystem::path& folder, const ArchiveFiles* files = nullptr);
  /// Whether that format (empty: the usual one) is a folder. Throws Error(invalid) for one it does not write.
  bool export_makes_folder(std::string_view plugin, const std::string& format);
  /// Statements that a plugin proposes from foreign bytes, each marked with its name and version.
  std::vector<Draft> import_from(std::string_view plugin, std::istream& in, const Snapshot& archive);

  std::vector<std::string> export_formats(std::string_view plugin);
  std::vector<std::string> report_formats(std::string_view plugin);

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook
