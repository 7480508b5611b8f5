#include "core/storage/session.hpp"

#include <algorithm>
#include <cstring>

#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/evidence/validation.hpp"
#include "core/storage/rules.hpp"
#include "core/storage/sweep.hpp"

namespace lathbook {

namespace {

constexpr std::int64_t kLongSilence = 30 * 86400;

std::string bytes(const ChainId& chain) {
  return {reinterpret_cast<const char*>(chain.data()), chain.size()};
}

void refuse_faults(const Findings& findings) {
  for (const auto& finding : findings)
    if (finding.severity == Severity::fault) fail(ErrorKind::invalid, finding.text);
}

}  // namespace

Session::Session(const Database& database, std::filesystem::path database_file, const Uuid& archive,
                 std::shared_ptr<MediaStore> media, const Clock& clock, bool bulk)
    : database_(database),
      registry_(Registry::standard()),
      file_(std::move(database_file)),
      media_(std::move(media)),
      clock_(clock),
      memory_(archive, file_),
      transaction_(database),
      store_(database, registry_, bulk) {}

Session::~Session() = default;

// Goes on with this copy's chain only when the memory outside says that this very file was last
// written to here; a copied folder or a restored backup begins a chain of its own.
void Session::choose_chain() {
  if (chain_) return;
  auto own = database_.prepare("SELECT value FROM meta WHERE key = 'own_chain'");
  if (own.step()) {
    ChainId chain{};
    const auto name = own.bytes(0);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    auto last = database_.prepare(
        "SELECT s.digest, s.n, s.header FROM statement s JOIN chain c ON c.id = s.chain WHERE c.name = ?1 "
        "ORDER BY s.n DESC LIMIT 2");
    last.bind_blob(1, bytes(chain));
    if (last.step()) {
      const Digest head = last.digest(0);
      const auto number = static_cast<std::uint64_t>(last.integer(1));
      const Header header = decode_header(last.bytes(2));
      last_entry_ = header.entered;
      const bool forked = last.step() && static_cast<std::uint64_t>(last.integer(1)) == number;
      if (!forked && memory_.knows(head)) {
        chain_ = chain;
        number_ = number;
        head_ = head_before_ = head;
        return;
      }
    }
  }
  ChainId fresh{};
  random_bytes(fresh.data(), fresh.size());
  chain_ = fresh;
  database_
      .prepare(
          "INSERT INTO meta(key, value) VALUES('own_chain', ?1) ON CONFLICT(key) DO UPDATE SET value = ?1")
      .bind_blob(1, bytes(fresh))
      .run();
}

void Session::check_clock(const Moment& now) const {
  if (clock_accepted_ || !last_entry_) return;
  if (now.seconds < last_entry_->seconds) {
    fail(ErrorKind::denied, "the computer's clock says " + now.text() + ", which is before the last entry (" +
                                last_entry_->text() +
                                "); set the clock, or say that it is right (--clock-is-right)");
  }
  if (now.seconds - last_entry_->seconds > kLongSilence) {
    fail(ErrorKind::denied, "the computer's clock says " + now.text() +
                                ", more than 30 days after the last entry (" + last_entry_->text() +
                                "); if it is right, say so to go on (--clock-is-right)");
  }
}

Digest Session::append(const Content& content) {
  choose_chain();
  const Moment now = clock_.now();
  check_clock(now);
  Header header;
  header.chain = *chain_;
  header.number = ++number_;
  header.previous = head_;
  for (const auto& head : store_.heads()) {
    if (head != head_) header.seen.push_back(head);
  }
  header.entered = now;
  const Sealed sealed = seal(content, header);
  store_.take(sealed);
  head_ = sealed.id();
  last_entry_ = now;
  return *head_;
}

std::optional<Kind> Session::kind_of(const Uuid& id) const {
  auto query = database_.prepare("SELECT kind FROM record WHERE uuid = ?1");
  query.bind(1, id);
  if (query.step() && query.integer(0) != 0) return static_cast<Kind>(query.integer(0));
  // Made in this session and not settled yet.
  query = database_.prepare(
      "SELECT content FROM statement WHERE subject = (SELECT id FROM record WHERE uuid = ?1) AND property = "
      "1 AND current = 1");
  query.bind(1, id);
  if (!query.step()) return std::nullopt;
  return kind_from_word(decode_content(query.bytes(0)).value);
}

Uuid Session::make_record(Kind kind, std::string_view code, const std::optional<Uuid>& recorder) {
  const Uuid id = Uuid::random();
  Content content;
  content.subject = id;
  content.property = property::kind;
  content.value = word(kind);
  content.recorder = recorder;
  if (!code.empty()) {
    Content named = content;
    named.property = property::code;
    named.value = code;
    if (auto why = breach(database_, registry_, named, seats_)) fail(ErrorKind::invalid, *why);
    append(content);
    store_.index().finish();
    add(named);
  } else {
    append(content);
  }
  store_.index().finish();
  return id;
}

Digest Session::add(Content content) {
  const auto kinds = [this](const Uuid& id) { return kind_of(id); };
  complete(content, registry_, kinds);
  const auto findings = validate(content, registry_, kinds);
  refuse_faults(findings);
  if (content.act == Act::expunge) {
    fail(ErrorKind::invalid,
         "an expunging is entered by its own command, so that its words are destroyed at once");
  }
  for (const auto& target : content.targets) {
    auto known = database_.prepare("SELECT 1 FROM statement WHERE digest = ?1");
    known.bind(1, target);
    if (!known.step())
      fail(ErrorKind::not_found, "there is no statement " + target.hex() + " to replace or withdraw");
  }
  if (auto why = breach(database_, registry_, content, seats_)) fail(ErrorKind::invalid, *why);
  const Digest id = append(content);
  seats_.entered(database_, content);
  return id;
}

Digest Session::expunge(const std::vector<Digest>& targets, const std::string& why,
                        const std::optional<Uuid>& recorder) {
  Content content;
  content.act = Act::expunge;
  content.targets = targets;
  content.why = why;
  content.recorder = recorder;
  refuse_faults(validate(content, registry_, [this](const Uuid& id) { return kind_of(id); }));
  for (const auto& target : targets) {
    auto known = database_.prepare("SELECT act FROM statement WHERE digest = ?1");
    known.bind(1, target);
    if (!known.step()) fail(ErrorKind::not_found, "there is no statement " + target.hex() + " to expunge");
    if (known.integer(0) == static_cast<std::int64_t>(Act::expunge)) {
      fail(ErrorKind::invalid, "what says that words were destroyed cannot itself be expunged");
    }
  }
  return append(content);
}

std::optional<RecordInfo> Session::record(const Uuid& id) const {
  auto query = database_.prepare("SELECT uuid, kind, code, name FROM record WHERE uuid = ?1 AND kind <> 0");
  query.bind(1, id);
  if (!query.step()) return std::nullopt;
  return RecordInfo{query.uuid(0), static_cast<Kind>(query.integer(1)), query.text(2), query.text(3)};
}

std::optional<RecordInfo> Session::record_by_code(std::string_view code) const {
  return SqliteReader::by_code(code, [this](const std::string& bare) {
    std::vector<RecordInfo> found;
    auto query = database_.prepare("SELECT uuid FROM record WHERE code = ?1");
    query.bind_text(1, bare);
    while (query.step()) {
      if (auto one = record(query.uuid(0))) found.push_back(std::move(*one));
    }
    if (found.size() > 1) {
      for (auto& one : found) one.code += "~" + one.id.text().substr(0, 4);
    }
    return found;
  });
}

std::vector<std::string> Session::nearest_codes(std::string_view code) const {
  std::vector<std::string> codes;
  auto query = database_.prepare("SELECT code FROM record WHERE code IS NOT NULL");
  while (query.step()) codes.push_back(query.text(0));
  return nearest(code, codes);
}

std::optional<Statement> Session::statement(const Digest& id) const {
  auto query = database_.prepare(
      "SELECT id, digest, header, presence, content, current FROM statement WHERE digest = ?1");
  query.bind(1, id);
  if (!query.step()) return std::nullopt;
  return statement_of(query);
}

void Session::adopt_identity(const Uuid& archive) {
  if (chain_) fail(ErrorKind::invalid, "an archive that was written to keeps its identity");
  database_.prepare("UPDATE meta SET value = ?1 WHERE key = 'archive'").bind(1, archive).run();
}

void Session::commit() {
  store_.finish();
  const auto heads = store_.heads();
  if (heads.empty()) return;
  std::string packed;
  for (const auto& head : heads)
    packed.append(reinterpret_cast<const char*>(head.bytes.data()), head.bytes.size());
  database_.prepare("INSERT INTO state(fingerprint, heads) VALUES(?1, ?2) ON CONFLICT DO NOTHING")
      .bind(1, fingerprint_of(heads))
      .bind_blob(2, packed)
      .run();
  if (chain_ && head_ && head_ != head_before_) memory_.expect(head_before_, *head_);
  if (store_.erased_something()) {
    database_.execute(
        "INSERT INTO words(words) VALUES('optimize'); INSERT INTO letters(letters) VALUES('optimize')");
    note_sweep(database_, store_.orphaned_media());
  }
  transaction_.commit();
  if (chain_ && head_ && head_ != head_before_) memory_.remember(*head_);
  if (store_.erased_something()) sweep(database_, *media_);
}

}  // namespace lathbook
