// The contract between the program and what interprets or exports: the classes a plugin implements.
//
// A plugin includes this header, core/plugin/descriptor.hpp and headers of core/view, core/analysis and
// core/base, and nothing else of the core. docs/plugins.md is the guide; plugins/example the pattern.
#pragma once

#include <cstdint>
#include <istream>
#include <memory>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/analysis/result.hpp"
#include "core/base/api.hpp"
#include "core/base/digest.hpp"
#include "core/base/error.hpp"
#include "core/base/identifier.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {

/// Name and value, as the user gave them. The host refuses names that neither the plugin's descriptor nor
/// that of an analysis it needs has. A plugin passes over names of others, and throws Error(invalid) for a
/// value that it cannot use.
using Settings = std::vector<std::pair<std::string, std::string>>;

/// What is asked of an analysis.
struct AnalysisRequest {
  Uuid scope;  ///< a place (site, building, room ...) or another record; nil for the whole archive
  Level level = Level::possible;
  std::vector<Digest> leave_out;  ///< 'what if these statements had not been made'
  Settings settings;
};

/// What is asked of an exporter. `format` is one of its formats(); the host fills in the first when the
/// user named none, and refuses others.
struct ExportRequest {
  Uuid scope;
  Level level = Level::possible;
  std::string base_iri;  ///< web address under which records are named, ends in '/' or '#'; never empty
  std::string format;
  Settings settings;
};

/// What is asked of a report; `format` as for exports. The analyses it needs are made without the statements
/// left out, too.
struct ReportRequest {
  Uuid scope;
  Level level = Level::possible;
  std::string format;
  Settings settings;
  std::vector<Digest> leave_out;  ///< 'what if these statements had not been made'
};

/// Files and the exchange document of the reading that an exporter or report is given: private matter is
/// left out of them exactly when it is left out of the snapshot.
class LATHBOOK_API ArchiveFiles {
public:
  virtual ~ArchiveFiles();
  /// The bytes of a file by its SHA-256; null when this reading cites no such file or this copy lacks it.
  /// Throws Error(denied) or Error(io) when it is there and cannot be read.
  virtual std::unique_ptr<std::istream> media(const Digest& digest) const = 0;
  /// Writes the lossless exchange document (docs/exchange.md) of the reading.
  virtual void write_exchange(std::ostream& out) const = 0;
};

/// Where the files of an export go. They appear under the folder's name only when all are written.
class LATHBOOK_API FolderSink {
public:
  virtual ~FolderSink();
  /// Begins a new file at a relative path with '/' between names, and ends the one before: the stream is
  /// good until the next call. Throws Error(invalid) for a path written already, Error(denied) for one that
  /// leads out of the folder, Error(io) when the disk refuses.
  virtual std::ostream& file(const std::string& path) = 0;
};

/// What the host lends for the length of one call. Never keep the reference.
class LATHBOOK_API Services {
public:
  virtual ~Services();
  /// Says something to the user beside the result: one sentence.
  virtual void note(Severity severity, const std::string& text) = 0;
  /// How far the work has come; `total` 0 when not known. Cheap; call it often.
  virtual void progress(std::uint64_t done, std::uint64_t total) = 0;
  /// True when the user wants no answer any more: return early with anything; it is thrown away.
  virtual bool stop_requested() const = 0;
  /// The result of one of the analyses named in the descriptor's `needs` (without '@' and version), made
  /// with the scope and level of this request (within an analysis or a report, also with what it leaves out
  /// and its settings). Null when it is one the plugin works without and it could not be had. Throws
  /// Error(invalid) for a name that is not among the needs. Valid during the call.
  virtual const AnalysisResult* result(std::string_view analysis) const = 0;
  /// Media and the exchange document, for exporters, reports and analyses (a file is named by its digest in a
  /// statement, so a result may depend on it). Throws Error(unsupported) in an import, and where the caller
  /// offers none.
  virtual const ArchiveFiles& files() const;
};

/// Reads the archive and concludes. The answer is a plain value; it is kept by the host and lent to others.
class LATHBOOK_API Analysis {
public:
  virtual ~Analysis();
  virtual AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) = 0;
};

/// Writes the archive, or part of it, in a format of the world.
class LATHBOOK_API Exporter {
public:
  virtual ~Exporter();
  /// Short lower-case names ("turtle", "ntriples"), the usual one first; at least one.
  virtual std::vector<std::string> formats() const = 0;
  /// True when this format is a folder of files and not one stream; write_folder() is called for it then.
  virtual bool makes_folder(std::string_view format) const;
  /// An exporter overrides the one or the other, or both: unless overridden they fail.
  virtual void write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
                     Services& services);
  virtual void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                            Services& services);
};

/// Writes something for people to read or print.
class LATHBOOK_API Report {
public:
  virtual ~Report();
  /// Short lower-case names ("text", "html"), the usual one first; at least one.
  virtual std::vector<std::string> formats() const = 0;
  virtual void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
                     Services& services) = 0;
};

/// Reads foreign bytes and proposes statements; the core completes, validates and enters them.
class LATHBOOK_API Importer {
public:
  virtual ~Importer();
  virtual std::vector<Draft> read(std::istream& in, const Snapshot& archive, Services& services) = 0;
};

/// What a plugin can do; null for what it cannot. The objects belong to the plugin and live as long as it.
/// Made once, used by one thread at a time, destroyed before its library is closed. May throw anything
/// from any function but a destructor: the host catches it.
class LATHBOOK_API Plugin {
public:
  virtual ~Plugin();
  virtual Analysis* analysis();
  virtual Exporter* exporter();
  virtual Report* report();
  virtual Importer* importer();
};

}  // namespace lathbook
