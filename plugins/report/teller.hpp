// Turns records and statements of one reading into words with notes.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/report/phrases.hpp"
#include "plugins/report/sources.hpp"

namespace lathbook::report {

/// What the snapshot does not give is not told.
class Teller {
public:
  Teller(const Snapshot& archive, const std::vector<Digest>& leave_out);

  const Snapshot& archive() const { return archive_; }
  const StatementReader& reader() const { return archive_.statements(); }
  Notes& notes() { return notes_; }

  std::optional<RecordInfo> record(const Uuid& id) const;
  /// Nothing said of a record that the reading does not give.
  const RecordView& view(const Uuid& id);
  /// "the ivory tile field (N-204)", a room marked as such, a person or firm by name, a source as "the
  /// photograph “Dinner” (about 1911)".
  std::string name(const Uuid& id);
  /// "ivory tile field (N-204)", for lists and tables.
  std::string label(const Uuid& id);
  /// A record by name, a date in words and marked, other values as they are.
  std::string value(const Statement& statement);
  /// " (probable)" where its author was not certain; empty otherwise.
  std::string doubt(const Statement& statement) const;
  /// "the ivory tile field (N-204) is proposed in the permit “...”": for contradictions.
  std::string claim(const Statement& statement);

  std::vector<int> cite(const Statement& statement) { return notes_.cite(statement); }
  /// The notes of the statements that fix a date.
  std::vector<int> cite(const Bound& bound);
  std::vector<int> cite(const Span& span);

  /// The place and what it lies within, from the inside out.
  std::vector<Uuid> places_around(const Uuid& place);
  /// Current statements about a record with this property, in exchange order, without those left out.
  std::vector<Statement> said(const Uuid& subject, std::string_view property);
  std::vector<Statement> said_to(const Uuid& object, std::string_view property) const;
  std::vector<Statement> all(std::string_view property) const;
  /// What cites this source.
  std::vector<Statement> citing(const Uuid& source) const;
  std::optional<Statement> statement(const Digest& id) const;
  /// Values of a property in one list, their notes added.
  std::string said_in_words(const Uuid& subject, std::string_view property, std::vector<int>& notes,
                            std::string_view detail = {});

  /// The date that a single approximate statement gives for both ends; empty when there is none.
  std::string about(const Span& span) const;

private:
  std::vector<Statement> query(const Query& query) const;

  const Snapshot& archive_;
  const std::vector<Digest>& leave_out_;
  Notes notes_;
  std::map<Uuid, RecordView> views_;
  std::map<Uuid, std::string> names_;
};

}  // namespace lathbook::report
