// One verification of a bag under way: what its steps share. Internal to core/exchange.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/exchange/bag.hpp"
#include "core/exchange/bag_lines.hpp"

namespace lathbook {

/// A manifest of payload or tag files.
struct BagManifest {
  std::string file;                            ///< "manifest-sha512.txt"
  std::string algorithm;                       ///< "sha512"
  bool known = false;                          ///< whether its digests can be computed here
  std::map<std::string, std::string> digests;  ///< by path as it lies on the disk
};

class BagCheck {
public:
  explicit BagCheck(const std::filesystem::path& folder) : folder_(folder) {}
  BagVerdict run();

private:
  // bag_check.cpp: what lies there, and the tag files
  void walk();
  bool declaration();
  void manifests();
  BagManifest read_manifest(const std::string& file, const std::string& algorithm, bool payload);
  void manifest_line(BagManifest& manifest, const std::string& line, std::size_t number, bool payload);
  void info();
  void fetch();
  std::string tag_text(const std::string& file);
  // bag_compare.cpp: manifests against files
  void compare_payload();
  void compare_tags();
  void digest_all();
  void alike_names();
  void oxum();
  /// The name under which a listed file lies there: the same, or the same after canonical composition.
  std::string on_disk(const std::string& path, const std::string& place);

  void fault(const std::string& code, const std::string& place, const std::string& text);
  void warn(const std::string& code, const std::string& place, const std::string& text);
  /// A fault in version 1.0, a warning in drafts.
  void strict(const std::string& code, const std::string& place, const std::string& text);

  std::filesystem::path folder_;
  BagVerdict verdict_;
  BagVersion version_;
  std::string encoding_;
  std::map<std::string, std::uint64_t> files_;   ///< relative path and size of every regular file
  std::map<std::string, std::string> composed_;  ///< canonical composition to the name on the disk
  std::vector<BagManifest> payload_;
  std::vector<BagManifest> tags_;
  std::set<std::string> to_fetch_;
  std::vector<std::string> oxums_;
};

}  // namespace lathbook
