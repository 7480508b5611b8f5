// The digested bytes: one content has one encoding, and a changed byte never passes.
#include <catch2/catch.hpp>
#include <functional>
#include <iostream>
#include <random>

#include "core/base/error.hpp"
#include "core/evidence/encoding.hpp"
#include "tests/evidence/worked_example.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;

namespace {

// Draws contents and headers; the seed names the whole run.
class Draw {
public:
  explicit Draw(std::uint64_t seed) : random_(seed) {}

  std::size_t up_to(std::size_t most) { return std::uniform_int_distribution<std::size_t>(0, most)(random_); }
  bool coin() { return up_to(1) == 1; }

  std::string text(std::size_t most) {
    static const std::vector<std::string> pieces{
        "a", "Z", "7", " ", "\n", "~", "é", "—", "𝔐", std::string(1, '\0'), "\xff"};
    std::string out;
    for (auto n = up_to(most); n-- > 0;) out += pieces[up_to(pieces.size() - 1)];
    return out;
  }
  template <std::size_t size>
  std::array<std::uint8_t, size> bytes() {
    std::array<std::uint8_t, size> out{};
    for (auto& byte : out) byte = static_cast<std::uint8_t>(up_to(255));
    return out;
  }
  Uuid uuid() { return Uuid{bytes<16>()}; }
  Digest digest() { return Digest{bytes<32>()}; }

  Content content() {
    Content content;
    content.act = static_cast<Act>(up_to(2));
    if (coin()) content.subject = uuid();
    if (coin()) content.property = static_cast<std::uint32_t>(up_to(70000));
    if (coin()) content.value = text(300);
    if (coin()) content.edtf = text(20);
    if (coin()) content.language = text(5);
    for (auto n = up_to(4); n-- > 0;) content.qualifiers.push_back({text(8), text(20)});
    if (coin()) content.author = uuid();
    if (coin()) content.said_on = text(10);
    if (coin()) content.recorder = uuid();
    content.evidence = static_cast<EvidenceClass>(up_to(4));
    content.confidence = static_cast<Confidence>(up_to(4));
    for (auto n = up_to(3); n-- > 0;) content.citations.push_back({uuid(), text(10), text(40)});
    for (auto n = up_to(3); n-- > 0;) content.targets.push_back(digest());
    for (auto n = up_to(3); n-- > 0;) content.grounds.push_back(digest());
    if (coin()) content.why = text(50);
    if (coin()) content.privacy = Privacy{text(10), text(10)};
    if (coin()) content.proposed_by = text(12);
    return content;
  }

  Header header() {
    Header header;
    header.chain = bytes<16>();
    header.number = 1 + up_to(5);
    if (header.number > 1) header.previous = digest();
    for (auto n = up_to(3); n-- > 0;) header.seen.push_back(digest());
    std::sort(header.seen.begin(), header.seen.end());
    header.entered.seconds = static_cast<std::int64_t>(up_to(1U << 31U)) - (1 << 30);
    header.entered.offset_minutes = static_cast<std::int16_t>(static_cast<int>(up_to(2878)) - 1439);
    header.content = digest();
    return header;
  }

private:
  std::mt19937_64 random_;
};

Draw fresh_draw() {
  const std::uint64_t seed = std::random_device{}();
  std::cout << "seed of this run: " << seed << "\n";
  return Draw(seed);
}

bool is_refused(const std::function<void()>& call) {
  try {
    call();
  } catch (const Error& error) {
    REQUIRE(error.kind() == ErrorKind::corrupt);
    return true;
  }
  return false;
}

// Either refused, or the one proper form of something else, whose digest then differs.
bool refused_or_canonical_content(const std::string& bytes) {
  std::string again;
  return is_refused([&] { again = encode_content(decode_content(bytes)); }) || again == bytes;
}
bool refused_or_canonical_header(const std::string& bytes) {
  std::string again;
  return is_refused([&] { again = encode_header(decode_header(bytes)); }) || again == bytes;
}

struct Field {
  char id;
  std::string bytes;  // id, length and value
};

std::vector<Field> fields_of(const std::string& content) {
  std::vector<Field> fields;
  for (std::size_t at = 4; at < content.size();) {
    std::size_t length = 0;
    for (std::size_t i = 4; i > 0; --i) length = length << 8U | static_cast<std::uint8_t>(content[at + i]);
    fields.push_back({content[at], content.substr(at, 5 + length)});
    at += 5 + length;
  }
  return fields;
}

std::string joined(const std::vector<Field>& fields) {
  std::string out = "LBC1";
  for (const auto& field : fields) out += field.bytes;
  return out;
}

}  // namespace

