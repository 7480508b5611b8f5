// What a label is written on: how far the label can speak for it, and names of persons and towns in
// addresses.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/view/snapshot.hpp"
#include "plugins/labels/tokens.hpp"

namespace lathbook::labels {

/// The component, and what its record says of where it came from.
struct Carrier {
  RecordInfo info;  ///< nil id when the label is on nothing said
  std::string
      packing;  ///< why it counts as packing ("its material is ... packing-case boards"); empty when not
  std::string reused;   ///< why it counts as a reused part; empty when not
  std::string fitting;  ///< what it is a part of, by its own words: window, door ...; empty when not told
  std::string element;  ///< hint: the element a piece belongs to and the room that stands in; empty when none
  bool can_be_meant_for = false;  ///< an element, piece or find: kinds that are made for a room
};

Carrier carrier_of(const Snapshot& archive, const std::optional<Uuid>& id);

/// Words of the label that are like a name of a person, firm or town in the archive, in sentences' parts:
/// "“MERROW” is like the name of A-01 Tobias Merrow".
std::vector<std::string> addresses_in(const Snapshot& archive, const std::vector<LabelToken>& words);

}  // namespace lathbook::labels
