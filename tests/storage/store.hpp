// Small archives for the tests of the store.
#pragma once

#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

#include "core/evidence/registry.hpp"
#include "core/storage/archive.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

/// An archive in a temporary folder, with a clock that tests set and a state folder of its own.
class Store {
public:
  explicit Store(const std::string& name = "archive") : path(folder / name) {
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
    Archive::create(path);
  }
  std::unique_ptr<Archive> open(bool write = true) {
    return std::make_unique<Archive>(path, clock, OpenOptions{.write = write, .vfs = {}, .media_disk = {}});
  }

  TempFolder folder;
  std::filesystem::path path;
  FixedClock clock{Moment{1'700'000'000, 60}};
};

inline std::uint32_t property_id(const std::string& name) {
  return Registry::standard().named(name).id;
}

/// A clerical statement of text about a record: a note, resting on the record's own word where it can.
inline Content about(const Uuid& subject, const std::string& property, const std::string& value,
                     const std::optional<Uuid>& source = std::nullopt) {
  Content content;
  content.subject = subject;
  content.property = property_id(property);
  content.value = value;
  if (Registry::standard().find(content.property)->cites != Cites::none) {
    content.evidence = EvidenceClass::documentary;
    content.confidence = Confidence::certain;
    if (source) content.citations.push_back({*source, "p. 1", ""});
  }
  return content;
}

/// A statement entered in a session of its own.
inline Digest enter(Archive& archive, const Content& content) {
  const auto writer = archive.write();
  const auto id = writer->add(content);
  writer->commit();
  return id;
}

inline Uuid make(Archive& archive, Kind kind, const std::string& code) {
  const auto writer = archive.write();
  const auto id = writer->make_record(kind, code, std::nullopt);
  writer->commit();
  return id;
}

/// Values of the current statements of one property of a record, as a public or private reading sees them.
inline std::vector<std::string> values(const Archive& archive, const Uuid& subject,
                                       const std::string& property, const ReadOptions& options = {}) {
  std::vector<std::string> found;
  Query query;
  query.subject = subject;
  query.properties = {property_id(property)};
  archive.read(options)->each_statement(query, [&](const Statement& statement) {
    found.push_back(statement.content.value);
    return true;
  });
  return found;
}

inline std::vector<Sealed> all_sealed(const Archive& archive) {
  std::vector<Sealed> found;
  archive.ledger({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}})
      ->each_sealed([&](const Sealed& sealed) {
        found.push_back(sealed);
        return true;
      });
  return found;
}

}  // namespace lathbook::test
