// What the parts of the exporter share: addresses, what a record is in Linked Art, and the types it names.
#pragma once

#include <deque>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>

#include "core/evidence/reader.hpp"
#include "plugins/linked-art/json_node.hpp"

namespace lathbook::linked_art {

/// What a record is in Linked Art; `none` for what it has no form for (cuts, ghosts, openings, the archive).
enum class Shape { none, object, place, image, text, person, group, activity, period };

/// A record as far as others need to know it.
struct Entry {
  RecordInfo info;
  Shape shape = Shape::none;
  /// A building or a part of one: an object, with a place of its own beside it.
  bool built = false;
  std::string type;  ///< in the words of the registry; empty when none or several are said
};

class Context {
public:
  Context(const StatementReader& the_reader, std::string the_base)
      : reader(the_reader), base(std::move(the_base)) {}

  const StatementReader& reader;
  const std::string base;
  std::set<Digest> ruled_aside;
  std::optional<std::set<Uuid>> scope;  ///< unset = everything
  std::deque<Uuid> outside;             ///< named from within the scope, not in it

  /// Nothing for a record that this reading does not show.
  std::optional<Entry> look(const Uuid& id);
  /// {id, type, _label} of a record; nothing when it is not shown or has no form. `place`: the space of it.
  std::optional<Node> reference(const Uuid& id, bool place = false);
  bool in_scope(const Uuid& id) const { return !scope || scope->count(id) != 0; }

  /// A type of a public vocabulary.
  Node public_type(std::string_view id, std::string_view label) const;
  /// A word of the archive as a Type (or Material, MeasurementUnit, Language) with a record of its own.
  Node own_type(std::string_view list, std::string_view text, std::string_view type = "Type");
  /// Key and (type, label) of every own type that was named so far.
  const std::map<std::string, std::pair<std::string, std::string>>& own_types() const { return own_types_; }
  /// Statement (a text of one record, not a record itself) of some kind of the AAT.
  Node prose(std::string_view text, std::string_view aat, std::string_view label,
             const std::string& language = {});
  Node language(const std::string& code);

private:
  std::unordered_map<Uuid, std::optional<Entry>> entries_;
  std::map<std::string, std::pair<std::string, std::string>> own_types_;
  std::set<Uuid> outside_seen_;
};

std::string_view type_word(Shape shape);
/// A TimeSpan of an EDTF date, its end included; the words as typed are the label. Years that the schema's
/// date-time has no room for (before the first, after 9999) leave their bound out.
Node time_span(std::string_view edtf, std::string_view as_typed);
/// The same, from the beginning of one date to the end of another; either may be empty.
Node time_span_between(std::string_view from, std::string_view to);

}  // namespace lathbook::linked_art
