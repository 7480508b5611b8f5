// The disk runs full at the nth write, for every n: one sentence, a sound archive, nothing half-written.
#include <catch2/catch.hpp>
#include <iostream>

#include "tests/faults/faulty_disk.hpp"
#include "tests/faults/script.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace fs = std::filesystem;

namespace {

class House {
public:
  House() {
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
    disk.logging = false;
    disk.syncing = false;
    write_file(folder / "photo.png", std::string(20'000, 'p'));
    const auto archive = make();
    const auto writer = archive->write();
    source = writer->make_record(Kind::source, "S-1", std::nullopt);
    writer->add(about(source, "title", "Site book"));
    secret = writer->add(about(source, "note", kSecretWord));
    kept = writer->add(about(source, "media", writer->add_media(folder / "photo.png").digest.hex()));
    writer->commit();
  }

  std::unique_ptr<Archive> open(const fs::path& path) {
    return std::make_unique<Archive>(
        path, clock, OpenOptions{.write = true, .vfs = disk.vfs(), .media_disk = disk.media_disk()});
  }
  fs::path fresh() {
    fs::remove_all(folder / "copy");
    fs::copy(folder / "base", folder / "copy", fs::copy_options::recursive);
    return folder / "copy";
  }

  TempFolder folder;
  FaultyDisk disk;
  FixedClock clock{Moment{1'700'000'000, 60}};
  Uuid source;
  Digest secret;
  Digest kept;

private:
  std::unique_ptr<Archive> make() {
    Archive::create(folder / "base");
    return open(folder / "base");
  }
};

// Tries the work with the disk full at the first write, the second, the third, until it is done without.
std::uint64_t try_all(House& house, const std::string& name, bool for_good,
                      const std::function<void(Archive&)>& work) {
  for (std::uint64_t n = 1;; ++n) {
    const auto path = house.fresh();
    INFO(name << ", disk full at write " << n << (for_good ? " and from then on" : " only"));
    bool refused = false;
    std::set<Digest> before;
    {
      const auto archive = house.open(path);
      before = ids_of(*archive);
      house.disk.run_full_at(n, for_good);
      try {
        work(*archive);
      } catch (const Error& error) {
        refused = true;
        const std::string words = error.what();
        CHECK(error.kind() == ErrorKind::io);
        CHECK_THAT(words, Catch::Contains("disk is full"));
        CHECK(words.find('\n') == std::string::npos);
      }
    }
    const bool hit = house.disk.refusals() != 0;
    house.disk.make_room();
    const auto archive = house.open(path);
    CHECK(faults_of(archive->check({}, true)) == "");
    const auto after = ids_of(*archive);
    if (refused) {
      CHECK(after == before);
      work(*archive);  // with room again the same work goes through
      CHECK(faults_of(archive->check({}, true)) == "");
    }
    CHECK(ids_of(*archive).size() > before.size());
    if (!hit) return n;
    REQUIRE(n < 1000);
  }
}

void try_both(House& house, const std::string& name, const std::function<void(Archive&)>& work) {
  const auto once = try_all(house, name, false, work);
  const auto for_good = try_all(house, name, true, work);
  CHECK(once > 5);
  CHECK(for_good > 5);
  std::cout << name << ": disk full at each of " << once - 1 << " and of " << for_good - 1 << " writes\n";
}

}  // namespace

TEST_CASE("a disk that runs full leaves a sound archive", "[slow]") {
  House house;
  try_both(house, "a single statement", [&](Archive& archive) {
    const auto writer = archive.write();
    writer->add(about(house.source, "note", "a remark"));
    writer->commit();
  });
  try_both(house, "a photograph", [&](Archive& archive) {
    write_file(house.folder / "new.png", std::string(30'000, 'n'));
    const auto writer = archive.write();
    writer->add(about(house.source, "media", writer->add_media(house.folder / "new.png").digest.hex()));
    writer->commit();
  });
  const auto sheets = write_sheets(house.folder / "sheets", "X", 12);
  try_both(house, "an import of sheets", [&](Archive& archive) { import(archive, sheets); });
}

TEST_CASE("expunging on a full disk destroys the words or leaves them, and says which", "[slow]") {
  House house;
  for (std::uint64_t n = 1;; ++n) {
    const auto path = house.fresh();
    INFO("disk full at write " << n << " and from then on");
    std::string words;
    {
      const auto archive = house.open(path);
      house.disk.run_full_at(n, true);
      try {
        const auto writer = archive->write();
        writer->expunge({house.secret}, "asked for", std::nullopt);
        writer->commit();
      } catch (const Error& error) {
        words = error.what();
      }
    }
    const bool hit = house.disk.refusals() != 0;
    house.disk.make_room();
    const auto archive = house.open(path);
    CHECK(faults_of(archive->check({}, true)) == "");
    const bool gone = archive->statistics().expunged == 1;
    if (words.find("nothing was changed") != std::string::npos) CHECK_FALSE(gone);
    if (words.empty()) CHECK(gone);
    if (gone && !words.empty())
      CHECK_THAT(words, Catch::Contains("destroyed") || Catch::Contains("expunged"));
    if (!hit) break;
    REQUIRE(n < 1000);
  }
}
