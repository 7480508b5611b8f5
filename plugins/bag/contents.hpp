// What the archive tells of the files that go into a bag, and of what was destroyed before.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/view/snapshot.hpp"

namespace lathbook::bag {

/// One statement that cites a file.
struct Entry {
  Digest statement;
  std::string entered;  ///< moment, with the writer's offset
  std::optional<Uuid> recorder;
  Uuid source;
  std::string file_name;
  std::string media_type;
};

struct Contents {
  std::map<Digest, std::vector<Entry>> files;  ///< by digest, entries in exchange order
  struct Expunged {
    Digest statement;
    std::string entered;
    std::optional<Uuid> recorder;
    std::size_t targets = 0;
    std::string why;
  };
  std::vector<Expunged> expunged;
  std::uint64_t statements = 0;  ///< shown, corrections included
};

Contents contents_of(const StatementReader& reader);

}  // namespace lathbook::bag
