// Finds plugins by name in the folders of the search path.
#include "core/plugin/catalogue.hpp"

#include <algorithm>
#include <optional>

#include "core/base/text.hpp"
#include "core/plugin/library_check.hpp"

namespace lathbook {

namespace fs = std::filesystem;

namespace {

std::string words_of(const std::vector<AnalysisName>& names) {
  std::vector<std::string> texts;
  for (const AnalysisName& name : names) texts.push_back(name.text());
  return join(texts, " ");
}

PluginInfo info_of(const PluginWords& words, const fs::path& file) {
  PluginInfo info;
  info.name = words.name;
  info.version = words.version;
  info.kind = words.kind;
  info.summary = words.summary;
  info.provides = words_of(words.provides);
  info.needs = words_of(words.needs);
  info.works_without = join(words.works_without, " ");
  info.file = file;
  return info;
}

}  // namespace

const std::vector<fs::path>& PluginCatalogue::usable_folders() {
  if (folders_checked_) return usable_;
  folders_checked_ = true;
  for (const fs::path& folder : folders_) {
    std::error_code error;
    std::string reason;
    if (!fs::exists(folder, error))
      reason = "there is no such folder";
    else if (!fs::is_directory(folder, error))
      reason = "it is not a folder";
    else
      reason = why_not_safe(folder);
    if (reason.empty()) {
      usable_.push_back(folder);
    } else {
      PluginInfo info;
      info.file = folder;
      info.reason = reason;
      infos_.push_back(std::move(info));
    }
  }
  return usable_;
}

void PluginCatalogue::look_at(const fs::path& file) {
  std::error_code error;
  const fs::path real = fs::weakly_canonical(file, error);
  if (!looked_at_.insert(error ? file : real).second) return;

  PluginWords words;
  std::string reason;
  try {
    inspect_plugin(file, words);
    const auto same = std::find_if(infos_.begin(), infos_.end(), [&](const PluginInfo& info) {
      return info.loaded && info.name == words.name;
    });
    if (same != infos_.end())
      fail(ErrorKind::unsupported, "the name '" + words.name + "' is already taken by '" +
                                       same->file.string() + "'; remove one of the two");
    if (file.stem() != words.name)
      fail(ErrorKind::unsupported,
           "it calls itself '" + words.name + "'; its file must be called '" + words.name + ".so'");
    plugins_.push_back(std::make_unique<CataloguedPlugin>(CataloguedPlugin{words, LoadedPlugin::load(file)}));
  } catch (const Error& refusal) {
    // Only errors of the core arrive here: a plugin's own are turned into text where they happen.
    reason = refusal.what();
  }
  PluginInfo info = info_of(words, file);
  info.loaded = reason.empty();
  info.reason = reason;
  infos_.push_back(std::move(info));
}

void PluginCatalogue::look_at_everything() {
  for (const fs::path& folder : usable_folders()) {
    std::error_code error;
    std::vector<fs::path> files;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
      if (at->path().extension() == ".so") files.push_back(at->path());
    std::sort(files.begin(), files.end());
    for (const fs::path& file : files) look_at(file);
  }
}

CataloguedPlugin* PluginCatalogue::find(std::string_view name) {
  for (const auto& plugin : plugins_)
    if (plugin->words.name == name) return plugin.get();
  return nullptr;
}

std::string PluginCatalogue::where() const {
  std::vector<std::string> names;
  for (const fs::path& folder : folders_) names.push_back("'" + folder.string() + "'");
  return names.empty() ? "no folder was given to look in" : "looked in " + join(names, ", ");
}

CataloguedPlugin& PluginCatalogue::named(std::string_view name) {
  if (CataloguedPlugin* known = find(name)) return *known;
  std::vector<std::string> refusals;
  // Names come from the command line; nothing that could lead out of the folder becomes a file name.
  if (is_plugin_name(name)) {
    const fs::path file_name = std::string(name) + ".so";
    for (const fs::path& folder : usable_folders()) {
      std::error_code error;
      if (!fs::exists(fs::symlink_status(folder / file_name, error))) continue;
      look_at(folder / file_name);
      if (CataloguedPlugin* found = find(name)) return *found;
    }
    for (const PluginInfo& info : infos_)
      if (info.file.filename() == file_name && !info.loaded)
        refusals.push_back("'" + info.file.string() + "': " + info.reason);
  }
  if (!refusals.empty())
    fail(ErrorKind::unsupported,
         "plugin '" + std::string(name) + "' cannot be used: " + join(refusals, "; "));
  std::string sentence = "there is no plugin called " + quote(name) + " (" + where() + ")";
  for (const PluginInfo& info : infos_)
    if (info.file.extension() != ".so") sentence += "; '" + info.file.string() + "': " + info.reason;
  fail(ErrorKind::not_found, sentence);
}

CataloguedPlugin& PluginCatalogue::provider_of(std::string_view analysis) {
  const auto provides = [&](const CataloguedPlugin& plugin) {
    const auto& names = plugin.words.provides;
    return std::any_of(names.begin(), names.end(),
                       [&](const AnalysisName& one) { return one.name == analysis; });
  };
  std::optional<Error> no_namesake;
  try {
    CataloguedPlugin& namesake = named(analysis);
    if (provides(namesake)) return namesake;
  } catch (const Error& error) {
    no_namesake = error;
  }
  look_at_everything();
  // By name, so that the answer does not hang on what happened to be loaded first.
  CataloguedPlugin* first = nullptr;
  for (const auto& plugin : plugins_)
    if (provides(*plugin) && (first == nullptr || plugin->words.name < first->words.name))
      first = plugin.get();
  if (first != nullptr) return *first;
  if (no_namesake) fail(no_namesake->kind(), no_namesake->what());
  fail(ErrorKind::not_found, "no plugin provides the analysis " + quote(analysis) + " (" + where() + ")");
}

}  // namespace lathbook
