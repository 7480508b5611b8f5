// Tables of rules, a row a property: how an export says which part of its format each property becomes.
#pragma once

#include <algorithm>
#include <iterator>
#include <string_view>

namespace lathbook {

/// The row whose `property` is this one; null when the table has none.
template <class Table>
const typename Table::value_type* rule_in(const Table& table, std::string_view property) {
  const auto found = std::find_if(std::begin(table), std::end(table),
                                  [&](const auto& row) { return row.property == property; });
  return found == std::end(table) ? nullptr : &*found;
}

}  // namespace lathbook
