// Ledgers in memory for the tests of exchange.
#pragma once

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/evidence/ledger.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/validation.hpp"

namespace lathbook::test {

/// Keeps statements by (chain, number, id), as an archive gives them.
class MemoryLedger : public LedgerSource, public LedgerSink {
public:
  using Key = std::tuple<ChainId, std::uint64_t, Digest>;

  Taken take(const Sealed& sealed) override {
    require_sound(sealed);
    const auto [at, is_new] =
        statements.emplace(Key{sealed.header.chain, sealed.header.number, sealed.id()}, sealed);
    if (is_new) return Taken::added;
    if (at->second.presence == Presence::expunged && sealed.presence == Presence::present)
      return Taken::expunged;
    if (at->second.presence == Presence::withheld && sealed.presence == Presence::present) {
      at->second = sealed;
      return Taken::filled;
    }
    return Taken::known;
  }
  void each_sealed(const std::function<bool(const Sealed&)>& on_sealed) const override {
    for (const auto& [key, sealed] : statements) {
      if (!on_sealed(sealed)) return;
    }
  }
  std::uint64_t count() const override { return statements.size(); }
  Digest fingerprint() const override {
    std::set<Digest> heads;
    for (const auto& [key, sealed] : statements) heads.insert(std::get<2>(key));
    for (const auto& [key, sealed] : statements) {
      if (sealed.header.previous) heads.erase(*sealed.header.previous);
      for (const auto& seen : sealed.header.seen) heads.erase(seen);
    }
    return fingerprint_of({heads.begin(), heads.end()});
  }
  Uuid archive_id() const override { return archive; }
  std::vector<MediaFile> media() const override { return files; }

  /// Appends to a chain (its number and predecessor are found here).
  Digest append(const ChainId& chain, const Content& content, const std::vector<Digest>& seen = {}) {
    Header header;
    header.chain = chain;
    header.number = 1;
    for (const auto& [key, sealed] : statements) {
      if (std::get<0>(key) != chain) continue;
      header.number = std::get<1>(key) + 1;
      header.previous = std::get<2>(key);
    }
    header.seen = seen;
    std::sort(header.seen.begin(), header.seen.end());
    header.entered = {1'777'000'000 + static_cast<std::int64_t>(statements.size()), 120};
    const auto salt = sha256("salt " + std::to_string(statements.size()));
    const auto sealed = seal(content, header, salt.bytes);
    take(sealed);
    return sealed.id();
  }

  std::map<Key, Sealed> statements;
  std::vector<MediaFile> files;
  Uuid archive = uuid_from_name("an archive for tests");
};

inline ChainId chain_named(const std::string& name) {
  const auto digest = sha256(name);
  ChainId chain{};
  std::copy_n(digest.bytes.begin(), chain.size(), chain.begin());
  return chain;
}

/// Enters statements as a store would, with one rule across statements: unique codes.
class MemoryEntry : public EntrySink {
public:
  Uuid make_record(Kind kind, std::string_view code, const std::optional<Uuid>&) override {
    if (record_by_code(code)) fail(ErrorKind::invalid, "the code " + quote(code) + " is taken");
    const auto id = uuid_from_name("made " + std::string(code));
    records.push_back({id, kind, std::string(code), {}});
    by_code.emplace(code, records.size() - 1);
    by_id.emplace(id, records.size() - 1);
    return id;
  }
  Digest add(Content content) override {
    const auto kind_of = [this](const Uuid& id) -> std::optional<Kind> {
      const auto found = record(id);
      return found ? std::optional(found->kind) : std::nullopt;
    };
    complete(content, Registry::standard(), kind_of);
    const auto findings = validate(content, Registry::standard(), kind_of);
    if (!findings.empty()) fail(ErrorKind::invalid, findings.front().text);
    if (content.value == refused_value) fail(ErrorKind::invalid, "the archive holds another value");
    for (const auto& target : content.targets) {
      if (!ids.contains(target)) fail(ErrorKind::not_found, "there is no statement " + target.hex());
    }
    added.push_back(content);
    const auto id = sha256("statement " + std::to_string(added.size()));
    ids.insert(id);
    return id;
  }
  std::optional<RecordInfo> record_by_code(std::string_view code) const override {
    const auto found = by_code.find(std::string(code));
    return found == by_code.end() ? std::nullopt : std::optional(records[found->second]);
  }
  std::optional<RecordInfo> record(const Uuid& id) const override {
    const auto found = by_id.find(id);
    return found == by_id.end() ? std::nullopt : std::optional(records[found->second]);
  }
  std::vector<std::string> nearest_codes(std::string_view code) const override {
    std::vector<std::string> codes;
    for (const auto& info : records) codes.push_back(info.code);
    return nearest(code, codes);
  }
  MediaFile add_media(const std::filesystem::path& file) override {
    media.push_back(file);
    return {sha256_file(file), std::filesystem::file_size(file), file};
  }
  /// Statements of this property, in order.
  std::vector<Content> of(std::string_view property) const {
    std::vector<Content> found;
    const auto id = Registry::standard().named(property).id;
    std::copy_if(added.begin(), added.end(), std::back_inserter(found),
                 [id](const Content& content) { return content.property == id; });
    return found;
  }

  std::vector<RecordInfo> records;
  std::map<std::string, std::size_t> by_code;
  std::map<Uuid, std::size_t> by_id;
  std::vector<Content> added;
  std::set<Digest> ids;
  std::vector<std::filesystem::path> media;
  std::string refused_value = "\x01";
};

}  // namespace lathbook::test
