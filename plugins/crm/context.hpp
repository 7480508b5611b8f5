// What the parts of the exporter share while one archive is written.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/evidence/reader.hpp"
#include "plugins/crm/dates.hpp"
#include "plugins/crm/graph.hpp"
#include "plugins/crm/tally.hpp"

namespace lathbook::crm {

/// A record as far as others need to know it.
struct Entry {
  RecordInfo info;
  /// Place type, element class, source type or agent type; empty when none or several are said.
  std::string type;

  bool is_built() const;    ///< B1 or a subclass
  bool is_section() const;  ///< B2
  bool is_surface() const;  ///< an element that is an A3: it has no stuff of its own
  bool is_picture() const;  ///< a source that is an E36 too
  bool is_object() const;   ///< an E22: it can be moved and bear features
  std::vector<std::string_view> classes() const;
};

/// Looks records up; memory is bounded whatever the size of the archive.
class Context {
public:
  Context(const StatementReader& the_reader, Level the_level, const Timeline* timeline)
      : reader(the_reader), level(the_level), dates(timeline) {}

  const StatementReader& reader;
  const Level level;
  const Dates dates;
  Graph graph;
  std::set<Digest> ruled_aside;         ///< by rulings of the archive
  std::optional<std::set<Uuid>> scope;  ///< unset = everything
  std::vector<Uuid> outside;            ///< named from within the scope, not in it; in order of mention
  Tally tally;
  std::set<std::uint32_t> used;  ///< properties that were written, to be declared at the end
  bool reckoned = false;         ///< whether dates worked out by the timeline were written
  bool taken_back = false;       ///< whether some statement was written that a withdrawal may end

  /// Nothing for a record that this reading does not show.
  std::optional<Entry> look(const Uuid& id);
  /// Set aside by a ruling, or by the dates shown while nobody has ruled.
  bool is_set_aside(const Digest& id) const {
    return ruled_aside.count(id) != 0 || dates.contested().count(id) != 0;
  }
  /// As look, and remembers that the record is named.
  std::optional<Entry> refer(const Uuid& id);
  /// The record named by the only current value of a property, when it is certain or probable.
  std::optional<Uuid> only(const Uuid& subject, std::string_view property) const;
  /// Whether that statement gets an I17 in this export.
  bool writes(const Digest& id);
  /// Whether that statement has a belief in this export, on which a conclusion may rest.
  bool is_premise(const Digest& id);
  bool in_scope(const Uuid& id) const { return !scope || scope->count(id) != 0; }
  /// True the first time a shared node is asked about; now and then again, when the memory was emptied.
  bool first(const std::string& name);

private:
  std::unordered_map<Uuid, std::optional<Entry>> entries_;
  std::unordered_set<std::string> declared_;
  std::unordered_map<Digest, bool> premises_;
  std::set<Uuid> outside_seen_;
};

}  // namespace lathbook::crm
