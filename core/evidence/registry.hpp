// The registry of properties: the one table from which store, validator, schema, forms and exporters
// take what they know (schemas/properties.tsv and schemas/choices.tsv, built into the library).
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// The kinds of records. Stored by these numbers: never change them.
enum class Kind : std::uint8_t {
  unknown = 0,
  place = 1,
  element = 2,
  piece = 3,
  find = 4,
  container = 5,
  mark = 6,
  label = 7,
  examination = 8,
  sample = 9,
  finish = 10,
  source = 11,
  agent = 12,
  event = 13,
  campaign = 14,
  phase = 15,
  archive = 16
};

LATHBOOK_API std::string_view word(Kind kind);
LATHBOOK_API std::optional<Kind> kind_from_word(std::string_view text);
/// All kinds but unknown, in order.
LATHBOOK_API const std::vector<Kind>& all_kinds();

enum class ValueType : std::uint8_t {
  text,
  code,
  choice,
  record,
  date,
  quantity,
  number,
  integer,
  yes_no,
  uri,
  media,
  polygon,
  munsell,
  transcription,
  statement
};

LATHBOOK_API std::string_view word(ValueType type);
/// Reads the words of schemas/properties.tsv ("yes-no"); nothing for any other text.
LATHBOOK_API std::optional<ValueType> value_type_from_word(std::string_view text);

/// Who must be cited: a source; or the subject may vouch for itself; or nobody (clerical statements).
enum class Cites : std::uint8_t { source, self, none };

struct QualifierRule {
  std::string name;
  std::string type;  ///< name of a value type or of a choice list
  bool required = false;
};

/// One row of the registry.
struct LATHBOOK_API Property {
  std::uint32_t id = 0;  ///< permanent
  std::string name;
  std::vector<Kind> subjects;  ///< empty = any kind
  ValueType type = ValueType::text;
  std::vector<Kind> targets;  ///< for records: allowed kinds; empty = any
  bool same_kind = false;     ///< for records: of the subject's own kind
  std::string choices;        ///< for choices: the list's name
  bool many = false;          ///< may a record have several current ones
  Cites cites = Cites::source;
  std::string dating;  ///< rule of dating, empty when it dates nothing
  std::vector<QualifierRule> qualifiers;
  bool private_by_default = false;
  std::string label;
  std::string help;
  std::string crm;

  bool said_of(Kind kind) const;
  const QualifierRule* qualifier(std::string_view qualifier_name) const;
};

/// The parsed and checked registry. Immutable, shared, safe from several threads.
class LATHBOOK_API Registry {
public:
  /// The registry built into the library; parsed and checked on first use; throws Error(corrupt) naming
  /// the row when the table breaks its own rules.
  static const Registry& standard();
  /// Parses tables given as text (for tests).
  Registry(std::string_view properties, std::string_view choices);

  const std::vector<Property>& properties() const { return properties_; }
  const Property* find(std::uint32_t id) const;
  const Property* find(std::string_view name) const;
  /// Throws Error(invalid) with the nearest names when there is no such property.
  const Property& named(std::string_view name) const;
  /// Members of a choice list; empty when there is no such list.
  const std::vector<std::string>& choices(std::string_view list) const;

private:
  std::vector<Property> properties_;
  std::vector<std::size_t> by_id_;  // place in properties_ plus one; 0 = no such id
  struct NameHash : std::hash<std::string_view> {
    using is_transparent = void;
  };
  std::unordered_map<std::string, std::size_t, NameHash, std::equal_to<>> by_name_;  // places in properties_
  std::vector<std::pair<std::string, std::vector<std::string>>> lists_;
};

/// Permanent ids that code needs to know by name; everything else goes through the table.
namespace property {
inline constexpr std::uint32_t kind = 1;
inline constexpr std::uint32_t code = 2;
inline constexpr std::uint32_t name = 3;
inline constexpr std::uint32_t same_record_as = 5;
inline constexpr std::uint32_t private_record = 6;
inline constexpr std::uint32_t source_type = 190;
inline constexpr std::uint32_t title = 191;
inline constexpr std::uint32_t media = 197;
inline constexpr std::uint32_t consent = 201;
inline constexpr std::uint32_t public_name = 214;
}  // namespace property

}  // namespace lathbook