TEST_CASE("contents come back as they were written") {
  auto draw = fresh_draw();
  for (int i = 0; i < 1000; ++i) {
    const auto content = draw.content();
    const auto bytes = encode_content(content);
    REQUIRE(decode_content(bytes) == content);
    REQUIRE(encode_content(decode_content(bytes)) == bytes);
  }
}

TEST_CASE("headers come back as they were written") {
  auto draw = fresh_draw();
  for (int i = 0; i < 1000; ++i) {
    const auto header = draw.header();
    REQUIRE(decode_header(encode_header(header)) == header);
  }
}

TEST_CASE("one byte changed anywhere is found") {
  auto draw = fresh_draw();
  for (int i = 0; i < 20; ++i) {
    const auto sealed = seal(draw.content(), draw.header());
    require_sound(sealed);
    const auto flip = static_cast<char>(1 + draw.up_to(254));
    for (std::size_t at = 0; at < sealed.content.size(); ++at) {
      auto changed = sealed;
      changed.content[at] = static_cast<char>(changed.content[at] ^ flip);
      REQUIRE_THROWS_AS(require_sound(changed), Error);
      REQUIRE(refused_or_canonical_content(changed.content));
    }
    for (auto at = sealed.salt.size(); at-- > 0;) {
      auto changed = sealed;
      changed.salt[at] ^= static_cast<std::uint8_t>(flip);
      REQUIRE_THROWS_AS(require_sound(changed), Error);
    }
    const auto header = encode_header(sealed.header);
    for (std::size_t at = 0; at < header.size(); ++at) {
      auto changed = header;
      changed[at] = static_cast<char>(changed[at] ^ flip);
      REQUIRE(sha256(changed) != sealed.id());
      REQUIRE(refused_or_canonical_header(changed));
    }
  }
}

TEST_CASE("a changed statement is named") {
  auto sealed = example::first();
  sealed.content.back() = static_cast<char>(sealed.content.back() ^ 1);
  REQUIRE_THROWS_WITH(require_sound(sealed), Catch::Contains("a0a1a2a3-1") && Catch::Contains("changed"));
  sealed.presence = Presence::withheld;
  REQUIRE_NOTHROW(require_sound(sealed));
}

TEST_CASE("cut short or run on, bytes are refused or are another statement") {
  auto draw = fresh_draw();
  const auto content = encode_content(draw.content());
  for (std::size_t length = 0; length < content.size(); ++length) {
    REQUIRE(refused_or_canonical_content(content.substr(0, length)));
  }
  REQUIRE(is_refused([&] { decode_content(content + "x"); }));
  const auto header = encode_header(draw.header());
  for (std::size_t length = 0; length < header.size(); ++length) {
    REQUIRE(is_refused([&] { decode_header(header.substr(0, length)); }));
  }
  REQUIRE(is_refused([&] { decode_header(header + "x"); }));
}

TEST_CASE("fields in another order are refused") {
  auto draw = fresh_draw();
  for (int i = 0; i < 50; ++i) {
    const auto fields = fields_of(encode_content(draw.content()));
    REQUIRE(joined(fields) == encode_content(decode_content(joined(fields))));
    for (std::size_t a = 0; a < fields.size(); ++a) {
      for (std::size_t b = a + 1; b < fields.size(); ++b) {
        if (fields[a].id == fields[b].id) continue;
        auto swapped = fields;
        std::swap(swapped[a], swapped[b]);
        REQUIRE(is_refused([&] { decode_content(joined(swapped)); }));
      }
    }
  }
}

