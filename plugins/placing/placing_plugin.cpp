// The plugin 'placing': which surviving piece in which cell.
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/plugin/descriptor.hpp"
#include "core/view/record_view.hpp"
#include "plugins/placing/allocate.hpp"

namespace lathbook::placing {

namespace {

// The proposal rests on what is on record of the piece's state and condition, and cites what these cite.
Content ground_of(const Snapshot& archive, const Uuid& piece) {
  Content content;
  content.subject = piece;
  content.property = Registry::standard().named("goes-to").id;
  content.evidence = EvidenceClass::physical;
  content.confidence = Confidence::probable;
  content.proposed_by = "placing 1.0";
  const auto view = archive.find(piece);
  if (!view) return content;
  for (const char* property : {"position", "piece-state", "piece-condition"}) {
    const Statement* said = view->latest(property);
    if (said == nullptr) continue;
    content.grounds.push_back(said->id);
    if (content.citations.empty()) content.citations = said->content.citations;
  }
  return content;
}

Draft draft_of(const Snapshot& archive, const FieldPlacing& field, const PlacedPiece& move) {
  Draft draft;
  draft.content = ground_of(archive, move.piece.id);
  const std::string row = std::to_string(move.row), column = std::to_string(move.column);
  draft.content.value = "row " + row + ", column " + column;
  draft.content.qualifiers = {{"column", column}, {"field", field.element.code}, {"row", row}};
  draft.content.why = "sounder than what could be laid there, and that cell is more in view";
  draft.words = display(move.piece) + " from row " + std::to_string(move.from_row) + ", column " +
                std::to_string(move.from_column) + " to row " + row + ", column " + column;
  return draft;
}

std::string number(double value) {
  return std::to_string(static_cast<long long>(value));
}

void write_text(const Placing& placing, std::ostream& out) {
  for (const auto& field : placing.fields) {
    out << safe_display(display(field.element)) << ": " << field.survivors
        << " out of their bed and fit to lay, " << field.cells << " cells free\n";
    if (field.moves.empty()) out << "  each serves best where it was\n";
    for (const auto& move : field.moves)
      out << "  " << safe_display(display(move.piece)) << ": row " << move.from_row << ", column "
          << move.from_column << " (view " << move.from_view << ") to row " << move.row << ", column "
          << move.column << " (view " << move.in_view << ")\n";
    for (const auto& kept : field.kept)
      out << "  stays with its cell: " << safe_display(display(kept.piece)) << ", " << safe_display(kept.why)
          << '\n';
    if (!field.moves.empty())
      out << "  soundness times view, summed: " << number(field.before) << " before, " << number(field.after)
          << " after\n  enter what you agree with: lathbook accept placing " << field.element.code
          << " KEY (keys: lathbook proposals placing " << field.element.code << ")\n";
  }
  if (placing.fields.empty()) out << "nothing here is laid in pieces with a map\n";
}

class Allocating : public Analysis, public Report {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest&, Services& services) override {
    return placing_of(archive, services);
  }

  std::vector<std::string> formats() const override { return {"text"}; }
  void write(const Snapshot& archive, const ReportRequest&, std::ostream& out, Services& services) override {
    write_text(placing_of(archive, services), out);
  }

private:
  static Placing placing_of(const Snapshot& archive, Services& services) {
    const auto& accounts = std::get<PieceAccounts>(*services.result("pieces"));
    Placing placing;
    placing.scope = accounts.scope;
    placing.reading = accounts.reading;
    for (const auto& field : accounts.fields) {
      if (field.rows == 0) continue;
      placing.fields.push_back(allocate(field));
      for (const auto& move : placing.fields.back().moves)
        placing.proposals.push_back(draft_of(archive, placing.fields.back(), move));
    }
    return placing;
  }
};

}  // namespace

class PlacingPlugin : public Plugin {
public:
  Analysis* analysis() override { return &allocating_; }
  Report* report() override { return &allocating_; }

private:
  Allocating allocating_;
};

}  // namespace lathbook::placing

LATHBOOK_PLUGIN(lathbook::placing::PlacingPlugin, .name = "placing", .version = "1.0",
                .kind = "analysis report",
                .summary = "proposes the soundest survivors for the cells most in view",
                .provides = "placing@1", .needs = "pieces@1");
