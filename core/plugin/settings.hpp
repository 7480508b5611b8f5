// Reads the values of a plugin's settings.
#pragma once

#include <string>

#include "core/base/error.hpp"
#include "core/base/number.hpp"

namespace lathbook {

/// Throws Error(invalid) naming the setting unless its value is a whole number of this range.
template <typename Number>
Number whole_number_setting(const std::string& name, const std::string& value, Number least, Number most) {
  const auto number = number_in<Number>(value);
  if (!number || *number < least || *number > most)
    fail(ErrorKind::invalid, "setting '" + name + "' is a whole number from " + std::to_string(least) +
                                 " to " + std::to_string(most));
  return *number;
}

}  // namespace lathbook
