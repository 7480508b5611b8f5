#include "tests/faults/faulty_disk.hpp"

#include <sqlite3.h>

#include <cstring>
#include <new>

#include "core/base/paths.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

namespace {

// Files of the archive have whole paths; what SQLite keeps for itself while it works has none.
bool is_kept(const char* name) {
  return name != nullptr && *name == '/';
}

// SQLite allots this and, right behind it, what the real file system needs for its own file.
struct LoggedFile {
  sqlite3_file base;
  FaultyDisk* disk;
  std::string* path;  ///< null for files that are not logged
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

LoggedFile* logged(sqlite3_file* file) {
  return reinterpret_cast<LoggedFile*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
  return logged(file)->real();
}
FaultyDisk* disk_of(sqlite3_vfs* vfs) {
  return static_cast<FaultyDisk*>(vfs->pAppData);
}
sqlite3_vfs* real_vfs() {
  return sqlite3_vfs_find("unix");
}

int close_file(sqlite3_file* file) {
  const int result = real(file)->pMethods->xClose(real(file));
  delete logged(file)->path;
  logged(file)->path = nullptr;
  return result;
}

int read(sqlite3_file* file, void* into, int size, sqlite3_int64 at) {
  return real(file)->pMethods->xRead(real(file), into, size, at);
}

int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
  auto* mine = logged(file);
  if (mine->path != nullptr) {
    if (mine->disk->refuse_write()) return SQLITE_FULL;
    mine->disk->note({DiskEvent::Kind::write,
                      *mine->path,
                      at,
                      std::string(static_cast<const char*>(from), static_cast<std::size_t>(size)),
                      {}});
  }
  return mine->real()->pMethods->xWrite(mine->real(), from, size, at);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  auto* mine = logged(file);
  if (mine->path != nullptr) mine->disk->note({DiskEvent::Kind::truncate, *mine->path, size, {}, {}});
  return mine->real()->pMethods->xTruncate(mine->real(), size);
}

int sync(sqlite3_file* file, int flags) {
  auto* mine = logged(file);
  if (mine->path != nullptr) mine->disk->note({DiskEvent::Kind::sync, *mine->path, 0, {}, {}});
  return mine->disk->syncing ? mine->real()->pMethods->xSync(mine->real(), flags) : SQLITE_OK;
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
  return real(file)->pMethods->xFileSize(real(file), size);
}
int lock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xLock(real(file), level);
}
int unlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int check_lock(sqlite3_file* file, int* held) {
  return real(file)->pMethods->xCheckReservedLock(real(file), held);
}
int control(sqlite3_file* file, int what, void* with) {
  return real(file)->pMethods->xFileControl(real(file), what, with);
}
int sector_size(sqlite3_file* file) {
  return real(file)->pMethods->xSectorSize(real(file));
}
int characteristics(sqlite3_file* file) {
  return real(file)->pMethods->xDeviceCharacteristics(real(file));
}
int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** at) {
  return real(file)->pMethods->xShmMap(real(file), page, size, extend, at);
}
int shm_lock(sqlite3_file* file, int offset, int count, int flags) {
  return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}
void shm_barrier(sqlite3_file* file) {
  real(file)->pMethods->xShmBarrier(real(file));
}
int shm_unmap(sqlite3_file* file, int remove) {
  return real(file)->pMethods->xShmUnmap(real(file), remove);
}

// Version 2: shared memory for the write-ahead file, no mapped reading.
const sqlite3_io_methods kMethods{
    2,         close_file, read,    write,       truncate,        sync,    file_size, lock,
    unlock,    check_lock, control, sector_size, characteristics, shm_map, shm_lock,  shm_barrier,
    shm_unmap, nullptr,    nullptr};

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* given) {
  auto* mine = new (file) LoggedFile{};
  mine->disk = disk_of(vfs);
  const int result = real_vfs()->xOpen(real_vfs(), name, mine->real(), flags, given);
  if (mine->real()->pMethods == nullptr) return result;
  constexpr int kKept = SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL;
  if (is_kept(name) && (flags & kKept) != 0) mine->path = new std::string(name);
  mine->base.pMethods = &kMethods;
  return result;
}

int remove_file(sqlite3_vfs* vfs, const char* name, int sync_folder) {
  const int result = real_vfs()->xDelete(real_vfs(), name, sync_folder);
  auto* disk = disk_of(vfs);
  if (result == SQLITE_OK && is_kept(name)) {
    disk->note({DiskEvent::Kind::remove, name, 0, {}, {}});
    if (sync_folder != 0) {
      disk->note(
          {DiskEvent::Kind::sync_folder, std::filesystem::path(name).parent_path().string(), 0, {}, {}});
    }
  }
  return result;
}

