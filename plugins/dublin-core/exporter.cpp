// Walks the records.
#include "plugins/dublin-core/exporter.hpp"

#include <functional>
#include <optional>
#include <set>

#include "core/base/error.hpp"
#include "core/view/addresses.hpp"
#include "core/view/scope.hpp"
#include "plugins/dublin-core/mapping.hpp"
#include "plugins/dublin-core/repository.hpp"

namespace lathbook::dublin_core {

namespace {

std::set<Uuid> part_of(const Snapshot& archive, const Uuid& place) {
  std::set<Uuid> part = belongings_of(archive, place);
  const std::set<Uuid> sources = sources_of(archive, part);
  part.insert(sources.begin(), sources.end());
  return part;
}

class Walk {
public:
  Walk(const Snapshot& archive, const ExportRequest& request, Services& services)
      : reader_(archive.statements()),
        services_(services),
        ground_{reader_, request.base_iri, TimelineIndex(services.result("timeline")), uncarried_} {
    require_base_address(request.base_iri);
    if (request.scope != Uuid{}) part_ = part_of(archive, request.scope);
  }

  const Ground& ground() const { return ground_; }

  void each(const std::function<void(const RecordView&)>& on_record) {
    std::uint64_t done = 0;
    for (const Kind kind : all_kinds()) {
      reader_.each_record(kind, [&](const RecordInfo& info) {
        if (services_.stop_requested()) return false;
        services_.progress(++done, 0);
        if (part_ && part_->count(info.id) == 0) return true;
        if (has_record(kind)) {
          on_record(RecordView::read(reader_, info));
        } else if (kind != Kind::archive) {
          uncarried_.add("records of the kind " + std::string(word(kind)));
        }
        return true;
      });
    }
  }

  /// The earliest of all datestamps, for the head of the list: one walk of its own.
  std::string earliest() {
    std::string earliest;
    for (const Kind kind : all_kinds()) {
      if (!has_record(kind)) continue;
      reader_.each_record(kind, [&](const RecordInfo& info) {
        if (services_.stop_requested()) return false;
        if (part_ && part_->count(info.id) == 0) return true;
        const std::string stamp = datestamp(RecordView::read(reader_, info));
        if (earliest.empty() || stamp < earliest) earliest = stamp;
        return true;
      });
    }
    return earliest;
  }

  void tell() {
    const std::string left = uncarried_.sentence("Dublin Core");
    if (!left.empty()) services_.note(Severity::note, left);
  }

private:
  const StatementReader& reader_;
  Services& services_;
  Uncarried uncarried_;
  Ground ground_;
  std::optional<std::set<Uuid>> part_;
};

void write_list(Walk& walk, const Keeper& keeper, std::ostream& out) {
  const std::string earliest = walk.earliest();
  if (earliest.empty()) fail(ErrorKind::invalid, "there is nothing to list: no record is shown");
  RepositoryWriter writer(out, keeper, earliest);
  walk.each([&](const RecordView& record) { writer.write(record, walk.ground()); });
  writer.finish();
}

}  // namespace

std::vector<std::string> DublinCoreExporter::formats() const {
  return {"repository", "records"};
}

bool DublinCoreExporter::makes_folder(std::string_view format) const {
  return format == "records";
}

void DublinCoreExporter::write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
                               Services& services) {
  const Keeper keeper = keeper_of(archive.statements());
  if (const auto what = missing(keeper); !what.empty())
    fail(ErrorKind::invalid,
         "a list for harvesters must say whom to write to and where it is harvested; enter " + what +
             ", or write the format 'records'");
  Walk walk(archive, request, services);
  write_list(walk, keeper, out);
  walk.tell();
}

void DublinCoreExporter::write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                                      Services& services) {
  Walk walk(archive, request, services);
  walk.each([&](const RecordView& record) {
    XmlWriter xml(out.file("records/" + record.info.id.text() + ".xml"));
    write_dc(xml, record, walk.ground());
    xml.finish();
  });
  walk.tell();
  const Keeper keeper = keeper_of(archive.statements());
  if (const auto what = missing(keeper); !what.empty()) {
    services.note(Severity::note, "the folder has no list for harvesters; for one, enter " + what);
    return;
  }
  Walk again(archive, request, services);
  write_list(again, keeper, out.file("repository.xml"));
}

}  // namespace lathbook::dublin_core
