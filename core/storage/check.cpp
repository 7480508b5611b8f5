#include "core/storage/check.hpp"

#include <algorithm>
#include <cstring>
#include <unordered_set>

#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/evidence/registry.hpp"
#include "core/storage/currentness.hpp"
#include "core/storage/rules.hpp"
#include "core/storage/scope.hpp"

namespace lathbook {

namespace {

void sqlite_checks(const Database& database, Findings& findings) {
  auto integrity = database.prepare("PRAGMA integrity_check(20)");
  while (integrity.step()) {
    if (integrity.text(0) != "ok") {
      findings.push_back({Severity::fault, "store.damaged",
                          "the database file is damaged: " + integrity.text(0) + "; restore it from a copy",
                          ""});
    }
  }
  auto keys = database.prepare("PRAGMA foreign_key_check");
  while (keys.step()) {
    findings.push_back(
        {Severity::fault, "store.reference",
         "a row of the table " + quote(keys.text(0)) + " names a row that is not there; restore from a copy",
         "row " + keys.text(1)});
  }
}

// What a row claims against what its bytes say; returns the sentence of the first difference.
std::string difference(const Prepared& row, const Header& header) {
  const auto& chain = header.chain;
  if (row.digest(0) != sha256(row.bytes(1))) return "its header has been changed: it does not fit its digest";
  if (row.bytes(2) != std::string_view(reinterpret_cast<const char*>(chain.data()), chain.size()) ||
      row.integer(3) != static_cast<std::int64_t>(header.number)) {
    return "it stands in the wrong place of its chain";
  }
  if (row.is_null(4) == header.previous.has_value() ||
      (header.previous && row.digest(4) != *header.previous)) {
    return "its predecessor is noted wrongly";
  }
  if (row.integer(5) != header.entered.seconds) return "its time of entry is noted wrongly";
  return "";
}

std::string content_difference(const Prepared& row, const Header& header, const Registry& registry) {
  const auto presence = static_cast<Presence>(row.integer(6));
  if (presence != Presence::present) {
    return row.is_null(7) && row.is_null(8) ? "" : "it is marked as having no content, and has some";
  }
  Salt salt{};
  const auto bytes = row.bytes(7);
  if (bytes.size() != salt.size()) return "its salt has been changed";
  std::memcpy(salt.data(), bytes.data(), salt.size());
  if (content_digest(salt, row.bytes(8)) != header.content) {
    return "it has been changed: its content does not fit its digest";
  }
  const auto content = decode_content(row.bytes(8));
  const bool has_subject = content.subject != Uuid{};
  if (row.is_null(9) == has_subject || (has_subject && row.uuid(9) != content.subject)) {
    return "its subject is noted wrongly";
  }
  if (row.integer(10) != static_cast<std::int64_t>(content.property)) return "its property is noted wrongly";
  if (content.property != 0 && registry.find(content.property) == nullptr) {
    return "it uses a property this program does not know; use a newer program";
  }
  return "";
}

void statement_checks(const Database& database, Findings& findings) {
  auto row = database.prepare(
      "SELECT s.digest, s.header, c.name, s.n, s.previous, s.entered, s.presence, s.salt, s.content, r.uuid, "
      "s.property "
      "FROM statement s JOIN chain c ON c.id = s.chain LEFT JOIN record r ON r.id = s.subject ORDER BY s.id");
  Progress progress("checking statements",
                    static_cast<std::uint64_t>(database.number("SELECT count(*) FROM statement")));
  while (row.step()) {
    progress.tick();
    stop_if_requested("checking");
    ChainId chain{};
    const auto name = row.bytes(2);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    const std::string place = short_name(chain, static_cast<std::uint64_t>(row.integer(3)));
    std::string why;
    try {
      const Header header = decode_header(row.bytes(1));
      why = difference(row, header);
      if (why.empty()) why = content_difference(row, header, Registry::standard());
    } catch (const Error& error) {
      why = error.what();
    }
    if (!why.empty()) {
      findings.push_back({Severity::fault, "statement.changed",
                          "statement " + place + " is not as it was written: " + why, place});
    }
  }
}

void derived_checks(const Database& database, Findings& findings) {
  const auto complain = [&](const std::string& code, const std::string& text) {
    auto query = database.prepare(code);
    while (query.step()) {
      ChainId chain{};
      const auto name = query.bytes(0);
      std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
      const auto place = short_name(chain, static_cast<std::uint64_t>(query.integer(1)));
      findings.push_back({Severity::fault, "store.derived", "statement " + place + " " + text, place});
    }
  };
  complain(
      "SELECT c.name, t.n FROM statement t JOIN chain c ON c.id = t.chain WHERE t.presence = 0 AND "
      "t.current = EXISTS(SELECT 1 FROM link l JOIN statement s ON s.id = l.statement WHERE l.target = "
      "t.digest AND l.role = 1 AND " +
          counts_against_targets("statement") + ")",
      "is marked current or not against what the statements say");
  const auto missing_heads =
      database.number("SELECT count(*) FROM head WHERE digest NOT IN (SELECT digest FROM statement)");
  const auto stray_heads = database.number(
      "SELECT count(*) FROM statement s WHERE NOT EXISTS(SELECT 1 FROM statement t WHERE t.previous = "
      "s.digest) AND NOT "
      "EXISTS(SELECT 1 FROM seen WHERE seen.head = s.digest) AND s.digest NOT IN (SELECT digest FROM head)");
  if (missing_heads != 0 || stray_heads != 0) {
    findings.push_back(
        {Severity::fault, "chain.head",
         "the last statements of the chains are not those noted: statements at the end have been lost", ""});
  }
}

void fingerprint_check(const Database& database, const Digest& known, Findings& findings) {
  const auto heads = heads_of(database, known);
  if (heads) {
    // Heads alone could have been put back; the state is held only when nothing below them is missing.
    const auto all = std::all_of(heads->begin(), heads->end(), [&](const Digest& head) {
      auto query = database.prepare("SELECT 1 FROM statement WHERE digest = ?1");
      query.bind(1, head);
      return query.step();
    });
    if (all) return;
  }
  findings.push_back(
      {Severity::fault, "state.lost",
       "the archive does not hold the state with the fingerprint " + known.hex() +
           ": statements have been lost or rewritten since, or it is another archive; compare with a copy",
       known.hex()});
}

}  // namespace

Findings gaps(const Database& database) {
  Findings findings;
  auto query = database.prepare(
      "SELECT c.name, s.n FROM statement s JOIN chain c ON c.id = s.chain WHERE s.previous IS NOT NULL AND "
      "NOT EXISTS("
      "SELECT 1 FROM statement p WHERE p.digest = s.previous) ORDER BY c.name, s.n");
  while (query.step()) {
    ChainId chain{};
    const auto name = query.bytes(0);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    const auto number = static_cast<std::uint64_t>(query.integer(1));
    findings.push_back({Severity::fault, "chain.gap",
                        "statement " + short_name(chain, number - 1) + " is missing, though " +
                            short_name(chain, number) + " follows it; merge with a copy that holds it",
                        short_name(chain, number - 1)});
  }
  auto seen = database.prepare(
      "SELECT c.name, s.n, seen.head FROM seen JOIN statement s ON s.id = seen.statement JOIN chain c ON "
      "c.id = s.chain "
      "WHERE NOT EXISTS(SELECT 1 FROM statement p WHERE p.digest = seen.head) ORDER BY c.name, s.n");
  while (seen.step()) {
    ChainId chain{};
    const auto name = seen.bytes(0);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    const auto place = short_name(chain, static_cast<std::uint64_t>(seen.integer(1)));
    findings.push_back({Severity::fault, "chain.unseen",
                        "statement " + place + " has seen a statement that is not here (" +
                            seen.digest(2).hex().substr(0, 16) + "...); merge with a copy that holds it",
                        place});
  }
  return findings;
}

Findings forks(const Database& database) {
  Findings findings;
  auto query = database.prepare(
      "SELECT c.name, p.n, count(*) FROM statement s JOIN statement p ON p.digest = s.previous JOIN chain c "
      "ON c.id = p.chain "
      "GROUP BY s.previous HAVING count(*) > 1 ORDER BY c.name, p.n");
  while (query.step()) {
    ChainId chain{};
    const auto name = query.bytes(0);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    const auto place = short_name(chain, static_cast<std::uint64_t>(query.integer(1)));
    findings.push_back({Severity::warning, "chain.fork",
                        "this chain was written in two places since " + place + "; both are kept", place});
  }
  return findings;
}

Findings rule_findings(const Database& database) {
  return breaches(database, Registry::standard());
}

std::set<Digest> named_media(const Database& database) {
  std::set<Digest> digests;
  auto query = database.prepare("SELECT content FROM statement WHERE property = ?1 AND presence = 0");
  query.bind(1, property::media);
  while (query.step()) {
    if (const auto digest = Digest::from_hex(decode_content(query.bytes(0)).value)) digests.insert(*digest);
  }
  return digests;
}

Findings check_database(const Database& database, const std::optional<Digest>& known_fingerprint) {
  Findings findings;
  const Transaction transaction(database, false);
  sqlite_checks(database, findings);
  statement_checks(database, findings);
  const auto add = [&findings](const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
  };
  add(gaps(database));
  add(forks(database));
  derived_checks(database, findings);
  add(rule_findings(database));
  if (known_fingerprint) fingerprint_check(database, *known_fingerprint, findings);
  return findings;
}

}  // namespace lathbook
