#include "tests/evidence/worked_example.hpp"

#include "core/evidence/encoding.hpp"

namespace lathbook::example {

namespace {

constexpr ChainId kChain{0xa0, 0xa1, 0xa2, 0xa3, 0xa4, 0xa5, 0xa6, 0xa7,
                         0xa8, 0xa9, 0xaa, 0xab, 0xac, 0xad, 0xae, 0xaf};

Uuid record(std::uint8_t last) {
  Uuid id = *Uuid::parse("0b1d8f2e-4c6a-4e53-9a77-3c5e6f708100");
  id.bytes.back() = last;
  return id;
}

Salt salt(std::uint8_t start) {
  Salt salt{};
  for (std::size_t i = 0; i < salt.size(); ++i) salt[i] = static_cast<std::uint8_t>(start + i);
  return salt;
}

// Sixteen bytes a line: offset, hexadecimal digits, and the printable characters.
std::string dump(const std::string& bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (std::size_t line = 0; line < bytes.size(); line += 16) {
    for (const unsigned shift : {12U, 8U, 4U, 0U}) out += digits[(line >> shift) & 15U];
    out += ' ';
    std::string shown;
    for (std::size_t i = line; i < line + 16; ++i) {
      if (i >= bytes.size()) {
        out += "   ";
        continue;
      }
      const auto byte = static_cast<unsigned char>(bytes[i]);
      out += ' ';
      out += digits[byte >> 4U];
      out += digits[byte & 15U];
      shown += byte > 0x20 && byte < 0x7f ? bytes[i] : '.';
    }
    out += "  " + shown + "\n";
  }
  return out;
}

}  // namespace

Content first_content() {
  Content content;
  content.subject = record(1);
  content.property = 50;
  content.value = "about 1890";
  content.edtf = "1890~";
  content.qualifiers = {{"placement", "1"}};
  content.author = record(2);
  content.said_on = "2026-05-02";
  content.recorder = record(3);
  content.evidence = EvidenceClass::documentary;
  content.confidence = Confidence::probable;
  content.citations = {{record(4), "leaf 12", "set up the Stove"}};
  return content;
}

Sealed first() {
  Header header;
  header.chain = kChain;
  header.number = 1;
  header.entered = *Moment::parse("2026-05-03T10:15:00+02:00");
  return seal(first_content(), header, salt(0));
}

Sealed second() {
  Content content;
  content.act = Act::withdraw;
  content.recorder = record(3);
  content.targets = {first().id()};
  content.why = "the bill is for the other stove";
  Header header;
  header.chain = kChain;
  header.number = 2;
  header.previous = first().id();
  header.seen = {sha256("a head of another chain")};
  header.entered = *Moment::parse("2026-05-04T08:00:00Z");
  return seal(content, header, salt(0x40));
}

std::vector<std::pair<std::string, std::string>> printed() {
  const auto bytes_of = [](const Salt& salt) {
    return std::string(reinterpret_cast<const char*>(salt.data()), salt.size());
  };
  const auto one = first();
  const auto two = second();
  return {{"content 1", dump(one.content)},
          {"salt 1", dump(bytes_of(one.salt))},
          {"content digest 1", one.header.content.hex()},
          {"header 1", dump(encode_header(one.header))},
          {"id 1", one.id().hex()},
          {"content 2", dump(two.content)},
          {"salt 2", dump(bytes_of(two.salt))},
          {"content digest 2", two.header.content.hex()},
          {"header 2", dump(encode_header(two.header))},
          {"id 2", two.id().hex()},
          {"fingerprint", fingerprint_of({two.id()}).hex()}};
}

}  // namespace lathbook::example
