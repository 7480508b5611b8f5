// Calls plugins: gathers what they need, lends the services of a call, and lets no exception of theirs out.
#include "core/plugin/host.hpp"

#include <algorithm>
#include <exception>
#include <locale>
#include <map>
#include <new>
#include <optional>

#include "core/base/atomic_folder.hpp"
#include "core/base/text.hpp"
#include "core/plugin/catalogue.hpp"
#include "core/plugin/result_cache.hpp"

namespace lathbook {

namespace {

/// What is lent by name to one call; null for a need that the plugin works without.
using Lent = std::map<std::string, const AnalysisResult*, std::less<>>;

class CallServices : public Services {
public:
  CallServices(const std::string& plugin, PluginListener& listener, const Lent& lent,
               const ArchiveFiles* files = nullptr)
      : plugin_(plugin), listener_(listener), lent_(lent), files_(files) {}
  void note(Severity severity, const std::string& text) override {
    listener_.note(plugin_, severity, one_line(text.c_str()));
  }
  void progress(std::uint64_t done, std::uint64_t total) override {
    listener_.progress(plugin_, done, total);
  }
  bool stop_requested() const override { return listener_.stop_requested(); }
  const AnalysisResult* result(std::string_view analysis) const override {
    const auto found = lent_.find(analysis);
    if (found == lent_.end())
      fail(ErrorKind::invalid,
           "it asked for the result of " + quote(analysis) + ", which is not among its needs");
    return found->second;
  }
  const ArchiveFiles& files() const override { return files_ == nullptr ? Services::files() : *files_; }

private:
  const std::string& plugin_;
  PluginListener& listener_;
  const Lent& lent_;
  const ArchiveFiles* files_;
};

/// Lets a plugin write into a folder that the host puts in place afterwards.
class HostFolder : public FolderSink {
public:
  explicit HostFolder(AtomicFolder& folder) : folder_(folder) {}
  std::ostream& file(const std::string& path) override {
    std::ostream& out = folder_.file(path);
    out.imbue(std::locale::classic());
    return out;
  }

private:
  AtomicFolder& folder_;
};

/// The only place where code of a plugin runs, its making apart. The text of whatever it throws is copied
/// here, while the library is surely loaded, and the exception object dies here: its functions are in the
/// library. What leaves is an Error of the core.
template <typename Work>
void call(CataloguedPlugin& plugin, Work&& work) {
  ErrorKind kind = ErrorKind::unsupported;
  std::string text;
  try {
    work(plugin.loaded.plugin());
    return;
  } catch (const Error& error) {
    kind = error.kind();
    text = one_line(error.what());
  } catch (const std::bad_alloc&) {
    text = "there is not enough memory";
  } catch (const std::exception& error) {
    text = one_line(error.what());
  } catch (...) {
    text = "it threw something that tells nothing of itself";
  }
  fail(kind, "plugin '" + plugin.words.name + "' failed: " + text);
}

/// The format asked for, or the usual one; throws Error(invalid) naming those there are.
std::string chosen_format(const std::string& plugin, const std::vector<std::string>& formats,
                          const std::string& asked) {
  if (formats.empty()) fail(ErrorKind::unsupported, "plugin '" + plugin + "' names no format that it writes");
  if (asked.empty()) return formats.front();
  if (std::find(formats.begin(), formats.end(), asked) != formats.end()) return asked;
  fail(ErrorKind::invalid,
       "plugin '" + plugin + "' does not write " + quote(asked) + "; it writes " + join(formats, ", "));
}

[[noreturn]] void cannot(const std::string& plugin, const std::string& what) {
  fail(ErrorKind::invalid,
       "plugin '" + plugin + "' " + what + "; 'lathbook plugins' tells what each one does");
}

}  // namespace

PluginListener::~PluginListener() = default;
void PluginListener::note(const std::string&, Severity, const std::string&) {}
void PluginListener::progress(const std::string&, std::uint64_t, std::uint64_t) {}
bool PluginListener::stop_requested() {
  return false;
}

// Results die before the plugins that made them: members go last to first.
struct PluginHost::Inside {
  PluginCatalogue catalogue;
  PluginListener& listener;
  ResultCache results;

