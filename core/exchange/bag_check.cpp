// What lies in a bag, and what its tag files say.
#include "core/exchange/bag_check.hpp"

#include <algorithm>

#include "core/base/charset.hpp"
#include "core/base/digest.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace fs = std::filesystem;

namespace {

constexpr std::uint64_t kMostTagFile = std::uint64_t{512} << 20U;

bool is_payload(const std::string& path) {
  return path.rfind("data/", 0) == 0;
}

/// The algorithm in "manifest-sha512.txt"; empty for other names.
std::string algorithm_in(const std::string& file, std::string_view stem) {
  constexpr std::string_view kEnd = ".txt";
  if (file.size() <= stem.size() + kEnd.size() || file.rfind(stem, 0) != 0) return {};
  if (file.substr(file.size() - kEnd.size()) != kEnd) return {};
  return file.substr(stem.size(), file.size() - stem.size() - kEnd.size());
}

}  // namespace

void BagCheck::fault(const std::string& code, const std::string& place, const std::string& text) {
  verdict_.findings.push_back({Severity::fault, "bag." + code, text, safe_display(place)});
}
void BagCheck::warn(const std::string& code, const std::string& place, const std::string& text) {
  verdict_.findings.push_back({Severity::warning, "bag." + code, text, safe_display(place)});
}
void BagCheck::strict(const std::string& code, const std::string& place, const std::string& text) {
  version_.is_final() ? fault(code, place, text) : warn(code, place, text);
}

BagVerdict BagCheck::run() {
  walk();
  if (!declaration()) return verdict_;
  manifests();
  fetch();
  info();
  compare_payload();
  compare_tags();
  digest_all();
  alike_names();
  oxum();
  return verdict_;
}

/// Every regular file; a link is a way out of the bag and is not followed.
void BagCheck::walk() {
  std::error_code error;
  if (!fs::is_directory(folder_, error))
    fail(ErrorKind::not_found, "there is no folder " + quote(folder_.string()));
  for (fs::recursive_directory_iterator entry(folder_, error), end; !error && entry != end;
       entry.increment(error)) {
    const std::string path = entry->path().lexically_relative(folder_).generic_string();
    const auto status = entry->symlink_status();
    if (fs::is_symlink(status)) {
      fault("link", path, "a symbolic link has no place in a bag");
    } else if (fs::is_regular_file(status)) {
      files_.emplace(path, entry->file_size());
      composed_.emplace(nfc(path), path);
      if (!is_payload(path)) continue;
      ++verdict_.files;
      verdict_.bytes += files_[path];
    } else if (!fs::is_directory(status)) {
      fault("file", path, "this is neither a file nor a folder");
    }
  }
  if (error)
    fail(ErrorKind::io, "the folder " + quote(folder_.string()) + " cannot be read: " + error.message());
}

bool BagCheck::declaration() {
  if (files_.count("bagit.txt") == 0) {
    fault("declaration", "bagit.txt", "there is no bagit.txt, so this is no bag");
    return false;
  }
  std::string why;
  const auto read = read_declaration(read_whole_file(folder_ / "bagit.txt", 65536), why);
  verdict_.version = read.version_text;
  if (!why.empty()) fault("declaration", "bagit.txt", why);
  if (!read.version || read.encoding.empty()) return false;
  version_ = *read.version;
  encoding_ = read.encoding;
  const bool draft = version_.major == 0 && version_.minor >= 93 && version_.minor <= 97;
  if (!draft && !(version_.major == 1 && version_.minor == 0)) {
    fault("version", "bagit.txt",
          "the version " + read.version_text + " is not one of 0.93 to 0.97 and 1.0, which are known here");
    return false;
  }
  if (knows_encoding(encoding_)) return true;
  fault("encoding", "bagit.txt", "the encoding " + quote(encoding_) + " is not known here");
  return false;
}

std::string BagCheck::tag_text(const std::string& file) {
  const auto text = to_utf8(read_whole_file(folder_ / file, kMostTagFile), encoding_);
  if (text) return *text;
  fault("encoding", file, "the file is not in the encoding " + encoding_ + " that bagit.txt declares");
  return {};
}

void BagCheck::manifests() {
  for (const auto& [path, size] : files_) {
    if (path.find('/') != std::string::npos) continue;
    // The stem of a payload manifest ends that of a tag manifest, so the longer is tried first.
    if (const auto algorithm = algorithm_in(path, "tagmanifest-"); !algorithm.empty()) {
      tags_.push_back(read_manifest(path, algorithm, false));
    } else if (const auto other = algorithm_in(path, "manifest-"); !other.empty()) {
      payload_.push_back(read_manifest(path, other, true));
    }
  }
  if (payload_.empty()) fault("manifest", "", "there is no payload manifest (manifest-ALGORITHM.txt)");
  std::error_code ignored;
  if (!fs::is_directory(folder_ / "data", ignored)) fault("payload", "data", "there is no folder data");
}

