// Reads the lines of tag files.
#include "core/exchange/bag_lines.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::optional<BagVersion> read_version(std::string_view text) {
  const auto dot = text.find('.');
  if (dot == std::string_view::npos || dot == 0 || dot + 1 == text.size() || text.size() > 9)
    return std::nullopt;
  BagVersion version;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == dot) continue;
    if (!is_digit(text[i])) return std::nullopt;
    int& part = i < dot ? version.major : version.minor;
    part = part * 10 + (text[i] - '0');
  }
  return version;
}

/// The value behind a label, colon and one blank; drafts were lenient about blanks.
std::optional<std::string> value_of(std::string_view line, std::string_view label, bool strict) {
  if (line.substr(0, label.size()) != label) return std::nullopt;
  line.remove_prefix(label.size());
  if (strict) {
    if (line.substr(0, 2) != ": ") return std::nullopt;
    line.remove_prefix(2);
    if (line.empty() || is_blank(line.front()) || is_blank(line.back())) return std::nullopt;
    return std::string(line);
  }
  line = trim(line);
  if (line.empty() || line.front() != ':') return std::nullopt;
  return std::string(trim(line.substr(1)));
}

}  // namespace

std::vector<std::string> bag_lines(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const auto end = text.find_first_of("\r\n");
    lines.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    const bool both = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    text.remove_prefix(end + (both ? 2 : 1));
  }
  return lines;
}

BagDeclaration read_declaration(std::string_view bytes, std::string& fault) {
  BagDeclaration declaration;
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") {
    fault = "bagit.txt begins with a byte order mark, which it must not have";
    return declaration;
  }
  if (first_invalid_utf8(bytes)) {
    fault = "bagit.txt is not UTF-8";
    return declaration;
  }
  const auto lines = bag_lines(bytes);
  if (lines.size() != 2) {
    fault = "bagit.txt has " + std::to_string(lines.size()) + (lines.size() == 1 ? " line" : " lines") +
            " and must have two: the version and the encoding";
    return declaration;
  }
  const auto lenient = value_of(lines[0], "BagIt-Version", false);
  declaration.version_text = lenient.value_or("");
  declaration.version = lenient ? read_version(*lenient) : std::nullopt;
  if (!declaration.version) {
    fault = "the first line of bagit.txt is " + quote(lines[0]) + " and not 'BagIt-Version: M.N'";
    return declaration;
  }
  const bool strict = declaration.version->is_final();
  if (strict && !value_of(lines[0], "BagIt-Version", true))
    fault = "the first line of bagit.txt has blanks where version 1.0 allows none: " + quote(lines[0]);
  const auto encoding = value_of(lines[1], "Tag-File-Character-Encoding", strict);
  if (!encoding || encoding->empty()) {
    fault = "the second line of bagit.txt is " + quote(lines[1]) +
            " and not 'Tag-File-Character-Encoding: ENCODING'";
    return declaration;
  }
  declaration.encoding = *encoding;
  return declaration;
}

std::string decode_bag_path(std::string_view path, bool& odd) {
  std::string decoded;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (path[i] != '%') {
      decoded += path[i];
      continue;
    }
    const std::string code = to_lower_ascii(path.substr(i + 1, 2));
    const char meant = code == "0a" ? '\n' : code == "0d" ? '\r' : '%';
    if (code == "0a" || code == "0d" || code == "25") {
      i += 2;
    } else {
      odd = true;
    }
    decoded += meant;
  }
  return decoded;
}

std::optional<ManifestLine> read_manifest_line(std::string_view line, const BagVersion& version) {
  const auto end = line.find_first_of(" \t");
  if (end == std::string_view::npos || end == 0) return std::nullopt;
  ManifestLine read;
  read.digest = to_lower_ascii(line.substr(0, end));
  const bool hex =
      std::all_of(read.digest.begin(), read.digest.end(), [](char c) { return hex_value(c) >= 0; });
  const auto start = line.find_first_not_of(" \t", end);
  if (!hex || start == std::string_view::npos) return std::nullopt;
  std::string_view path = line.substr(start);
  if (path.front() == '*') {
    read.starred = true;
    path.remove_prefix(1);
  }
  while (path.substr(0, 2) == "./") {
    read.dotted = true;
    path.remove_prefix(2);
  }
  if (path.empty()) return std::nullopt;
  read.path = version.is_final() ? decode_bag_path(path, read.odd_percent) : std::string(path);
  return read;
}

std::optional<FetchLine> read_fetch_line(std::string_view line) {
  const auto first = line.find_first_of(" \t");
  if (first == std::string_view::npos || first == 0) return std::nullopt;
  const auto second = line.find_first_not_of(" \t", first);
  if (second == std::string_view::npos) return std::nullopt;
  const auto third = line.find_first_of(" \t", second);
  if (third == std::string_view::npos) return std::nullopt;
  const auto path = line.find_first_not_of(" \t", third);
  if (path == std::string_view::npos) return std::nullopt;
  FetchLine read{std::string(line.substr(0, first)), std::string(line.substr(second, third - second)),
                 std::string(line.substr(path))};
  const bool length = read.length == "-" || std::all_of(read.length.begin(), read.length.end(), is_digit);
  const auto colon = read.url.find(':');
  const bool url = colon != std::string::npos && colon != 0 && is_letter(read.url.front());
  return length && url ? std::optional(read) : std::nullopt;
}

std::vector<std::pair<std::string, std::string>> read_bag_info(std::string_view text,
                                                               const BagVersion& version,
                                                               std::vector<std::size_t>& bad) {
  std::vector<std::pair<std::string, std::string>> pairs;
  const auto lines = bag_lines(text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& line = lines[i];
    if (trim(line).empty()) continue;
    if (is_blank(line.front())) {
      if (pairs.empty()) {
        bad.push_back(i + 1);
      } else {
        pairs.back().second += " " + std::string(trim(line));
      }
      continue;
    }
    const auto colon = line.find(':');
    // Version 1.0, section 2.2.2: no blank before the colon and one behind it.
    const bool strict_fault = version.is_final() && colon != std::string::npos &&
                              (is_blank(line[colon - (colon == 0 ? 0 : 1)]) ||
                               (colon + 1 < line.size() && !is_blank(line[colon + 1])));
    if (colon == std::string::npos || colon == 0 || strict_fault) {
      bad.push_back(i + 1);
    } else {
      pairs.emplace_back(trim(line.substr(0, colon)), trim(line.substr(colon + 1)));
    }
  }
  return pairs;
}

std::string unsafe_bag_path(std::string_view path) {
  if (path.empty()) return "is empty";
  if (path.find('\0') != std::string_view::npos) return "holds a NUL byte";
  if (path.front() == '/') return "begins at the root of the disk";
  if (path.front() == '~') return "leads to somebody's home folder";
  if (path.substr(0, 2) == "\\\\") return "names another machine";
  if (path.size() > 1 && path[1] == ':' && is_letter(path[0])) return "names a drive";
  for (const auto& part : split(path, '/'))
    if (part == ".." || part.find("..\\") != std::string::npos || part.find("\\..") != std::string::npos)
      return "leads out of the bag";
  return {};
}

}  // namespace lathbook