  CataloguedPlugin* find_provider(std::string_view analysis);
  void refuse_circles(CataloguedPlugin& plugin, std::vector<std::string>& chain);
  void refuse_unknown(CataloguedPlugin& plugin, const Settings& settings);
  const AnalysisResult& result_of(std::string_view name, const Snapshot& archive,
                                  const AnalysisRequest& request, const ArchiveFiles* files);
  const AnalysisResult* need(CataloguedPlugin& plugin, const AnalysisName& need, const Snapshot& archive,
                             const AnalysisRequest& request, const ArchiveFiles* files);
  Lent needs_of(CataloguedPlugin& plugin, const Snapshot& archive, const AnalysisRequest& request,
                const ArchiveFiles* files);
  void refuse_if_stopped(const CataloguedPlugin& plugin);
  void write(CataloguedPlugin& plugin, Services& services, std::ostream& out,
             const std::function<void(Plugin&, std::ostream&, Services&)>& work);
  Exporter& exporter_of(CataloguedPlugin& plugin);
  Report& report_of(CataloguedPlugin& plugin);
  Lent needs_of_export(CataloguedPlugin& plugin, const Snapshot& archive, ExportRequest& request,
                       const ArchiveFiles* files);
};

/// Null where nothing provides it.
CataloguedPlugin* PluginHost::Inside::find_provider(std::string_view analysis) {
  try {
    return &catalogue.provider_of(analysis);
  } catch (const Error&) {
    return nullptr;
  }
}

/// Walks the needs of a plugin, and theirs; needs that nothing provides are met later, in words.
void PluginHost::Inside::refuse_circles(CataloguedPlugin& plugin, std::vector<std::string>& chain) {
  const std::string& name = plugin.words.name;
  const auto before = std::find(chain.begin(), chain.end(), name);
  const bool circle = before != chain.end();
  chain.push_back(name);
  if (circle) {
    const std::vector<std::string> round(std::find(chain.begin(), chain.end(), name), chain.end());
    fail(ErrorKind::invalid,
         "these plugins need one another in a circle, so none can be run: " + join(round, " needs "));
  }
  for (const AnalysisName& need : plugin.words.needs)
    if (CataloguedPlugin* provider = find_provider(need.name)) refuse_circles(*provider, chain);
  chain.pop_back();
}

/// A setting with a slip in its name would silently do nothing.
void PluginHost::Inside::refuse_unknown(CataloguedPlugin& plugin, const Settings& settings) {
  if (settings.empty()) return;
  std::vector<std::string> chain;
  refuse_circles(plugin, chain);
  std::vector<CataloguedPlugin*> asked{&plugin};
  std::vector<std::string> known;
  for (std::size_t at = 0; at < asked.size(); ++at) {
    const PluginWords& words = asked[at]->words;
    known.insert(known.end(), words.settings.begin(), words.settings.end());
    for (const AnalysisName& need : words.needs)
      if (CataloguedPlugin* provider = find_provider(need.name)) asked.push_back(provider);
  }
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  for (const auto& [name, value] : settings) {
    if (std::binary_search(known.begin(), known.end(), name)) continue;
    fail(ErrorKind::invalid,
         "plugin '" + plugin.words.name + "' has no setting " + quote(name) + "; " +
             (known.empty() ? std::string("it takes none") : "its settings are " + join(known, ", ")));
  }
}

const AnalysisResult& PluginHost::Inside::result_of(std::string_view name, const Snapshot& archive,
                                                    const AnalysisRequest& request,
                                                    const ArchiveFiles* files) {
  // With and without files an analysis may come to different results.
  const auto with_files = std::string(name) + (files == nullptr ? "" : " with files");
  const auto key = ResultCache::key(with_files, archive.reading(), request);
  if (const AnalysisResult* kept = results.find(key)) return *kept;
  CataloguedPlugin& plugin = catalogue.provider_of(name);
  const Lent lent = needs_of(plugin, archive, request, files);
  CallServices services(plugin.words.name, listener, lent, files);
  AnalysisResult result;
  bool able = false;
  call(plugin, [&](Plugin& object) {
    Analysis* analysis = object.analysis();
    able = analysis != nullptr;
    if (able) result = analysis->run(archive, request, services);
  });
  if (!able)
    cannot(plugin.words.name, "says that it provides '" + std::string(name) + "' and offers no analysis");
  refuse_if_stopped(plugin);
  if (std::holds_alternative<std::monostate>(result))
    fail(ErrorKind::unsupported, "plugin '" + plugin.words.name + "' failed: it gave no result");
  return results.keep(key, std::move(result));
}

const AnalysisResult* PluginHost::Inside::need(CataloguedPlugin& plugin, const AnalysisName& need,
                                               const Snapshot& archive, const AnalysisRequest& request,
                                               const ArchiveFiles* files) {
  std::string reason;
  try {
    const auto& provided = catalogue.provider_of(need.name).words.provides;
    const auto found = std::find_if(provided.begin(), provided.end(),
                                    [&](const AnalysisName& one) { return one.name == need.name; });
    if (found->version == need.version) return &result_of(need.name, archive, request, files);
    reason = "there is '" + found->text() + "' only";
  } catch (const Error& error) {
    reason = error.what();
  }
  const auto& without = plugin.words.works_without;
  if (std::find(without.begin(), without.end(), need.name) == without.end())
    fail(ErrorKind::invalid, "plugin '" + plugin.words.name + "' needs the analysis '" + need.text() +
                                 "', which cannot be had: " + reason);
  listener.note(plugin.words.name, Severity::warning,
                "works without the analysis '" + need.text() + "', which cannot be had: " + reason);
  return nullptr;
}

Lent PluginHost::Inside::needs_of(CataloguedPlugin& plugin, const Snapshot& archive,
                                  const AnalysisRequest& request, const ArchiveFiles* files) {
  std::vector<std::string> chain;
  refuse_circles(plugin, chain);
  Lent lent;
  for (const AnalysisName& wanted : plugin.words.needs)
    lent[wanted.name] = need(plugin, wanted, archive, request, files);
  return lent;
}

void PluginHost::Inside::refuse_if_stopped(const CataloguedPlugin& plugin) {
  if (listener.stop_requested())
    fail(ErrorKind::invalid, "plugin '" + plugin.words.name + "' was stopped before its end, as asked");
}

/// Lends a stream of the host's own on the same buffer: number formats, flags and the like that a plugin
/// sets do not stick to the caller's stream, and a locale does not change what is written.
void PluginHost::Inside::write(CataloguedPlugin& plugin, Services& services, std::ostream& out,
                               const std::function<void(Plugin&, std::ostream&, Services&)>& work) {
  std::ostream stream(nullptr);
  stream.imbue(std::locale::classic());
  stream.rdbuf(out.rdbuf());
  call(plugin, [&](Plugin& object) { work(object, stream, services); });
  refuse_if_stopped(plugin);
  stream.exceptions(std::ios::goodbit);  // the plugin may have set others
  if (!stream.flush())
    fail(ErrorKind::io, "what plugin '" + plugin.words.name +
                            "' wrote could not be stored; "
                            "look at the space on the disk");
}

PluginHost::PluginHost(std::vector<std::filesystem::path> folders, PluginListener& listener)
    : inside_(new Inside{PluginCatalogue(std::move(folders)), listener, {}}) {}
PluginHost::~PluginHost() = default;

std::vector<PluginInfo> PluginHost::discover() {
  inside_->catalogue.look_at_everything();
  return known();
}

std::vector<PluginInfo> PluginHost::known() const {
  return inside_->catalogue.infos();
}

const AnalysisResult& PluginHost::run_analysis(std::string_view name, const Snapshot& archive,
                                               const AnalysisRequest& request, const ArchiveFiles* files) {
  if (!request.settings.empty())
    inside_->refuse_unknown(inside_->catalogue.provider_of(name), request.settings);
  return inside_->result_of(name, archive, request, files);
}

void PluginHost::forget_results() {
  inside_->results.clear();
}

Exporter& PluginHost::Inside::exporter_of(CataloguedPlugin& plugin) {
  Exporter* exporter = nullptr;
  call(plugin, [&](Plugin& object) { exporter = object.exporter(); });
  if (exporter == nullptr) cannot(plugin.words.name, "exports nothing");
  return *exporter;
}

Report& PluginHost::Inside::report_of(CataloguedPlugin& plugin) {
  Report* report = nullptr;
  call(plugin, [&](Plugin& object) { report = object.report(); });
  if (report == nullptr) cannot(plugin.words.name, "writes no report");
  return *report;
}

namespace {

/// The formats of an exporter or a report.
template <typename Part>
std::vector<std::string> formats_of(CataloguedPlugin& plugin, const Part& part) {
  std::vector<std::string> formats;
  call(plugin, [&](Plugin&) { formats = part.formats(); });
  return formats;
}

AnalysisRequest wanted_by(const Uuid& scope, Level level) {
  AnalysisRequest wanted;
  wanted.scope = scope;
  wanted.level = level;
  return wanted;
}

}  // namespace

std::vector<std::string> PluginHost::export_formats(std::string_view name) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  return formats_of(plugin, inside_->exporter_of(plugin));
}