TEST_CASE("second forms of a content are refused") {
  const std::string act("\x01\x05\0\0\0state", 10);
  REQUIRE(decode_content("LBC1" + act) == Content{});
  const std::pair<const char*, std::string> cases[] = {
      {"nothing", "LBC1"},
      {"another format", "LBC2" + act},
      {"no act", std::string("LBC1") + std::string("\x04\x01\0\0\0v", 6)},
      {"act twice", "LBC1" + act + act},
      {"unknown act", std::string("LBC1") + std::string("\x01\x04\0\0\0stat", 9)},
      {"empty value", "LBC1" + act + std::string("\x04\0\0\0\0", 5)},
      {"nil subject", "LBC1" + act + std::string("\x02\x10\0\0\0", 5) + std::string(16, '\0')},
      {"short subject", "LBC1" + act + std::string("\x02\x0f\0\0\0", 5) + std::string(15, 'x')},
      {"property nought", "LBC1" + act + std::string("\x03\x04\0\0\0\0\0\0\0", 9)},
      {"class none", "LBC1" + act + std::string("\x0c\0\0\0\0", 5)},
      {"detail without value", "LBC1" + act + std::string("\x07\x01\0\0\0n", 6)},
      {"detail without value, then more", "LBC1" + act + std::string("\x07\x01\0\0\0n\x13\x01\0\0\0w", 12)},
      {"citation without quotation, then more", "LBC1" + act + std::string("\x0e\x10\0\0\0", 5) +
                                                    std::string(16, 'x') + std::string("\x0f\0\0\0\0", 5) +
                                                    std::string("\x13\x01\0\0\0w", 6)},
      {"privacy without its end, then more", "LBC1" + act + std::string("\x14\0\0\0\0\x16\x01\0\0\0p", 11)},
      {"length past the end", "LBC1" + act + std::string("\x04\xff\xff\xff\xffv", 6)},
      {"unknown field", "LBC1" + act + std::string("\x63\x01\0\0\0v", 6)},
  };
  for (const auto& [name, bytes] : cases) {
    INFO(name);
    REQUIRE(is_refused([&bytes = bytes] { decode_content(bytes); }));
  }
}

TEST_CASE("headers that break their rules are refused") {
  Draw draw(1);
  auto header = draw.header();
  header.seen = {draw.digest(), draw.digest()};
  std::sort(header.seen.begin(), header.seen.end());
  auto bytes = encode_header(header);
  const std::size_t seen_at = 4 + 16 + 8 + 1 + (header.previous ? 32 : 0) + 4;
  auto swapped = bytes;
  std::swap_ranges(swapped.begin() + static_cast<std::ptrdiff_t>(seen_at),
                   swapped.begin() + static_cast<std::ptrdiff_t>(seen_at + 32),
                   swapped.begin() + static_cast<std::ptrdiff_t>(seen_at + 32));
  REQUIRE(is_refused([&] { decode_header(swapped); }));
  auto doubled = bytes;
  doubled.replace(seen_at + 32, 32, bytes.substr(seen_at, 32));
  REQUIRE(is_refused([&] { decode_header(doubled); }));

  std::swap(header.seen[0], header.seen[1]);
  REQUIRE_THROWS_AS(encode_header(header), Error);

  auto first = example::first().header;
  first.previous = Digest{};
  REQUIRE(is_refused([&] { decode_header(encode_header(first)); }));
  auto second = example::second().header;
  second.previous.reset();
  REQUIRE(is_refused([&] { decode_header(encode_header(second)); }));
  second.number = 0;
  REQUIRE(is_refused([&] { decode_header(encode_header(second)); }));
}

TEST_CASE("a content of more than 64 MiB is refused") {
  Content content;
  content.value.assign((64U << 20U) + 1, 'x');
  REQUIRE_THROWS_WITH(encode_content(content), Catch::Contains("64 MiB"));
  REQUIRE(is_refused([&] { decode_content("LBC1" + content.value); }));
}

TEST_CASE("sealing draws a fresh salt") {
  const auto a = seal(example::first_content(), example::first().header);
  const auto b = seal(example::first_content(), example::first().header);
  REQUIRE(a.salt != b.salt);
  REQUIRE(a.content == b.content);
  REQUIRE(a.id() != b.id());
}

TEST_CASE("docs/format.md shows the bytes of the worked example") {
  const auto page = test::read_file(std::string(LATHBOOK_SOURCE_DIR) + "/docs/format.md");
  for (const auto& [name, text] : example::printed()) {
    INFO(name << " should stand in docs/format.md as\n" << text);
    CHECK(page.find(text) != std::string::npos);
  }
}

TEST_CASE("the fingerprint does not depend on the order of heads") {
  Draw draw(2);
  const auto a = draw.digest();
  const auto b = draw.digest();
  REQUIRE(fingerprint_of({a, b}) == fingerprint_of({b, a}));
  REQUIRE(fingerprint_of({a, b}) != fingerprint_of({a}));
}
