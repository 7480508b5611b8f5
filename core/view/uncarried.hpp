// What a format could not carry, counted, to be told in one sentence beside the export.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "core/base/api.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

class LATHBOOK_API Uncarried {
public:
  /// A current statement that the format has no place for; counted under its property's label.
  void add(const Content& content);
  /// Anything else, under a name of the caller's: "competing statements".
  void add(const std::string& what, std::uint64_t count = 1);
  /// "LIDO has no place for 41 statements: is covered by (30), thickness (7), note (4); the CRM export and
  /// the exchange document carry them." At most eight kinds are named, the commonest first. Empty when
  /// there is nothing to tell.
  std::string sentence(std::string_view format) const;
  std::uint64_t total() const { return total_; }

private:
  std::map<std::string, std::uint64_t> counts_;
  std::uint64_t total_ = 0;
};

}  // namespace lathbook
