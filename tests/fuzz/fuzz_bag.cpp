// Any bytes as each tag file of a bag: lines or faults, never a crash; what is read is safe to look for.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "core/exchange/bag_lines.hpp"

namespace {

using namespace lathbook;

void require(bool holds) {
  if (!holds) std::abort();
}

void read_paths(const std::string& path) {
  bool odd = false;
  const std::string decoded = decode_bag_path(path, odd);
  require(decoded.size() <= path.size());
  // What would lead out of the bag is never called safe.
  const bool climbs = decoded == ".." || decoded.rfind("../", 0) == 0 ||
                      decoded.find("/../") != std::string::npos || decoded.rfind('/', 0) == 0;
  if (climbs) require(!unsafe_bag_path(decoded).empty());
}

void read_lines(const std::string& text, const BagVersion& version) {
  for (const std::string& line : bag_lines(text)) {
    require(line.find_first_of("\r\n") == std::string::npos);
    if (const auto listed = read_manifest_line(line, version)) {
      require(!listed->digest.empty() && !listed->path.empty());
      require(std::none_of(listed->digest.begin(), listed->digest.end(),
                           [](char c) { return c >= 'A' && c <= 'Z'; }));
      read_paths(listed->path);
    }
    if (const auto fetched = read_fetch_line(line)) read_paths(fetched->path);
  }
  std::vector<std::size_t> bad;
  const auto info = read_bag_info(text, version, bad);
  require(info.size() + bad.size() <= bag_lines(text).size());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  std::string fault;
  const BagDeclaration declared = read_declaration(text, fault);
  require(declared.version.has_value() || !fault.empty());
  for (const BagVersion version : {BagVersion{0, 93}, BagVersion{0, 97}, BagVersion{1, 0}})
    read_lines(text, version);
  return 0;
}
