// Turns records, statements and citations of one reading into words and numbered notes.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/sheet/content.hpp"

namespace lathbook::sheet {

/// Text of the archive made fit to stand in a line: safe_display, line feeds as blanks.
std::string foreign(std::string_view text);

/// Everything it tells comes from the snapshot: what the snapshot does not give is not told. Notes are
/// numbered in the order in which they are first cited; one note for each source, locator and quoted words.
class Teller {
public:
  /// Lists of statements are told without those left out.
  Teller(const Snapshot& archive, const std::vector<Digest>& leave_out);

  const StatementReader& reader() const { return archive_.statements(); }
  /// Nothing for a record that the reading does not give.
  std::optional<RecordInfo> record(const Uuid& id) const;
  /// "the ivory tile field (N-204)"; people and firms without article; a source as "the photograph
  /// “Dinner” (about 1911)"; "a record that this reading does not give".
  std::string name(const Uuid& id);
  /// The value of a statement for a sentence: a record by name, a date in words, text as it is.
  std::string value(const Statement& statement);
  /// "the ivory tile field (N-204) is proposed in the permit “...”".
  std::string say(const Statement& statement);
  /// The notes of a statement: its citations, a source for itself, else a note that names the statement.
  std::vector<int> cite(const Statement& statement);
  /// `shown` gathers the statements told so far: what one already told is concluded from is not told again.
  Step step(const ReasonStep& reason, std::set<Digest>& shown);
  Step step(const Statement& statement, std::set<Digest>& shown, int depth = 0);

  /// Current statements about a record with this property, in exchange order.
  std::vector<Statement> said(const Uuid& subject, std::string_view property) const;
  /// Current statements with this property whose value is the record.
  std::vector<Statement> said_to(const Uuid& object, std::string_view property) const;
  std::optional<Statement> statement(const Digest& id) const;

  std::vector<Note> take_notes() { return std::move(notes_); }
  /// The sources cited, in natural order of their codes.
  std::vector<SourceLine> sources() const;

private:
  const SourceView* source(const Uuid& id);
  int note(const Citation& citation);
  int note_of_archive(const Statement& statement);
  std::vector<Statement> query(const Query& query) const;

  const Snapshot& archive_;
  const std::vector<Digest>& leave_out_;
  std::map<Uuid, std::optional<SourceView>> sources_;
  std::map<Uuid, std::string> names_;
  std::map<std::tuple<Uuid, std::string, std::string>, int> numbers_;
  std::map<Digest, int> archive_numbers_;
  std::map<Uuid, int> full_;
  std::vector<Note> notes_;
};

/// Puts the second list into the first; sorted, none twice.
void add_notes(std::vector<int>& notes, const std::vector<int>& more);

}  // namespace lathbook::sheet