std::vector<std::string> PluginHost::report_formats(std::string_view name) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  return formats_of(plugin, inside_->report_of(plugin));
}

bool PluginHost::export_makes_folder(std::string_view name, const std::string& format) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  const Exporter& exporter = inside_->exporter_of(plugin);
  const std::string chosen = chosen_format(plugin.words.name, formats_of(plugin, exporter), format);
  bool folder = false;
  call(plugin, [&](Plugin&) { folder = exporter.makes_folder(chosen); });
  return folder;
}

/// What every export must settle before it writes.
Lent PluginHost::Inside::needs_of_export(CataloguedPlugin& plugin, const Snapshot& archive,
                                         ExportRequest& request, const ArchiveFiles* files) {
  request.format = chosen_format(plugin.words.name, formats_of(plugin, exporter_of(plugin)), request.format);
  refuse_unknown(plugin, request.settings);
  if (request.base_iri.empty())
    fail(ErrorKind::invalid, "an export needs the web address under which its records are named; give one");
  return needs_of(plugin, archive, wanted_by(request.scope, request.level), files);
}

void PluginHost::export_to(std::string_view name, const Snapshot& archive, ExportRequest request,
                           std::ostream& out, const ArchiveFiles* files) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  const Lent lent = inside_->needs_of_export(plugin, archive, request, files);
  CallServices services(plugin.words.name, inside_->listener, lent, files);
  inside_->write(plugin, services, out, [&](Plugin& object, std::ostream& stream, Services& lender) {
    object.exporter()->write(archive, request, stream, lender);
  });
}

