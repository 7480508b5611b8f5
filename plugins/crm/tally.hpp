// Counts what the format could not carry plainly, and tells it in a few sentences.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace lathbook::crm {

struct Tally {
  std::uint64_t dropped = 0;     ///< statements that name a record or statement that is not to be had
  std::uint64_t doubtful = 0;    ///< current ones that are doubtful, contested or set aside
  std::uint64_t superseded = 0;  ///< replaced or withdrawn
  std::uint64_t leaning = 0;     ///< bounds that rest on setting a conflicting statement aside
  std::uint64_t files = 0;       ///< files that are named and not enclosed
  std::map<std::string, std::uint64_t, std::less<>> without_form;  ///< held, by the property's label

  /// One sentence each, for the user; none when all was carried.
  std::vector<std::string> sentences() const;
};

}  // namespace lathbook::crm
