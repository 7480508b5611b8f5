// The export of a large archive holds one record at a time, not the archive.
#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <streambuf>

#include "core/base/text.hpp"
#include "tests/crm/export_support.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

/// Makes its records as they are asked for: pieces with five statements each, all citing one source.
class EndlessPieces : public StatementReader {
public:
  explicit EndlessPieces(std::size_t pieces) : pieces_(pieces) {}

  Reading reading() const override { return {}; }
  void each_statement(const Query& query, const OnStatement& on_statement) const override {
    const auto info = query.subject ? record(*query.subject) : std::nullopt;
    if (!info || info->kind != Kind::piece || query.object || !query.properties.empty()) return;
    for (std::uint64_t number = 1; number <= 5; ++number) {
      Statement statement;
      statement.header.number = number;
      statement.id = sha256(info->code + std::to_string(number));
      statement.content.subject = info->id;
      statement.content.property = Registry::standard().named("note").id;
      statement.content.value = "note " + std::to_string(number) + " on " + info->code;
      statement.content.confidence = Confidence::certain;
      statement.content.citations = {{source(), "p. " + info->code, {}}};
      if (!on_statement(statement)) return;
    }
  }
  void each_record(Kind kind, const OnRecord& on_record) const override {
    if (kind == Kind::source) on_record(*record(source()));
    if (kind != Kind::piece) return;
    for (std::size_t number = 1; number <= pieces_; ++number)
      if (!on_record(*record(id_of(number)))) return;
  }
  std::optional<RecordInfo> record(const Uuid& id) const override {
    if (id == source()) return RecordInfo{id, Kind::source, "S", {}};
    std::uint64_t number = 0;
    std::memcpy(&number, id.bytes.data(), sizeof number);
    return RecordInfo{id, Kind::piece, "P-" + std::to_string(number), {}};
  }
  std::optional<RecordInfo> record_by_code(std::string_view) const override { return std::nullopt; }
  std::optional<Statement> statement(const Digest&) const override { return std::nullopt; }

private:
  static Uuid source() { return uuid_from_name("the source"); }
  static Uuid id_of(std::uint64_t number) {
    Uuid id;
    std::memcpy(id.bytes.data(), &number, sizeof number);
    return id;
  }
  std::size_t pieces_;
};

/// Counts what is written and keeps nothing.
class Counter : public std::streambuf {
public:
  std::uint64_t bytes = 0;

protected:
  std::streamsize xsputn(const char*, std::streamsize length) override {
    bytes += static_cast<std::uint64_t>(length);
    return length;
  }
  int overflow(int c) override {
    ++bytes;
    return c;
  }
};

std::uint64_t write_pieces(std::size_t pieces) {
  const EndlessPieces reader(pieces);
  Counter counter;
  std::ostream out(&counter);
  QuietServices services;
  crm::CrmExporter().write(Snapshot(reader), {{}, Level::possible, kBase, "turtle", {}}, out, services);
  return counter.bytes;
}

/// The most memory this process has had, in bytes (Linux counts it in KiB).
std::uint64_t peak() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<std::uint64_t>(usage.ru_maxrss) * 1024;
}

}  // namespace

#ifdef __SANITIZE_ADDRESS__
#define TEST_SANITIZED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define TEST_SANITIZED
#endif
#endif

TEST_CASE("memory does not grow with the archive") {
  write_pieces(500);
  const std::uint64_t before = peak();
  const std::uint64_t bytes = write_pieces(10000);
  const std::uint64_t grown = peak() - before;
  INFO(bytes << " bytes written, memory grew by " << grown);
  CHECK(bytes > 40'000'000);
#ifdef TEST_SANITIZED
  WARN("memory is not measured under the address sanitizer, which keeps freed memory back");
#else
  // The bounded memories of names fill up; nothing else may stay.
  CHECK(grown < 12'000'000);
#endif
}
