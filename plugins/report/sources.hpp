// The notes of a report: sources of the archive read once, numbered as they are cited.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "core/view/snapshot.hpp"
#include "plugins/report/chicago.hpp"

namespace lathbook::report {

/// Notes get their numbers when the whole document is there. Within a chapter one note stands for each place
/// in a source and is referred to again; a new chapter cites anew, in the short form where the source has
/// been told in full.
class Notes {
public:
  explicit Notes(const Snapshot& archive);

  void begin_chapter();
  /// The notes of a statement: its citations, a source for itself, else a note that names the statement.
  std::vector<int> cite(const Statement& statement);
  /// Several statements of one sort, such as the places of forty tiles: one note for each source, with its
  /// places drawn together ("tiles 1-24").
  std::vector<int> cite_together(const std::vector<Statement>& statements);
  /// The source itself.
  int cite_source(const Uuid& source);

  /// Null for a record that is no source or that the reading does not give.
  const Source* source(const Uuid& id);

  /// Numbers the notes in the order in which they are read, the first on each source in full; notes that no
  /// sentence kept are dropped.
  void settle(Document& document);
  /// Every source cited, in the order of their lines.
  std::vector<Entry> bibliography();

private:
  struct Cited {
    Uuid source;
    Place place;
    std::string words;  ///< of a note without a source
  };
  int note(const Uuid& source, const Place& place);
  int note_of_archive(const Statement& statement);
  Source read(const SourceView& view);
  Person person(const std::string& name) const;
  std::string seen(const Statement& statement, const Source& source);

  const Snapshot& archive_;
  std::map<std::string, std::string> people_;  ///< names of agents that are persons, with their family names
  std::map<Uuid, std::optional<Source>> sources_;
  std::map<Uuid, bool> told_;
  std::map<std::tuple<Uuid, std::string, std::string, std::string>, int> numbers_;
  std::map<Digest, int> archive_numbers_;
  std::vector<Cited> cited_;  ///< the note with this number minus one, while they are provisional
};

/// "tile 1", "tile 2", "tile 3", "tile 7" told as "tile 1-3, 7" (with an en rule), in natural order.
std::string drawn_together(std::vector<std::string> locators);

}  // namespace lathbook::report
