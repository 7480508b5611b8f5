// Packs the bag.
#include "plugins/bag/exporter.hpp"

#include <algorithm>

#include "core/base/calendar.hpp"
#include "core/base/copy_stream.hpp"
#include "core/base/error.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/bag/premis.hpp"

namespace lathbook::bag {

namespace {

constexpr char kDocument[] = "data/archive.xml";

/// A value of bag-info.txt stands on one line.
std::string on_one_line(std::string text) {
  for (char& c : text)
    if (c == '\n' || c == '\t' || c == '\r') c = ' ';
  return text;
}

class Packing {
public:
  Packing(const Snapshot& archive, const ExportRequest& request, FolderSink& out, Services& services)
      : reader_(archive.statements()),
        reading_(archive.reading()),
        base_(request.base_iri),
        out_(out),
        services_(services),
        name_(archive_name(reader_)),
        contents_(contents_of(reader_)) {}

  void pack_all() {
    document();
    media();
    if (services_.stop_requested()) return;
    payload_.push_back(pack(out_, "data/premis.xml", [&](std::ostream& stream) {
      write_premis(stream, reader_, base_, kept_, contents_);
    }));
    payload_.push_back(pack(out_, "data/report.txt", [&](std::ostream& stream) { report(stream); }));
    tags();
    if (missing_ != 0)
      services_.note(Severity::warning,
                     std::to_string(missing_) +
                         " files that the archive cites are not in this copy of it and so not in "
                         "the bag; data/report.txt counts them");
  }

private:
  void document() {
    kept_.push_back(
        {pack(out_, kDocument, [&](std::ostream& stream) { services_.files().write_exchange(stream); }),
         Digest{}});
    payload_.push_back(kept_.back().packed);
  }

  /// Where the exchange document has its media, so that it can be restored where it lies.
  void media() {
    std::uint64_t done = 0;
    for (const auto& [digest, entries] : contents_.files) {
      if (services_.stop_requested()) return;
      services_.progress(++done, contents_.files.size());
      const auto bytes = services_.files().media(digest);
      if (!bytes) {
        ++missing_;
        continue;
      }
      const std::string hex = digest.hex();
      kept_.push_back({pack(out_, std::string(kDocument) + ".media/" + hex.substr(0, 2) + "/" + hex.substr(2),
                            [&](std::ostream& stream) { copy_stream(*bytes, stream, "the file " + hex); }),
                       digest});
      payload_.push_back(kept_.back().packed);
    }
  }

  void report(std::ostream& out) const {
    out << name_ << "\n\nThe archive's state " << reading_.fingerprint.hex() << "\nas known on "
        << plain_day(reading_.known_day) << ".\n\n";
    out << contents_.statements << " statements are shown";
    if (reading_.withheld != 0)
      out << "; " << reading_.withheld
          << (reading_.with_private ? " are not held by this copy"
                                    : " are private and withheld: their place in "
                                      "the chain is kept, their words are not here");
    out << ".\n";
    if (reading_.with_private) out << "PRIVATE: this bag holds private statements. Do not publish it.\n";
    out << "\nRecords\n";
    for (const Kind kind : all_kinds()) {
      std::uint64_t count = 0;
      reader_.each_record(kind, [&](const RecordInfo&) {
        ++count;
        return true;
      });
      if (count != 0) out << "  " << word(kind) << ": " << count << "\n";
    }
    out << "\nFiles\n";
    for (std::size_t i = 1; i < kept_.size(); ++i) file_line(out, kept_[i]);
    if (missing_ != 0)
      out << "  " << missing_ << " more are cited but were not in this copy of the archive\n";
    out << "\nWhat is what\n"
           "  archive.xml        everything that is said, with chains and digests, for 'lathbook restore'\n"
           "  archive.xml.media  the files, each by its SHA-256\n"
           "  premis.xml         the files and what befell them (PREMIS 3)\n"
           "To make an archive of it again: lathbook restore THIS-FOLDER NEW-ARCHIVE\n";
  }

  void file_line(std::ostream& out, const Kept& file) const {
    const auto& entries = contents_.files.at(file.digest);
    const auto source = reader_.record(entries.front().source);
    out << "  " << file.digest.hex() << "  " << file.packed.bytes << " bytes";
    if (source) out << ", " << on_one_line(display(*source));
    if (!entries.front().file_name.empty()) out << " (" << on_one_line(entries.front().file_name) << ")";
    out << "\n";
  }

  void info(std::ostream& out) const {
    std::uint64_t bytes = 0;
    for (const Packed& file : payload_) bytes += file.bytes;
    out << "Source-Organization: " << on_one_line(name_) << "\n"
        << "Bagging-Date: " << iso_day(reading_.known_day) << "\n"
        << "External-Description: Statements on building fabric and provenance, with their sources and "
           "files\n"
        << "External-Identifier: " << base_ << "\n"
        << "Internal-Sender-Identifier: " << reading_.fingerprint.hex() << "\n"
        << "Bag-Software-Agent: lathbook\n"
        << "Payload-Oxum: " << bytes << "." << payload_.size() << "\n";
  }

  void tags() {
    const std::string manifest = manifest_text(payload_);
    std::vector<Packed> tags;
    tags.push_back(pack(out_, "bagit.txt", [](std::ostream& stream) {
      stream << "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";
    }));
    tags.push_back(pack(out_, "bag-info.txt", [&](std::ostream& stream) { info(stream); }));
    tags.push_back(pack(out_, "manifest-sha512.txt", [&](std::ostream& stream) { stream << manifest; }));
    out_.file("tagmanifest-sha512.txt") << manifest_text(tags);
  }

  const StatementReader& reader_;
  const Reading reading_;
  const std::string base_;
  FolderSink& out_;
  Services& services_;
  const std::string name_;
  const Contents contents_;
  std::vector<Kept> kept_;
  std::vector<Packed> payload_;
  std::uint64_t missing_ = 0;
};

}  // namespace

std::vector<std::string> BagExporter::formats() const {
  return {"bag"};
}

bool BagExporter::makes_folder(std::string_view) const {
  return true;
}

void BagExporter::write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                               Services& services) {
  require_base_address(request.base_iri);
  if (request.scope != Uuid{})
    fail(ErrorKind::invalid,
         "a bag holds the whole archive, chains unbroken; write it without naming a place, or export the "
         "place as "
         "tables");
  Packing(archive, request, out, services).pack_all();
}

}  // namespace lathbook::bag
