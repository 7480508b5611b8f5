// One loaded plugin and its library, kept in the order in which they must die. Internal to core/plugin.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook {

/// An analysis and the version of its result's struct: "timeline@2".
struct AnalysisName {
  std::string name;
  std::string version;
  std::string text() const { return name + "@" + version; }
};

/// A copy of what a descriptor says, which stays when the library goes.
struct PluginWords {
  std::string name, version, kind, summary;
  std::vector<AnalysisName> provides;
  std::vector<AnalysisName> needs;
  std::vector<std::string> works_without;
  std::vector<std::string> settings;
};

/// Checks the file and the descriptor in it and fills in its words, all without loading it. Throws Error with
/// a reason that goes on after the file's name and a colon; words read before that are filled in.
void inspect_plugin(const std::filesystem::path& file, PluginWords& words);

/// Owns the library and the object. The object is destroyed first, then the library is closed, unless the
/// environment holds LATHBOOK_KEEP_PLUGINS=1: then it stays to the end of the process, so that sanitizers
/// can still name its functions. Move only.
class LoadedPlugin {
public:
  /// Loads a file that inspect_plugin let pass and makes its object. Throws Error with a reason that goes on
  /// after the file's name and a colon; then nothing stays loaded.
  static LoadedPlugin load(const std::filesystem::path& file);
  LoadedPlugin(LoadedPlugin&&) noexcept;
  LoadedPlugin& operator=(LoadedPlugin&&) noexcept;
  ~LoadedPlugin();

  /// Only the host's guarded call may use it.
  Plugin& plugin();

private:
  struct Inside;
  explicit LoadedPlugin(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

/// Small letters, digits and hyphens, at least one: the only names that become file names.
bool is_plugin_name(std::string_view text);

/// What a plugin says in an exception or a reason, made fit for one line of a sentence.
std::string one_line(const char* text);

}  // namespace lathbook