int access(sqlite3_vfs*, const char* name, int flags, int* result) {
  return real_vfs()->xAccess(real_vfs(), name, flags, result);
}
int full_path(sqlite3_vfs*, const char* name, int size, char* into) {
  return real_vfs()->xFullPathname(real_vfs(), name, size, into);
}
int randomness(sqlite3_vfs*, int size, char* into) {
  return real_vfs()->xRandomness(real_vfs(), size, into);
}
int wait_a_while(sqlite3_vfs*, int microseconds) {
  return real_vfs()->xSleep(real_vfs(), microseconds);
}
int now(sqlite3_vfs*, double* time) {
  return real_vfs()->xCurrentTime(real_vfs(), time);
}
int last_error(sqlite3_vfs*, int size, char* into) {
  return real_vfs()->xGetLastError(real_vfs(), size, into);
}

class LoggedMedia : public MediaDisk {
public:
  explicit LoggedMedia(FaultyDisk& disk) : disk_(disk) {}

  void make_folder(const std::filesystem::path& folder) override {
    if (std::filesystem::exists(folder)) return;
    refuse_if_full();
    MediaDisk::make_folder(folder);
    disk_.note({DiskEvent::Kind::make_folder, folder.string(), 0, {}, {}});
  }
  void copy(const std::filesystem::path& from, const std::filesystem::path& to) override {
    const auto bytes = read_file(from);
    if (disk_.refuse_write()) {
      write_file(to, bytes.substr(0, bytes.size() / 2));  // a full disk takes what it can
      full();
    }
    write_file(to, bytes);
    disk_.note({DiskEvent::Kind::truncate, to.string(), 0, {}, {}});
    disk_.note({DiskEvent::Kind::write, to.string(), 0, bytes, {}});
    disk_.note({DiskEvent::Kind::sync, to.string(), 0, {}, {}});
  }
  void rename(const std::filesystem::path& from, const std::filesystem::path& to) override {
    refuse_if_full();
    MediaDisk::rename(from, to);
    disk_.note({DiskEvent::Kind::rename, from.string(), 0, {}, to.string()});
  }
  void sync_folder(const std::filesystem::path& folder) override {
    disk_.note({DiskEvent::Kind::sync_folder, folder.string(), 0, {}, {}});
  }
  void remove(const std::filesystem::path& file) override {
    MediaDisk::remove(file);
    disk_.note({DiskEvent::Kind::remove, file.string(), 0, {}, {}});
  }

private:
  void refuse_if_full() {
    if (disk_.refuse_write()) full();
  }
  [[noreturn]] static void full() {
    fail(ErrorKind::io, "the disk is full; a file could not be copied into the archive");
  }

  FaultyDisk& disk_;
};

}  // namespace

FaultyDisk::FaultyDisk() : vfs_(std::make_unique<sqlite3_vfs>()) {
  sqlite3_initialize();
  static int made = 0;
  name_ = "lathbook-faulty-" + std::to_string(++made);
  const auto* below = real_vfs();
  *vfs_ = {};
  vfs_->iVersion = 1;
  vfs_->szOsFile = static_cast<int>(sizeof(LoggedFile)) + below->szOsFile;
  vfs_->mxPathname = below->mxPathname;
  vfs_->zName = name_.c_str();
  vfs_->pAppData = this;
  vfs_->xOpen = open_file;
  vfs_->xDelete = remove_file;
  vfs_->xAccess = access;
  vfs_->xFullPathname = full_path;
  vfs_->xRandomness = randomness;
  vfs_->xSleep = wait_a_while;
  vfs_->xCurrentTime = now;
  vfs_->xGetLastError = last_error;
  sqlite3_vfs_register(vfs_.get(), 0);
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(vfs_.get());
}

std::shared_ptr<MediaDisk> FaultyDisk::media_disk() {
  return std::make_shared<LoggedMedia>(*this);
}

void FaultyDisk::run_full_at(std::uint64_t nth, bool for_good) {
  until_full_ = nth;
  for_good_ = for_good;
  full_ = false;
  refusals_ = 0;
}

void FaultyDisk::make_room() {
  until_full_ = 0;
  full_ = false;
}

bool FaultyDisk::refuse_write() {
  bool refused = full_;
  if (until_full_ != 0 && --until_full_ == 0) {
    refused = true;
    full_ = for_good_;
  }
  if (refused) ++refusals_;
  return refused;
}

void FaultyDisk::note(DiskEvent event) {
  if (logging) log.push_back(std::move(event));
}

}  // namespace lathbook::test
