// The elements of the exchange document, their order and attributes, in one table that the reader and the
// schema share. Internal to core/exchange; docs/exchange.md is the contract.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

inline constexpr std::string_view kExchangeNamespace = "urn:lathbook:exchange:1";
inline constexpr std::string_view kExchangeNamespaceStem = "urn:lathbook:exchange:";
inline constexpr std::string_view kExchangeFormat = "1";
/// Longer words than these the reader refuses, so the writer never writes them.
inline constexpr std::size_t kMostExchangeText = std::size_t{1} << 20U;
inline constexpr std::size_t kMostExchangeAttribute = std::size_t{1} << 16U;

enum class Part : std::uint8_t {
  document,
  statement,
  seen,
  says,
  bytes,
  value,
  qualifier,
  citation,
  target,
  ground,
  why,
  privacy,
  media
};
inline constexpr std::size_t kParts = 13;

/// Forms of attribute values, named as the types of the schema.
struct AttributeForm {
  std::string_view name;
  std::string_view type;
  bool required = false;
};

struct PartForm {
  Part part = Part::document;
  std::string_view name;
  Part parent = Part::document;
  int stage = 0;         ///< place in its parent: never goes down
  bool repeats = false;  ///< several of this stage may follow each other
  bool text = false;     ///< holds words; all others hold elements and blanks only
  std::span<const AttributeForm> attributes;
};

const PartForm& form_of(Part part);
/// Every form, in the order of Part.
const std::array<PartForm, kParts>& part_forms();
std::optional<Part> part_from_name(std::string_view name);

/// The attributes of one element as they arrive; the views live as long as the call.
class PartAttributes {
public:
  /// False when there are more than any element has.
  bool add(std::string_view name, std::string_view value);
  const std::string_view* find(std::string_view name) const;
  std::string_view get(std::string_view name) const;
  void clear() { count_ = 0; }
  std::size_t size() const { return count_; }
  std::string_view name(std::size_t index) const { return items_[index].first; }

private:
  std::array<std::pair<std::string_view, std::string_view>, 16> items_;
  std::size_t count_ = 0;
};

}  // namespace lathbook
