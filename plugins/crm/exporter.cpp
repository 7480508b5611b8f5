// Walks the archive and writes it record by record.
#include "plugins/crm/exporter.hpp"

#include "core/view/addresses.hpp"
#include "core/view/held.hpp"
#include "core/view/scope.hpp"
#include "plugins/crm/claims.hpp"
#include "plugins/crm/context.hpp"
#include "plugins/crm/rdf_writer.hpp"
#include "plugins/crm/record_writer.hpp"
#include "plugins/crm/vocabulary.hpp"

namespace lathbook::crm {

namespace {

const Timeline* timeline_of(Services& services) {
  const AnalysisResult* result = services.result("timeline");
  return result != nullptr ? std::get_if<Timeline>(result) : nullptr;
}

Syntax syntax_of(const std::string& format) {
  if (format == "ntriples") return Syntax::ntriples;
  return format == "trig" ? Syntax::trig : Syntax::turtle;
}

class Export {
public:
  Export(const Snapshot& archive, const ExportRequest& request, std::ostream& out, Services& services)
      : archive_(archive),
        services_(services),
        context_(archive.statements(), request.level, timeline_of(services)),
        writer_(out, syntax_of(request.format), request.base_iri),
        propositions_(request.format == "trig") {
    if (request.scope != Uuid{}) context_.scope = belongings_of(archive, request.scope);
  }

  void write() {
    context_.ruled_aside = ruled_aside(archive_.statements());
    write_state(context_, archive_.reading());
    flush();
    write_records();
    write_mentioned();
    if (context_.taken_back) write_withdrawals();
    write_vocabulary(context_);
    flush();
    writer_.finish();
    for (const std::string& sentence : context_.tally.sentences()) services_.note(Severity::note, sentence);
  }

private:
  void flush() {
    writer_.write(context_.graph);
    context_.graph.clear();
  }

  void write_record(const Uuid& id) {
    if (auto entry = context_.look(id)) RecordWriter(context_, std::move(*entry), propositions_).write();
    flush();
  }

  /// One more pass: withdrawals belong to no record. Only archives in which something was taken back pay.
  void write_withdrawals() {
    Query all;
    all.current_only = false;
    archive_.statements().each_statement(all, [&](const Statement& statement) {
      if (services_.stop_requested()) return false;
      if (statement.presence == Presence::present && statement.content.act != Act::state) {
        write_withdrawal(context_, statement);
        flush();
      }
      return true;
    });
  }

  void write_records() {
    std::uint64_t done = 0;
    for (const Kind kind : all_kinds()) {
      archive_.statements().each_record(kind, [&](const RecordInfo& info) {
        if (services_.stop_requested()) return false;
        if (context_.in_scope(info.id)) write_record(info.id);
        services_.progress(++done, 0);
        return true;
      });
    }
  }

  /// Of what lies outside the scope but is named within it: sources and agents whole, for they are what
  /// the claims rest on; of the rest what it is and what it is called. Whole records name others in turn.
  void write_mentioned() {
    for (std::size_t at = 0; at < context_.outside.size() && !services_.stop_requested(); ++at) {
      const Uuid id = context_.outside[at];
      const auto entry = context_.look(id);
      if (!entry) continue;
      const bool whole = entry->info.kind == Kind::source || entry->info.kind == Kind::agent;
      if (whole) {
        context_.scope->insert(id);
        write_record(id);
      } else {
        write_base(context_, *entry);
        flush();
      }
    }
  }

  const Snapshot& archive_;
  Services& services_;
  Context context_;
  RdfWriter writer_;
  const bool propositions_;
};

}  // namespace

std::vector<std::string> CrmExporter::formats() const {
  return {"turtle", "ntriples", "trig"};
}

void CrmExporter::write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
                        Services& services) {
  require_base_address(request.base_iri);
  Export(archive, request, out, services).write();
}

}  // namespace lathbook::crm