void PluginHost::export_folder(std::string_view name, const Snapshot& archive, ExportRequest request,
                               const std::filesystem::path& folder, const ArchiveFiles* files) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  const Lent lent = inside_->needs_of_export(plugin, archive, request, files);
  CallServices services(plugin.words.name, inside_->listener, lent, files);
  AtomicFolder place(folder);
  HostFolder sink(place);
  call(plugin, [&](Plugin& object) { object.exporter()->write_folder(archive, request, sink, services); });
  inside_->refuse_if_stopped(plugin);
  place.commit();
}

void PluginHost::report_to(std::string_view name, const Snapshot& archive, ReportRequest request,
                           std::ostream& out, const ArchiveFiles* files) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  request.format =
      chosen_format(plugin.words.name, formats_of(plugin, inside_->report_of(plugin)), request.format);
  inside_->refuse_unknown(plugin, request.settings);
  AnalysisRequest wanted = wanted_by(request.scope, request.level);
  wanted.leave_out = request.leave_out;
  wanted.settings = request.settings;
  const Lent lent = inside_->needs_of(plugin, archive, wanted, files);
  CallServices services(plugin.words.name, inside_->listener, lent, files);
  inside_->write(plugin, services, out, [&](Plugin& object, std::ostream& stream, Services& lender) {
    object.report()->write(archive, request, stream, lender);
  });
}

std::vector<Draft> PluginHost::import_from(std::string_view name, std::istream& in, const Snapshot& archive) {
  CataloguedPlugin& plugin = inside_->catalogue.named(name);
  const Lent lent = inside_->needs_of(plugin, archive, {}, nullptr);
  CallServices services(plugin.words.name, inside_->listener, lent);
  std::vector<Draft> drafts;
  bool able = false;
  call(plugin, [&](Plugin& object) {
    Importer* importer = object.importer();
    able = importer != nullptr;
    if (able) drafts = importer->read(in, archive, services);
  });
  if (!able) cannot(plugin.words.name, "imports nothing");
  inside_->refuse_if_stopped(plugin);
  for (Draft& draft : drafts) draft.content.proposed_by = plugin.words.name + " " + plugin.words.version;
  return drafts;
}

}  // namespace lathbook
