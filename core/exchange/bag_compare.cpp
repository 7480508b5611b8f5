// Manifests against the files that lie there.
#include <algorithm>
#include <fstream>

#include "core/base/digest.hpp"
#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/exchange/bag_check.hpp"

namespace lathbook {

namespace {

std::string last_part(const std::string& path) {
  return path.substr(path.rfind('/') + 1);
}

}  // namespace

std::string BagCheck::on_disk(const std::string& path, const std::string& place) {
  if (files_.count(path) != 0) return path;
  const auto found = composed_.find(nfc(path));
  if (found == composed_.end()) return path;
  warn("normal-form", place,
       "the name of " + quote(found->second) +
           " is listed in another normal form of Unicode than it has on the disk");
  return found->second;
}

void BagCheck::compare_payload() {
  for (const auto& manifest : payload_) {
    for (const auto& [path, digest] : manifest.digests) {
      if (files_.count(path) != 0) continue;
      if (to_fetch_.count(path) != 0) {
        fault("missing", path,
              "the file is to be fetched from elsewhere and is not here; nothing is fetched");
      } else {
        fault("missing", path, "the file is listed in " + manifest.file + " and is not there");
      }
    }
  }
  for (const auto& path : to_fetch_) {
    const auto lacks = [&](const BagManifest& manifest) { return manifest.digests.count(path) == 0; };
    // In the drafts one manifest was enough.
    const bool untold = version_.is_final() ? std::any_of(payload_.begin(), payload_.end(), lacks)
                                            : std::all_of(payload_.begin(), payload_.end(), lacks);
    if (untold)
      fault("fetch", path, "the file is in fetch.txt and not in every payload manifest that must list it");
  }
  for (const auto& [path, size] : files_) {
    if (path.rfind("data/", 0) != 0) continue;
    std::size_t listed = 0;
    for (const auto& manifest : payload_) {
      if (manifest.digests.count(path) != 0) {
        ++listed;
      } else if (version_.is_final() && payload_.size() > 1) {
        fault("unlisted", path,
              "the file is not listed in " + manifest.file + ", and version 1.0 wants it in all");
      }
    }
    const bool told = version_.is_final() && payload_.size() > 1;
    if (listed == 0 && !told) fault("unlisted", path, "the file is listed in no manifest");
    const std::string name = to_lower_ascii(last_part(path));
    if (name == ".ds_store" || name == "thumbs.db" || name == "desktop.ini")
      warn("system-file", path, "a file that an operating system keeps for itself is part of the payload");
  }
}

void BagCheck::compare_tags() {
  for (const auto& manifest : tags_) {
    for (const auto& [path, digest] : manifest.digests)
      if (files_.count(path) == 0)
        fault("missing", path, "the tag file is listed in " + manifest.file + " and is not there");
    for (const auto& payload : payload_)
      if (manifest.digests.count(payload.file) == 0)
        strict("unlisted", payload.file, "the payload manifest is not listed in " + manifest.file);
  }
}

/// Each file is read once, whatever the number of manifests.
void BagCheck::digest_all() {
  Progress progress("verifying files", files_.size());
  std::string piece(std::size_t{1} << 20U, '\0');
  for (const auto& [path, size] : files_) {
    stop_if_requested("the verification");
    struct Wanted {
      const BagManifest* manifest;
      const std::string* digest;
      NamedHash hash;
    };
    std::vector<Wanted> wanted;
    for (const auto* manifests : {&payload_, &tags_}) {
      for (const auto& manifest : *manifests) {
        const auto found = manifest.digests.find(path);
        if (found != manifest.digests.end() && manifest.known)
          wanted.push_back({&manifest, &found->second, NamedHash(manifest.algorithm)});
      }
    }
    progress.tick();
    if (wanted.empty()) continue;
    std::ifstream in(folder_ / path, std::ios::binary);
    if (!in) {
      fault("unreadable", path, "the file cannot be opened");
      continue;
    }
    while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())), in.gcount() > 0)
      for (auto& one : wanted) one.hash.add({piece.data(), static_cast<std::size_t>(in.gcount())});
    if (in.bad()) fault("unreadable", path, "the file cannot be read to its end");
    for (auto& one : wanted)
      if (one.hash.finish() != *one.digest)
        fault("digest", path, "the bytes do not fit the digest in " + one.manifest->file);
  }
}

/// Names that a disk of another kind would take for one.
void BagCheck::alike_names() {
  std::map<std::string, std::string> folded;
  std::set<std::string> names;
  for (const auto& manifest : payload_)
    for (const auto& [path, digest] : manifest.digests) names.insert(path);
  for (const auto& [path, size] : files_) names.insert(path);
  for (const auto& path : names) {
    const auto [other, is_new] = folded.emplace(fold(path), path);
    if (is_new) continue;
    // The key folds more than letters; only case and normal form are meant.
    if (to_lower_ascii(nfc(other->second)) == to_lower_ascii(nfc(path)))
      warn("alike", path,
           "the name differs from " + quote(other->second) + " only in capitals or normal form");
  }
}

void BagCheck::oxum() {
  if (oxums_.size() > 1) strict("oxum", "bag-info.txt", "Payload-Oxum is given more than once");
  if (oxums_.empty()) return;
  const std::string counted = std::to_string(verdict_.bytes) + "." + std::to_string(verdict_.files);
  if (oxums_.front() != counted)
    fault("oxum", "bag-info.txt",
          "Payload-Oxum says " + quote(oxums_.front()) + " and the payload has " + counted +
              " (bytes and files)");
}

}  // namespace lathbook
