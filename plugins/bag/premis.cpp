// Writes PREMIS.
#include "plugins/bag/premis.hpp"

#include <set>

#include "core/base/calendar.hpp"
#include "core/base/xml_writer.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"

namespace lathbook::bag {

namespace {

constexpr char kSoftware[] = "lathbook";

class Premis {
public:
  Premis(std::ostream& out, const StatementReader& reader, const std::string& base, const Contents& contents)
      : xml_(out), reader_(reader), base_(base), contents_(contents) {
    xml_.start("premis").attribute("xmlns", "http://www.loc.gov/premis/v3");
    xml_.attribute("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance").attribute("version", "3.0");
  }

  void write(const std::vector<Kept>& files) {
    for (const Kept& file : files) object(file);
    const Reading reading = reader_.reading();
    event("state-" + reading.fingerprint.hex(), "capture", iso_day(reading.known_day),
          "The archive's state of this fingerprint, known on this day, was written out as one document.", {},
          files.front().packed.path);
    for (const Kept& file : files) ingestions(file);
    for (const auto& one : contents_.expunged)
      event(statement_address(base_, one.statement), "deletion", one.entered,
            "The content of " + std::to_string(one.targets) + " statements was destroyed for good" +
                (one.why.empty() ? "" : ": " + one.why),
            one.recorder, "");
    agents();
    xml_.end();
    xml_.finish();
  }

private:
  void identified(const std::string& stem, const std::string& type, const std::string& value) {
    xml_.start(stem).element(stem + "Type", type).element(stem + "Value", value).end();
  }

  const std::vector<Entry>& entries(const Kept& file) const {
    static const std::vector<Entry> none;
    const auto found = contents_.files.find(file.digest);
    return found == contents_.files.end() ? none : found->second;
  }

  void object(const Kept& file) {
    const auto& told = entries(file);
    const bool document = file.digest == Digest{};
    xml_.start("object").attribute("xsi:type", "file");
    identified("objectIdentifier", "path in the bag", file.packed.path);
    if (document) {
      identified("objectIdentifier", "fingerprint of the archive's state",
                 reader_.reading().fingerprint.hex());
    } else {
      identified("objectIdentifier", "SHA-256", file.digest.hex());
    }
    xml_.start("objectCharacteristics").start("fixity").element("messageDigestAlgorithm", "SHA-512");
    xml_.element("messageDigest", file.packed.sha512).end();
    xml_.element("size", std::to_string(file.packed.bytes));
    std::string format = document ? "text/xml; exchange document of an archive of building fabric" : "";
    std::string name;
    for (const Entry& entry : told) {
      if (format.empty()) format = entry.media_type;
      if (name.empty()) name = entry.file_name;
    }
    xml_.start("format").start("formatDesignation");
    xml_.element("formatName", format.empty() ? "not stated" : format).end().end().end();
    if (!name.empty()) xml_.element("originalName", name);
    xml_.end();
  }

  void event(const std::string& id, const char* type, const std::string& when, const std::string& detail,
             const std::optional<Uuid>& recorder, const std::string& object) {
    xml_.start("event");
    identified("eventIdentifier", "URI", id.rfind("state-", 0) == 0 ? base_ + id : id);
    xml_.element("eventType", type).element("eventDateTime", when);
    xml_.start("eventDetailInformation").element("eventDetail", detail).end();
    if (recorder && reader_.record(*recorder)) {
      agents_.insert(*recorder);
      identified("linkingAgentIdentifier", "URI", record_address(base_, *recorder));
    } else {
      identified("linkingAgentIdentifier", "software", kSoftware);
    }
    if (!object.empty()) identified("linkingObjectIdentifier", "path in the bag", object);
    xml_.end();
  }

  void ingestions(const Kept& file) {
    for (const Entry& entry : entries(file)) {
      const auto source = reader_.record(entry.source);
      event(statement_address(base_, entry.statement), "ingestion", entry.entered,
            "The file was taken into the archive" + (source ? " as " + display(*source) : std::string()),
            entry.recorder, file.packed.path);
    }
  }

  void agents() {
    xml_.start("agent");
    identified("agentIdentifier", "software", kSoftware);
    xml_.element("agentName", kSoftware).element("agentType", "software").end();
    for (const Uuid& id : agents_) {
      xml_.start("agent");
      identified("agentIdentifier", "URI", record_address(base_, id));
      const auto info = reader_.record(id);
      const bool firm = info && RecordView::read(reader_, *info).text("agent-type") == "firm";
      xml_.element("agentName", agent_in_words(reader_, id));
      xml_.element("agentType", firm ? "organization" : "person").end();
    }
  }

  XmlWriter xml_;
  const StatementReader& reader_;
  const std::string base_;
  const Contents& contents_;
  std::set<Uuid> agents_;
};

}  // namespace

void write_premis(std::ostream& out, const StatementReader& reader, const std::string& base,
                  const std::vector<Kept>& files, const Contents& contents) {
  Premis(out, reader, base, contents).write(files);
}

}  // namespace lathbook::bag
