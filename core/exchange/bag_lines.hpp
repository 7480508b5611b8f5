// The lines of a bag's tag files, read as its version wants. Internal to core/exchange.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// Lines parted by LF, CR or CR LF; the last end is optional.
LATHBOOK_API std::vector<std::string> bag_lines(std::string_view text);

struct BagVersion {
  int major = 0;
  int minor = 0;
  bool is_final() const { return major >= 1; }  ///< 1.0: the RFC, stricter than the drafts
};

/// The two lines of bagit.txt. `fault` gets a sentence when it is no declaration.
struct BagDeclaration {
  std::optional<BagVersion> version;
  std::string version_text;
  std::string encoding;
};
LATHBOOK_API BagDeclaration read_declaration(std::string_view bytes, std::string& fault);

struct ManifestLine {
  std::string digest;  ///< lower-case
  std::string path;    ///< as it names a file: decoded in version 1.0, './' and '*' taken off
  bool starred = false;
  bool dotted = false;
  bool odd_percent = false;  ///< a '%' that stands for nothing in version 1.0
};
/// Nothing when the line is not `digest blanks path`.
LATHBOOK_API std::optional<ManifestLine> read_manifest_line(std::string_view line, const BagVersion& version);

/// %0A, %0D and %25 (RFC 8493, section 2.1.3) as the characters they stand for; `odd` when another '%' is
/// there.
LATHBOOK_API std::string decode_bag_path(std::string_view path, bool& odd);

struct FetchLine {
  std::string url, length, path;
};
LATHBOOK_API std::optional<FetchLine> read_fetch_line(std::string_view line);

/// Labels and values of bag-info.txt, continuation lines joined. Numbers of lines that are neither go to
/// `bad`.
LATHBOOK_API std::vector<std::pair<std::string, std::string>> read_bag_info(std::string_view text,
                                                                            const BagVersion& version,
                                                                            std::vector<std::size_t>& bad);

/// Why a path may not be looked at, in words that follow it; empty when it is safe.
LATHBOOK_API std::string unsafe_bag_path(std::string_view path);

}  // namespace lathbook
