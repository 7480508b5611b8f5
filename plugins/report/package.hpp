// A zip archive whose bytes depend on nothing but what is put into it.
#pragma once

#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace lathbook::report {

struct Member {
  std::string path;
  std::string bytes;
};

/// Members in this order, the first one stored uncompressed as an OpenDocument package wants its `mimetype`
/// (OASIS OpenDocument 1.3, part 2, section 3.3), the others deflated; every time stamp is the first that zip
/// knows. Throws Error(io) when libzip or the stream fails.
void write_package(const std::vector<Member>& members, std::ostream& out);

}  // namespace lathbook::report
