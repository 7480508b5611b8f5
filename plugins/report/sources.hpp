// The notes of a report: sources of the archive read once, numbered as they are cited.
#pragma once

#include <map>
#include <optional>
#include <set>
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

  /// The sources that sentences cite so far.
  std::vector<Uuid> cited() const;
  /// Null for a record that is no source or that the reading does not give.
  const Source* source(const Uuid& id);

  /// Numbers the figures and the notes in the order in which they are read, the first mention of each source
  /// in full, gathers the notes of a sentence that has more than four into one, and ties the notes to the
  /// figures that show their sources; notes that no sentence kept are dropped.
  void settle(Document& document);
  /// Every source cited, by kinds and within a kind in the order of their lines.
  std::vector<Entry> bibliography();
  /// The sources of the archive that no note cites, in the order of their lines.
  std::vector<Entry> not_cited();

private:
  struct Cited {
    Uuid source;
    Place place;         ///< its locator as the archive has it
    std::string region;  ///< the spot in the picture, where the statement gives it and the locator does not
    std::string words;   ///< of a note without a source
  };
  int note(const Uuid& source, const Place& place, const std::string& region = {});
  CitedPlace written(const Cited& cited, const std::vector<const Figure*>& figures);
  Entry entry(const Uuid& id, const Source& source) const;
  Sort sort_of(const Source& source) const;
  const std::set<std::string>& observers() const;
  int note_of_archive(const Statement& statement);
  Source read(const SourceView& view);
  Person person(const std::string& name) const;
  std::string seen(const Statement& statement, const Source& source);

  const Snapshot& archive_;
  std::set<std::string> people_;  ///< names of agents that are persons
  /// Names of those who looked at the house itself; gathered when first asked for.
  mutable std::optional<std::set<std::string>> observers_;
  std::map<Uuid, std::optional<Source>> sources_;
  std::map<Uuid, bool> told_;
  std::map<std::tuple<Uuid, std::string, std::string, std::string>, int> numbers_;
  std::map<Digest, int> archive_numbers_;
  std::vector<Cited> cited_;  ///< the note with this number minus one, while they are provisional
};

/// "tile 1", "tile 2", "tile 3", "tile 7" told as "tile 1-3, 7" (with an en rule), in natural order.
std::string drawn_together(std::vector<std::string> locators);

}  // namespace lathbook::report
