#include "core/storage/sweep.hpp"

#include <cstring>

#include "core/base/error.hpp"
#include "core/storage/check.hpp"

namespace lathbook {

namespace {

std::string noted(const Database& database) {
  auto query = database.prepare("SELECT value FROM meta WHERE key = 'sweep'");
  return query.step() ? query.text(0) : std::string();
}

void remove_files(const Database& database, MediaStore& media, const std::string& packed) {
  const auto named = named_media(database);  // one may have been taken in again since
  Digest digest;
  for (std::size_t at = 0; at + digest.bytes.size() <= packed.size(); at += digest.bytes.size()) {
    std::memcpy(digest.bytes.data(), packed.data() + at, digest.bytes.size());
    if (named.count(digest) == 0) media.remove(digest);
  }
}

}  // namespace

void note_sweep(const Database& database, const std::vector<Digest>& files) {
  std::string packed = noted(database);
  for (const auto& file : files)
    packed.append(reinterpret_cast<const char*>(file.bytes.data()), file.bytes.size());
  database
      .prepare("INSERT INTO meta(key, value) VALUES('sweep', ?1) ON CONFLICT(key) DO UPDATE SET value = ?1")
      .bind_blob(1, packed)
      .run();
}

bool sweep_is_due(const Database& database) {
  return database.number("SELECT count(*) FROM meta WHERE key = 'sweep'") != 0;
}

void sweep(const Database& database, MediaStore& media) {
  if (!sweep_is_due(database)) return;
  try {
    remove_files(database, media, noted(database));
    database.execute("VACUUM");
    database.truncate_wal();
    database.execute("DELETE FROM meta WHERE key = 'sweep'");
    database.truncate_wal();
  } catch (const Error& error) {
    const bool held = error.kind() == ErrorKind::denied;
    fail(error.kind(),
         std::string("the words are destroyed, but their traces on the disk could not be wiped: ") +
             (held ? "another program is using the archive" : "the disk is full or refuses") +
             "; they are wiped when the archive is next written to");
  }
}

}  // namespace lathbook
