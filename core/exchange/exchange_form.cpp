#include "core/exchange/exchange_form.hpp"

#include <algorithm>

namespace lathbook {

namespace {

constexpr std::array<AttributeForm, 4> kDocument{{{"format", "format", true},
                                                  {"archive", "uuid", true},
                                                  {"fingerprint", "digest", true},
                                                  {"statements", "count", true}}};
constexpr std::array<AttributeForm, 8> kStatement{{{"chain", "chain", true},
                                                   {"n", "number", true},
                                                   {"id", "digest", true},
                                                   {"previous", "digest", false},
                                                   {"entered", "moment", true},
                                                   {"presence", "presence", false},
                                                   {"salt", "digest", false},
                                                   {"content", "digest", false}}};
constexpr std::array<AttributeForm, 1> kId{{{"id", "digest", true}}};
constexpr std::array<AttributeForm, 12> kSays{{{"act", "act", false},
                                               {"subject", "uuid", false},
                                               {"property", "property-name", false},
                                               {"property-id", "property-id", false},
                                               {"edtf", "words", false},
                                               {"language", "words", false},
                                               {"author", "uuid", false},
                                               {"said-on", "words", false},
                                               {"recorder", "uuid", false},
                                               {"class", "evidence", false},
                                               {"confidence", "confidence", false},
                                               {"proposed-by", "words", false}}};
constexpr std::array<AttributeForm, 1> kQualifier{{{"name", "words", true}}};
constexpr std::array<AttributeForm, 2> kCitation{{{"source", "uuid", true}, {"locator", "words", false}}};
constexpr std::array<AttributeForm, 1> kPrivacy{{{"until", "words", false}}};
constexpr std::array<AttributeForm, 3> kMedia{
    {{"sha256", "digest", true}, {"bytes", "count", true}, {"path", "words", true}}};

constexpr std::array<PartForm, kParts> kForms{
    {{Part::document, "lathbook-exchange", Part::document, 0, false, false, kDocument},
     {Part::statement, "statement", Part::document, 1, true, false, kStatement},
     {Part::seen, "seen", Part::statement, 1, true, false, kId},
     {Part::says, "says", Part::statement, 2, false, false, kSays},
     {Part::bytes, "bytes", Part::statement, 2, false, true, {}},
     {Part::value, "value", Part::says, 1, false, true, {}},
     {Part::qualifier, "qualifier", Part::says, 2, true, true, kQualifier},
     {Part::citation, "citation", Part::says, 3, true, true, kCitation},
     {Part::target, "target", Part::says, 4, true, false, kId},
     {Part::ground, "ground", Part::says, 5, true, false, kId},
     {Part::why, "why", Part::says, 6, false, true, {}},
     {Part::privacy, "private", Part::says, 7, false, true, kPrivacy},
     {Part::media, "media", Part::document, 2, true, false, kMedia}}};

}  // namespace

const PartForm& form_of(Part part) {
  return kForms[static_cast<std::size_t>(part)];
}
const std::array<PartForm, kParts>& part_forms() {
  return kForms;
}

std::optional<Part> part_from_name(std::string_view name) {
  const auto found =
      std::find_if(kForms.begin(), kForms.end(), [name](const PartForm& form) { return form.name == name; });
  if (found == kForms.end()) return std::nullopt;
  return found->part;
}

bool PartAttributes::add(std::string_view name, std::string_view value) {
  if (count_ == items_.size()) return false;
  items_[count_++] = {name, value};
  return true;
}

const std::string_view* PartAttributes::find(std::string_view name) const {
  for (std::size_t i = 0; i < count_; ++i) {
    if (items_[i].first == name) return &items_[i].second;
  }
  return nullptr;
}

std::string_view PartAttributes::get(std::string_view name) const {
  const auto* found = find(name);
  return found == nullptr ? std::string_view() : *found;
}

}  // namespace lathbook
