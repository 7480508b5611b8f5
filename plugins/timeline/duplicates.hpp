// Records that were made twice for one thing, taken together as far as the statements that say so are
// believed.
#pragma once

#include <unordered_map>
#include <vector>

#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

class Duplicates {
public:
  Duplicates(const Claims& claims, const Solution& solution, std::uint8_t level);

  /// The record and every other record of the same thing, in natural order of codes.
  std::vector<Uuid> all_of(const Uuid& record) const;

private:
  std::unordered_map<Uuid, std::size_t> class_of_;
  std::vector<std::vector<Uuid>> classes_;
};

}  // namespace lathbook::timeline
