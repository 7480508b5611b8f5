#include "tests/faults/replay.hpp"

#include <algorithm>

#include "tests/support/support.hpp"

namespace lathbook::test {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kSector = 512;

// Part of a write as a disk may leave it: nothing, all of it, or whole sectors at its beginning or end.
std::optional<DiskEvent> part_of(const DiskEvent& event, std::mt19937& random) {
  const auto dice = random() % 4;
  if (dice == 0) return std::nullopt;
  if (dice == 1 || event.kind != DiskEvent::Kind::write || event.bytes.size() <= kSector) return event;
  const auto sectors = event.bytes.size() / kSector;
  const auto cut = kSector * (1 + random() % sectors);
  DiskEvent torn = event;
  if (dice == 2) {
    torn.bytes = event.bytes.substr(0, cut);
  } else {
    torn.bytes = event.bytes.substr(std::min(cut, event.bytes.size() - 1));
    torn.offset += static_cast<std::int64_t>(event.bytes.size() - torn.bytes.size());
  }
  return torn;
}

}  // namespace

Replay::Replay(const fs::path& base, const fs::path& folder, const std::vector<DiskEvent>& log)
    : root_(folder), log_(log) {
  folders_.insert(folder.string());
  for (const auto& entry : fs::recursive_directory_iterator(base)) {
    const auto path = (folder / fs::relative(entry.path(), base)).string();
    if (entry.is_directory()) {
      folders_.insert(path);
    } else {
      files_[path].safe = read_file(entry.path());
    }
  }
}

void Replay::apply(std::optional<std::string>& bytes, const DiskEvent& event) {
  if (event.kind == DiskEvent::Kind::remove) {
    bytes.reset();
    return;
  }
  if (!bytes) bytes = std::string();
  const auto at = static_cast<std::size_t>(event.offset);
  if (event.kind == DiskEvent::Kind::truncate) {
    bytes->resize(at);
    return;
  }
  if (bytes->size() < at + event.bytes.size()) bytes->resize(at + event.bytes.size());
  bytes->replace(at, event.bytes.size(), event.bytes);
}

void Replay::apply_name(Files& files, std::set<std::string>& folders, const DiskEvent& event) {
  if (event.kind == DiskEvent::Kind::make_folder) {
    folders.insert(event.path);
    return;
  }
  const auto found = files.find(event.path);
  if (found == files.end()) return;
  files[event.to] = found->second;
  files.erase(event.path);
}

void Replay::settle_names(const std::string& folder) {
  std::vector<const DiskEvent*> still;
  for (const auto* event : waiting_names_) {
    if (fs::path(event->path).parent_path() == folder) {
      apply_name(files_, folders_, *event);
    } else {
      still.push_back(event);
    }
  }
  waiting_names_ = std::move(still);
  for (auto& [path, file] : files_) {
    if (fs::path(path).parent_path() != folder) continue;
    const auto is_removal = [](const DiskEvent* event) { return event->kind == DiskEvent::Kind::remove; };
    const auto last = std::find_if(file.waiting.rbegin(), file.waiting.rend(), is_removal);
    if (last == file.waiting.rend()) continue;
    file.safe.reset();
    file.waiting.erase(file.waiting.begin(), last.base());
  }
}

bool Replay::step() {
  if (position_ == log_.size()) return false;
  const auto& event = log_[position_++];
  settled_ = false;
  switch (event.kind) {
    case DiskEvent::Kind::write:
    case DiskEvent::Kind::remove:
    case DiskEvent::Kind::truncate:
      files_[event.path].waiting.push_back(&event);
      break;
    case DiskEvent::Kind::sync: {
      auto& file = files_[event.path];
      for (const auto* one : file.waiting) apply(file.safe, *one);
      settled_ = !file.waiting.empty();
      file.waiting.clear();
      break;
    }
    case DiskEvent::Kind::sync_folder:
      settle_names(event.path);
      settled_ = true;
      break;
    default:
      waiting_names_.push_back(&event);
  }
  return true;
}

void Replay::survive(File& file, Unsynced unsynced, std::mt19937& random) {
  for (const auto* event : file.waiting) {
    if (unsynced == Unsynced::kept) {
      apply(file.safe, *event);
    } else if (const auto part = part_of(*event, random)) {
      apply(file.safe, *part);
    } else if (event->kind == DiskEvent::Kind::remove) {
      return;  // the old file is still there, and what was written since went to another one
    }
  }
}

void Replay::lay_out(const fs::path& folder, Unsynced unsynced, std::mt19937& random) const {
  Files files = files_;
  auto folders = folders_;
  for (auto& [path, file] : files) {
    if (unsynced != Unsynced::lost) survive(file, unsynced, random);
  }
  for (const auto* event : waiting_names_) {
    if (unsynced == Unsynced::kept || (unsynced == Unsynced::some && random() % 2 == 0)) {
      apply_name(files, folders, *event);
    }
  }
  fs::remove_all(folder);
  for (const auto& one : folders) fs::create_directories(folder / fs::path(one).lexically_relative(root_));
  for (const auto& [path, file] : files) {
    const fs::path to = folder / fs::path(path).lexically_relative(root_);
    // A file in a folder whose own name was never synced is lost with it.
    if (file.safe && fs::is_directory(to.parent_path())) write_file(to, *file.safe);
  }
}

}  // namespace lathbook::test
