#include "core/storage/media_store.hpp"

#include <atomic>
#include <mutex>
#include <thread>

#include "core/base/digest.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/storage/layout.hpp"

namespace lathbook {

namespace fs = std::filesystem;

namespace {

void require(const std::error_code& failed, const std::string& doing, const fs::path& path) {
  if (failed) fail(ErrorKind::io, "cannot " + doing + " " + quote(path.string()) + ": " + failed.message());
}

}  // namespace

MediaDisk::~MediaDisk() = default;

void MediaDisk::make_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  require(failed, "make the folder", folder);
}

void MediaDisk::copy(const fs::path& from, const fs::path& to) {
  std::error_code failed;
  fs::copy_file(from, to, fs::copy_options::overwrite_existing, failed);
  require(failed, "copy into the archive", from);
  sync_file(to);
}

void MediaDisk::rename(const fs::path& from, const fs::path& to) {
  std::error_code failed;
  fs::rename(from, to, failed);
  require(failed, "put in place", to);
}

void MediaDisk::sync_folder(const fs::path& folder) {
  lathbook::sync_folder(folder);
}

void MediaDisk::remove(const fs::path& file) {
  std::error_code failed;
  fs::remove(file, failed);
  require(failed, "remove", file);
}

MediaStore::MediaStore(fs::path archive, std::shared_ptr<MediaDisk> disk)
    : archive_(std::move(archive)), disk_(disk ? std::move(disk) : std::make_shared<MediaDisk>()) {}

MediaFile MediaStore::add(const fs::path& file) {
  std::error_code failed;
  if (!fs::exists(file, failed)) fail(ErrorKind::not_found, "there is no file " + quote(file.string()));
  if (!fs::is_regular_file(file, failed)) {
    fail(ErrorKind::invalid, quote(file.string()) + " is not a file that can be kept; name a single file");
  }
  const Digest digest = sha256_file(file);
  const fs::path to = layout::medium(archive_, digest);
  if (!fs::exists(to, failed)) {
    disk_->make_folder(to.parent_path());
    fs::path half = to;
    half += ".half";
    disk_->copy(file, half);
    if (sha256_file(half) != digest) {
      disk_->remove(half);
      fail(ErrorKind::io, quote(file.string()) + " changed while it was copied; try again");
    }
    disk_->rename(half, to);
    disk_->sync_folder(to.parent_path());
    disk_->sync_folder(layout::media(archive_));
  }
  return find(digest);
}

bool MediaStore::holds(const Digest& digest) const {
  std::error_code failed;
  return fs::is_regular_file(layout::medium(archive_, digest), failed);
}

MediaFile MediaStore::find(const Digest& digest) const {
  const fs::path path = layout::medium(archive_, digest);
  std::error_code failed;
  const auto size = fs::file_size(path, failed);
  if (failed) fail(ErrorKind::not_found, "the archive does not hold the file with SHA-256 " + digest.hex());
  return {digest, size, path};
}

void MediaStore::remove(const Digest& digest) {
  if (!holds(digest)) return;
  const fs::path file = layout::medium(archive_, digest);
  disk_->remove(file);
  disk_->sync_folder(file.parent_path());
}

Findings MediaStore::check(const std::vector<Digest>& digests) const {
  Findings findings;
  std::mutex guard;
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < digests.size(); i = next++) {
      Finding finding{Severity::fault, "", "", digests[i].hex()};
      try {
        if (sha256_file(layout::medium(archive_, digests[i])) == digests[i]) continue;
        finding.code = "media.changed";
        finding.text = "a kept file has been changed: its bytes do not fit its name; take it from a copy";
      } catch (const Error& error) {
        finding.code = error.kind() == ErrorKind::not_found ? "media.missing" : "media.unreadable";
        finding.text =
            error.kind() == ErrorKind::not_found
                ? "a file that a source names is missing from the media folder; take it from a copy"
                : error.what();
      }
      const std::lock_guard lock(guard);
      findings.push_back(finding);
    }
  };
  std::vector<std::thread> crew;
  const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
  for (unsigned i = 1; i < cores; ++i) crew.emplace_back(work);
  work();
  for (auto& member : crew) member.join();
  std::sort(findings.begin(), findings.end(),
            [](const Finding& a, const Finding& b) { return a.place < b.place; });
  return findings;
}

}  // namespace lathbook
