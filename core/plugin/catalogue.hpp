// Which plugins there are: looks through the folders, loads by name, remembers refusals. Internal to
// core/plugin.
#pragma once

#include <filesystem>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/host.hpp"
#include "core/plugin/loader.hpp"

namespace lathbook {

/// A plugin in use.
struct CataloguedPlugin {
  PluginWords words;
  LoadedPlugin loaded;
};

/// Owns the plugins. Addresses of entries stay good until its end.
class PluginCatalogue {
public:
  explicit PluginCatalogue(std::vector<std::filesystem::path> folders) : folders_(std::move(folders)) {}

  /// The plugin of this name, loaded now if it is not yet; looks only at files of that name. Throws
  /// Error(not_found), or Error(unsupported) with the reasons when every such file was refused.
  CataloguedPlugin& named(std::string_view name);
  /// The plugin that provides an analysis: the one of that name, else the first by name that does.
  /// Throws like named().
  CataloguedPlugin& provider_of(std::string_view analysis);
  void look_at_everything();
  const std::vector<PluginInfo>& infos() const { return infos_; }

private:
  const std::vector<std::filesystem::path>& usable_folders();
  void look_at(const std::filesystem::path& file);
  CataloguedPlugin* find(std::string_view name);
  std::string where() const;

  std::vector<std::filesystem::path> folders_;
  bool folders_checked_ = false;
  std::vector<std::filesystem::path> usable_;
  std::set<std::filesystem::path> looked_at_;
  std::vector<PluginInfo> infos_;
  std::vector<std::unique_ptr<CataloguedPlugin>> plugins_;
};

}  // namespace lathbook
