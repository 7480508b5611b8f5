// Walks the things.
#include "plugins/lido/exporter.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <set>

#include "core/base/error.hpp"
#include "core/view/addresses.hpp"
#include "core/view/scope.hpp"
#include "core/view/words.hpp"
#include "plugins/lido/record.hpp"

namespace lathbook::lido {

namespace {

/// What is said of every piece of a field: it makes none of them one of note.
constexpr std::array<std::string_view, 11> kUsual{"kind",      "code",         "name",       "piece-type",
                                                  "piece-of",  "position",     "count",      "piece-state",
                                                  "condition", "in-container", "whereabouts"};

bool is_of_note(const Object& object) {
  if (!object.inscriptions.empty() || !object.events.empty()) return true;
  return std::any_of(object.record.facts.begin(), object.record.facts.end(), [](const Statement& fact) {
    const Property* property = Registry::standard().find(fact.content.property);
    return property != nullptr && std::find(kUsual.begin(), kUsual.end(), property->name) == kUsual.end();
  });
}

void start_document(XmlWriter& xml) {
  xml.start("lido:lidoWrap").attribute("xmlns:lido", "http://www.lido-schema.org");
  xml.attribute("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance");
  xml.attribute("xsi:schemaLocation",
                "http://www.lido-schema.org http://www.lido-schema.org/schema/v1.1/lido-v1.1.xsd");
}

}  // namespace

std::vector<std::string> LidoExporter::formats() const {
  return {"lido", "every-piece"};
}

void LidoExporter::write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
                         Services& services) {
  require_base_address(request.base_iri);
  std::optional<std::set<Uuid>> part;
  if (request.scope != Uuid{}) part = belongings_of(archive, request.scope);
  const StatementReader& reader = archive.statements();
  Uncarried uncarried;
  const Ground ground{reader, request.base_iri, archive_name(reader),
                      TimelineIndex(services.result("timeline")), uncarried};
  std::unique_ptr<XmlWriter> xml;
  std::uint64_t plain_pieces = 0;
  std::uint64_t done = 0;
  for (const Kind kind : {Kind::element, Kind::piece, Kind::find}) {
    reader.each_record(kind, [&](const RecordInfo& info) {
      if (services.stop_requested()) return false;
      services.progress(++done, 0);
      if (part && part->count(info.id) == 0) return true;
      const Object object = object_of(ground, RecordView::read(reader, info));
      if (kind == Kind::piece && request.format != "every-piece" && !is_of_note(object)) {
        ++plain_pieces;
        return true;
      }
      if (!xml) {
        xml = std::make_unique<XmlWriter>(out);
        start_document(*xml);
      }
      RecordWriter(*xml, ground, object).write();
      return true;
    });
  }
  if (!xml)
    fail(ErrorKind::invalid,
         "there is no element, find or piece of note to write; LIDO knows no empty document");
  xml->end();
  xml->finish();
  if (plain_pieces != 0) {
    services.note(Severity::note,
                  std::to_string(plain_pieces) +
                      " pieces of which no more is known than what they are and where they sat have "
                      "no record of their own; --format every-piece writes them too");
  }
  const std::string left = uncarried.sentence("LIDO");
  if (!left.empty()) services.note(Severity::note, left);
}

}  // namespace lathbook::lido