BagManifest BagCheck::read_manifest(const std::string& file, const std::string& algorithm, bool payload) {
  BagManifest manifest{file, to_lower_ascii(algorithm), false, {}};
  if (manifest.algorithm != algorithm)
    strict("manifest", file, "the name of an algorithm is in small letters");
  manifest.known = NamedHash::knows(manifest.algorithm);
  if (!manifest.known)
    fault("algorithm", file,
          "digests of " + quote(algorithm) +
              " cannot be computed here, so nothing vouches for "
              "its files");
  const auto lines = bag_lines(tag_text(file));
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (!trim(lines[i]).empty()) manifest_line(manifest, lines[i], i + 1, payload);
  return manifest;
}

void BagCheck::manifest_line(BagManifest& manifest, const std::string& line, std::size_t number,
                             bool payload) {
  const std::string place = manifest.file + ":" + std::to_string(number);
  const auto read = read_manifest_line(line, version_);
  if (!read) return fault("line", place, "the line is not a digest, blanks and a path: " + quote(line));
  if (const auto why = unsafe_bag_path(read->path); !why.empty())
    return fault("path", place, "the path " + quote(read->path) + " " + why);
  if (is_payload(read->path) != payload)
    return fault("path", place,
                 payload ? "the path " + quote(read->path) + " is not under data/"
                         : "a tag manifest must not list the payload file " + quote(read->path));
  if (!payload && !algorithm_in(read->path, "tagmanifest-").empty())
    strict("path", place, "a tag manifest must not list a tag manifest");
  if (read->starred) strict("line", place, "a '*' before the path, as md5sum writes it");
  if (read->dotted) warn("line", place, "the path begins with './', which says nothing");
  if (read->odd_percent)
    warn("line", place, "a '%' that is neither %0A, %0D nor %25 stands for itself; it should be written %25");
  const std::string path = on_disk(read->path, place);
  const auto [known, is_new] = manifest.digests.emplace(path, read->digest);
  if (is_new) return;
  const std::string words = "the file " + quote(path) + " is listed a second time";
  if (known->second != read->digest) {
    fault("twice", place, words + ", with another digest");
  } else {
    strict("twice", place, words);
  }
}

void BagCheck::info() {
  const bool old = version_.major == 0 && version_.minor <= 95;
  const std::string file = old && files_.count("package-info.txt") != 0 ? "package-info.txt" : "bag-info.txt";
  if (files_.count(file) == 0) return;
  std::vector<std::size_t> bad;
  const auto pairs = read_bag_info(tag_text(file), version_, bad);
  for (const std::size_t line : bad)
    strict("info", file + ":" + std::to_string(line), "the line is not 'Label: value'");
  for (const auto& [label, value] : pairs)
    if (to_lower_ascii(label) == "payload-oxum") oxums_.push_back(value);
}

/// Nothing is fetched: what is not there makes the bag incomplete.
void BagCheck::fetch() {
  if (files_.count("fetch.txt") == 0) return;
  const auto lines = bag_lines(tag_text("fetch.txt"));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (trim(lines[i]).empty()) continue;
    const std::string place = "fetch.txt:" + std::to_string(i + 1);
    const auto read = read_fetch_line(lines[i]);
    if (!read) {
      fault("fetch", place, "the line is not an address, a length and a path: " + quote(lines[i]));
      continue;
    }
    bool odd = false;
    std::string path = version_.is_final() ? decode_bag_path(read->path, odd) : read->path;
    if (path.rfind("./", 0) == 0) path = path.substr(2);
    const auto why = unsafe_bag_path(path);
    if (!why.empty()) {
      fault("path", place, "the path " + quote(path) + " " + why);
    } else if (!is_payload(path)) {
      fault("path", place, "the path " + quote(path) + " is not under data/");
    } else {
      to_fetch_.insert(on_disk(path, place));
    }
  }
}

BagVerdict verify_bag(const fs::path& folder) {
  return BagCheck(folder).run();
}

bool is_bag(const fs::path& folder) {
  std::error_code ignored;
  return fs::is_directory(folder, ignored) && fs::is_regular_file(folder / "bagit.txt", ignored);
}

}  // namespace lathbook
