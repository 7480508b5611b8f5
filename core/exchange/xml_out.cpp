#include "core/exchange/xml_out.hpp"

#include <fstream>
#include <system_error>

#include "core/base/base64.hpp"
#include "core/base/error.hpp"
#include "core/base/paths.hpp"
#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "core/evidence/encoding.hpp"
#include "core/evidence/registry.hpp"
#include "core/exchange/exchange_form.hpp"

namespace lathbook {

namespace {

std::string_view name_of(Part part) {
  return form_of(part).name;
}

std::string hex_of(const Salt& salt) {
  return Digest{salt}.hex();
}

class DocumentWriter {
public:
  explicit DocumentWriter(std::ostream& out)
      : xml_(out, XmlWriter::Layout::compact), registry_(Registry::standard()) {}

  void begin(const LedgerSource& source, std::uint64_t count) {
    xml_.start(name_of(Part::document)).attribute("xmlns", kExchangeNamespace);
    xml_.attribute("format", kExchangeFormat).attribute("archive", source.archive_id().text());
    xml_.attribute("fingerprint", source.fingerprint().hex()).attribute("statements", std::to_string(count));
  }

  void statement(const Sealed& sealed) {
    const auto& header = sealed.header;
    // One line a statement: errors and comparisons of two documents can name it.
    xml_.text("\n").start(name_of(Part::statement));
    xml_.attribute("chain", hex(header.chain)).attribute("n", std::to_string(header.number));
    xml_.attribute("id", sealed.id().hex());
    if (header.previous) xml_.attribute("previous", header.previous->hex());
    xml_.attribute("entered", header.entered.text());
    if (sealed.presence == Presence::present) {
      xml_.attribute("salt", hex_of(sealed.salt));
    } else {
      xml_.attribute("presence", sealed.presence == Presence::withheld ? "withheld" : "expunged");
      xml_.attribute("content", header.content.hex());
    }
    for (const auto& head : header.seen) identified(Part::seen, head);
    if (sealed.presence == Presence::present) content(sealed);
    xml_.end();
  }

  void media(const MediaFile& file) {
    xml_.text("\n").start(name_of(Part::media)).attribute("sha256", file.digest.hex());
    xml_.attribute("bytes", std::to_string(file.bytes)).attribute("path", media_path(file.digest)).end();
  }

  void finish() {
    xml_.text("\n").end();
    xml_.finish();
  }

private:
  void identified(Part part, const Digest& id) { xml_.start(name_of(part)).attribute("id", id.hex()).end(); }

  void content(const Sealed& sealed) {
    const auto content = decode_content(sealed.content);
    const auto* property = registry_.find(content.property);
    if (can_be_shown(content, property)) return says(content, property);
    const auto letters = to_base64(sealed.content);
    if (letters.size() > kMostExchangeText) {
      fail(ErrorKind::invalid,
           "statement " + short_name(sealed.header.chain, sealed.header.number) +
               " holds a text of more than 1 MiB, which the exchange document cannot carry");
    }
    xml_.element(name_of(Part::bytes), letters);
  }

  static bool fits_text(std::string_view text) {
    return text.size() <= kMostExchangeText && XmlWriter::can_hold(text);
  }
  static bool fits_attribute(std::string_view text) {
    return text.size() <= kMostExchangeAttribute && XmlWriter::can_hold(text);
  }

  static bool can_be_shown(const Content& content, const Property* property) {
    if (property == nullptr && content.property != 0) return false;
    for (const auto& qualifier : content.qualifiers) {
      if (!fits_attribute(qualifier.name) || !fits_text(qualifier.value)) return false;
    }
    for (const auto& citation : content.citations) {
      if (!fits_attribute(citation.locator) || !fits_text(citation.quote)) return false;
    }
    if (content.privacy && !(fits_text(content.privacy->reason) && fits_attribute(content.privacy->until))) {
      return false;
    }
    return fits_text(content.value) && fits_text(content.why) && fits_attribute(content.edtf) &&
           fits_attribute(content.language) && fits_attribute(content.said_on) &&
           fits_attribute(content.proposed_by);
  }

  void optional(std::string_view name, std::string_view value) {
    if (!value.empty()) xml_.attribute(name, value);
  }

