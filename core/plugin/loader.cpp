// Loads a plugin's file after every check that can be made without that. The only file with Boost.DLL.
#include "core/plugin/loader.hpp"

#include <dlfcn.h>

#include <algorithm>
#include <array>
#include <boost/dll/shared_library.hpp>
#include <cstdlib>
#include <cstring>
#include <string_view>

#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "core/plugin/library_check.hpp"

namespace lathbook {

namespace {

constexpr const char* kSymbol = "lathbook_plugin";
constexpr const char* kDamaged = "its descriptor is damaged; rebuild it";

[[noreturn]] void refuse(const std::string& reason) {
  fail(ErrorKind::unsupported, reason);
}

void refuse_if(const std::string& reason) {
  if (!reason.empty()) refuse(reason);
}

bool keeps_libraries() {
  const char* keep = std::getenv("LATHBOOK_KEEP_PLUGINS");
  return keep != nullptr && std::string_view(keep) == "1";
}

/// Lets go of a library without closing it.
void keep_for_ever(boost::dll::shared_library&& library) {
  // Reached through a pointer that is never freed, so that leak checkers see it in use.
  static auto* const kept = new std::vector<boost::dll::shared_library>;
  kept->push_back(std::move(library));
}

std::vector<std::string> words_of(const char* text) {
  std::vector<std::string> words;
  for (const std::string& word : split(text, ' '))
    if (!word.empty()) words.push_back(word);
  return words;
}

std::vector<AnalysisName> analyses_of(const char* text) {
  std::vector<AnalysisName> names;
  for (const std::string& word : words_of(text)) {
    const auto at = word.find('@');
    if (at == 0 || at == std::string::npos || at + 1 == word.size())
      refuse("its descriptor names the analysis " + quote(word) +
             " without a version; it must be name@number");
    names.push_back({word.substr(0, at), word.substr(at + 1)});
  }
  return names;
}

void check_about(const PluginAbout& about) {
  for (const std::string_view text : {std::string_view(about.name, sizeof about.name),
                                      std::string_view(about.version, sizeof about.version),
                                      std::string_view(about.kind, sizeof about.kind),
                                      std::string_view(about.summary, sizeof about.summary),
                                      std::string_view(about.provides, sizeof about.provides),
                                      std::string_view(about.needs, sizeof about.needs),
                                      std::string_view(about.works_without, sizeof about.works_without),
                                      std::string_view(about.settings, sizeof about.settings)})
    if (text.back() != '\0') refuse(kDamaged);
  if (!is_plugin_name(about.name))
    refuse("it calls itself " + quote(about.name) + "; a plugin's name is small letters, digits and hyphens");
}

void check_kinds(const PluginWords& words) {
  constexpr std::array<std::string_view, 4> known{"analysis", "export", "report", "import"};
  const auto kinds = words_of(words.kind.c_str());
  if (kinds.empty()) refuse("its descriptor names no kind (analysis, export, report, import)");
  for (const std::string& kind : kinds)
    if (std::find(known.begin(), known.end(), kind) == known.end())
      refuse("it is of the kind " + quote(kind) + ", which is not one of analysis, export, report, import");
  for (const std::string& without : words.works_without) {
    const auto named = [&](const AnalysisName& need) { return need.name == without; };
    if (std::none_of(words.needs.begin(), words.needs.end(), named))
      refuse("it works without " + quote(without) + ", which is not among its needs");
  }
}

/// Reads and checks the descriptor as it lies in the file, so that nothing of a plugin that does not fit
/// ever runs, its static constructors included. Most basic first: what comes later in the struct has a
/// meaning only when what comes before is right.
void check_descriptor(const std::filesystem::path& file, PluginWords& words) {
  const auto bytes = exported_data(file, kSymbol, sizeof(LathbookDescriptor));
  if (!bytes)
    refuse(std::string("it has no descriptor '") + kSymbol + "', so it is not a plugin of this program");
  LathbookDescriptor found{};
  std::memcpy(static_cast<void*>(&found), bytes->data(), bytes->size());
  if (std::memcmp(found.magic, "LATHBOOK", sizeof found.magic) != 0)
    refuse("its descriptor does not begin with the word LATHBOOK");
  if (found.interface_number != LATHBOOK_INTERFACE)
    refuse("it was made for plugin interface " + std::to_string(found.interface_number) +
           " and this program has interface " + std::to_string(LATHBOOK_INTERFACE) + "; rebuild it");
  if (found.size != sizeof(LathbookDescriptor) || bytes->size() != sizeof(LathbookDescriptor) ||
      found.stamp[sizeof found.stamp - 1] != '\0')
    refuse(kDamaged);
  if (std::strcmp(found.stamp, LATHBOOK_STAMP) != 0)
    refuse("it was built as (" + one_line(found.stamp) + ") and this program as (" + LATHBOOK_STAMP +
           "); rebuild it");
  check_about(found.about);
  words.name = found.about.name;
  words.version = one_line(found.about.version);
  words.kind = one_line(found.about.kind);
  words.summary = one_line(found.about.summary);
  words.provides = analyses_of(found.about.provides);
  words.needs = analyses_of(found.about.needs);
  words.works_without = words_of(found.about.works_without);
  words.settings = words_of(found.about.settings);
  check_kinds(words);
}

}  // namespace

void inspect_plugin(const std::filesystem::path& file, PluginWords& words) {
  refuse_if(why_not_a_library(file));
  refuse_if(why_not_safe(file));
  check_descriptor(file, words);
}

bool is_plugin_name(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

std::string one_line(const char* text) {
  constexpr std::size_t most = 400;
  std::string line = safe_display(text == nullptr ? "" : text);
  std::replace(line.begin(), line.end(), '\n', ' ');
  const std::string kept(trim(line));
  if (kept.empty()) return "it gave no reason";
  if (kept.size() <= most) return kept;
  return utf8(code_points(kept).substr(0, most)) + "\u2026";
}

// Members die last to first: the object before the library that holds its code.
struct LoadedPlugin::Inside {
  boost::dll::shared_library library;
  std::unique_ptr<Plugin> plugin;

  ~Inside() {
    plugin.reset();
    if (keeps_libraries() && library.is_loaded()) keep_for_ever(std::move(library));
  }
};

LoadedPlugin::LoadedPlugin(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
LoadedPlugin::LoadedPlugin(LoadedPlugin&&) noexcept = default;
LoadedPlugin& LoadedPlugin::operator=(LoadedPlugin&&) noexcept = default;
LoadedPlugin::~LoadedPlugin() = default;

LoadedPlugin LoadedPlugin::load(const std::filesystem::path& file) {
  auto inside = std::make_unique<Inside>();
  boost::dll::fs::error_code error;
  ::dlerror();
  // rtld_now: an unresolved symbol is refused here and not met at the first call, which would end the
  // process.
  inside->library.load(boost::dll::fs::path(file.string()), error,
                       boost::dll::load_mode::rtld_now | boost::dll::load_mode::rtld_local);
  if (error) {
    // Boost's own text says 'Bad file descriptor' for everything.
    const char* reason = ::dlerror();
    refuse("the system cannot load it: " + (reason ? one_line(reason) : error.message()));
  }
  const auto& descriptor = inside->library.get<const LathbookDescriptor>(kSymbol);
  std::array<char, 1024> reason{};
  if (descriptor.create != nullptr) inside->plugin.reset(descriptor.create(reason.data(), reason.size()));
  if (!inside->plugin) refuse("it could not start: " + one_line(reason.data()));
  return LoadedPlugin(std::move(inside));
}

Plugin& LoadedPlugin::plugin() {
  return *inside_->plugin;
}

}  // namespace lathbook