  void says(const Content& content, const Property* property) {
    xml_.start(name_of(Part::says));
    if (content.act != Act::state) xml_.attribute("act", word(content.act));
    if (content.subject != Uuid{}) xml_.attribute("subject", content.subject.text());
    if (property != nullptr) {
      xml_.attribute("property", property->name).attribute("property-id", std::to_string(property->id));
    }
    optional("edtf", content.edtf);
    optional("language", content.language);
    if (content.author) xml_.attribute("author", content.author->text());
    optional("said-on", content.said_on);
    if (content.recorder) xml_.attribute("recorder", content.recorder->text());
    optional("class", word(content.evidence));
    optional("confidence", word(content.confidence));
    optional("proposed-by", content.proposed_by);
    parts(content);
    xml_.end();
  }

  void parts(const Content& content) {
    if (!content.value.empty()) xml_.element(name_of(Part::value), content.value);
    for (const auto& qualifier : content.qualifiers) {
      xml_.start(name_of(Part::qualifier)).attribute("name", qualifier.name);
      if (!qualifier.value.empty()) xml_.text(qualifier.value);
      xml_.end();
    }
    for (const auto& citation : content.citations) {
      xml_.start(name_of(Part::citation)).attribute("source", citation.source.text());
      optional("locator", citation.locator);
      if (!citation.quote.empty()) xml_.text(citation.quote);
      xml_.end();
    }
    for (const auto& target : content.targets) identified(Part::target, target);
    for (const auto& ground : content.grounds) identified(Part::ground, ground);
    if (!content.why.empty()) xml_.element(name_of(Part::why), content.why);
    if (!content.privacy) return;
    xml_.start(name_of(Part::privacy));
    optional("until", content.privacy->until);
    if (!content.privacy->reason.empty()) xml_.text(content.privacy->reason);
    xml_.end();
  }

  XmlWriter xml_;
  const Registry& registry_;
};

}  // namespace

void write_exchange(const LedgerSource& source, std::ostream& out) {
  const auto count = source.count();
  DocumentWriter document(out);
  document.begin(source, count);
  Progress progress("writing statements", count);
  std::uint64_t written = 0;
  source.each_sealed([&](const Sealed& sealed) {
    stop_if_requested("the export");
    document.statement(sealed);
    ++written;
    progress.tick();
    return true;
  });
  if (written != count) {
    fail(ErrorKind::corrupt, "the archive counts " + std::to_string(count) + " statements but gave " +
                                 std::to_string(written) + "; run the check");
  }
  for (const auto& file : source.media()) document.media(file);
  document.finish();
}

std::string media_path(const Digest& digest) {
  const auto name = digest.hex();
  return name.substr(0, 2) + "/" + name.substr(2);
}

std::filesystem::path media_folder_of(const std::filesystem::path& xml_file) {
  auto folder = xml_file;
  folder += ".media";
  return folder;
}

std::uint64_t write_media_beside(const LedgerSource& source, const std::filesystem::path& xml_file) {
  const auto folder = media_folder_of(xml_file);
  const auto files = source.media();
  std::uint64_t copied = 0;
  for (const auto& file : files) {
    const auto target = folder / media_path(file.digest);
    std::error_code ignored;
    if (std::filesystem::is_regular_file(target, ignored) && sha256_file(target) == file.digest) continue;
    std::error_code error;
    std::filesystem::create_directories(target.parent_path(), error);
    if (error)
      fail(ErrorKind::io,
           "the folder " + quote(target.parent_path().string()) + " cannot be made: " + error.message());
    std::ifstream in(file.path, std::ios::binary);
    if (!in)
      fail(ErrorKind::not_found, "the media file " + file.digest.hex() + " is missing from the archive");
    AtomicFile out(target);
    Sha256 hash;
    std::string piece(std::size_t{1} << 16U, '\0');
    while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())), in.gcount() > 0) {
      hash.add({piece.data(), static_cast<std::size_t>(in.gcount())});
      out.stream().write(piece.data(), in.gcount());
    }
    if (in.bad()) fail(ErrorKind::io, "the media file " + file.digest.hex() + " cannot be read to its end");
    if (hash.finish() != file.digest) {
      fail(ErrorKind::corrupt,
           "the media file " + file.digest.hex() + " has been changed: its bytes do not fit its name");
    }
    out.commit();
    ++copied;
  }
  return copied;
}

}  // namespace lathbook
