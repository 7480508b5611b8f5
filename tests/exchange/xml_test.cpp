// The exchange document: there and back byte for byte, and every bad input in one sentence.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <random>
#include <sstream>

#include "core/base/base64.hpp"
#include "core/exchange/schema.hpp"
#include "core/exchange/xml_in.hpp"
#include "core/exchange/xml_out.hpp"
#include "tests/exchange/fakes.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
using test::chain_named;
using test::MemoryLedger;

namespace {

std::string exported(const LedgerSource& source) {
  std::ostringstream out;
  write_exchange(source, out);
  return out.str();
}

ExchangeSummary parse(const std::string& bytes, LedgerSink& sink, std::size_t piece = 1U << 16U) {
  ExchangeParser parser("doc.xml", sink);
  for (std::size_t at = 0; at < bytes.size(); at += piece)
    parser.feed(std::string_view(bytes).substr(at, piece));
  return parser.finish();
}

std::string sentence(const std::string& bytes) {
  MemoryLedger sink;
  try {
    parse(bytes, sink);
  } catch (const Error& error) {
    return error.what();
  }
  return "nothing was wrong";
}

bool says(const std::string& text, const std::string& part) {
  INFO(text);
  const bool found = text.find(part) != std::string::npos;
  CHECK(found);
  return found;
}

Content statement_of(std::uint32_t property, const std::string& value) {
  Content content;
  content.subject = uuid_from_name("a record");
  content.property = property;
  content.value = value;
  return content;
}

// Texts that have broken programs before: quotation marks, the end of a CDATA section, all line ends, blanks
// at both ends, emoji with joiners, right-to-left with controls, combining marks, the last plane.
const std::vector<std::string>& nasty() {
  static const std::vector<std::string> texts{"plain",
                                              "\"double\" & 'single' <tag/> ]]> &amp; &#13;",
                                              "  blanks at both ends  ",
                                              "\nfeeds\n\n",
                                              "\ttabs\t",
                                              "\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x94\xA7 \xF0\x9F\x8F\xB4",
                                              "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAE x",
                                              "e\xCC\x81\xCC\xA3 o\xCC\x88",
                                              "\xF4\x8F\xBF\xBD",
                                              "\xEF\xBB\xBF mark",
                                              "<!-- no --> <?pi?> <![CDATA[x]]>",
                                              std::string(70'000, 'x')};
  return texts;
}

MemoryLedger random_ledger(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);
  const auto pick = [&](std::size_t below) {
    return std::uniform_int_distribution<std::size_t>(0, below - 1)(random);
  };
  const auto words = [&] { return nasty()[pick(nasty().size())]; };
  const std::vector<ChainId> chains{chain_named("one"), chain_named("two"), chain_named("three")};
  std::vector<std::vector<Digest>> ids(chains.size());
  MemoryLedger ledger;
  for (std::size_t i = 0; i < count; ++i) {
    auto content = statement_of(property::name, words());
    content.language = pick(3) == 0 ? "en-GB" : "";
    for (std::size_t q = pick(3); q > 0; --q)
      content.qualifiers.push_back({"q" + std::to_string(q), pick(4) == 0 ? "" : words()});
    for (std::size_t c = pick(3); c > 0; --c)
      content.citations.push_back({uuid_from_name(std::to_string(c)), words(), words()});
    if (pick(2) == 0) content.author = uuid_from_name("author");
    if (pick(2) == 0) content.recorder = uuid_from_name("recorder");
    content.evidence = static_cast<EvidenceClass>(pick(5));
    content.confidence = static_cast<Confidence>(pick(5));
    content.said_on = pick(2) == 0 ? "1905~/1911" : "";
    content.why = pick(3) == 0 ? "ends with a return\r" : words();
    if (pick(5) == 0) content.privacy = Privacy{words(), pick(2) == 0 ? "2050" : ""};
    content.proposed_by = pick(6) == 0 ? words() : "";
    for (std::size_t t = pick(3); t > 0; --t) content.targets.push_back(sha256(std::to_string(i + t)));
    for (std::size_t g = pick(3); g > 0; --g) content.grounds.push_back(sha256(std::to_string(i * 7 + g)));
    if (pick(20) == 0) {
      content = {};
      content.act = pick(2) == 0 ? Act::withdraw : Act::expunge;
      content.targets = {sha256("x")};
      content.why = words();
    }
    const auto chain = pick(chains.size());
    const auto other = (chain + 1) % chains.size();
    std::vector<Digest> seen;
    if (pick(10) == 0 && !ids[other].empty()) seen.push_back(ids[other].back());
    ids[chain].push_back(ledger.append(chains[chain], content, seen));
  }
  for (auto& [key, sealed] : ledger.statements) {
    if (pick(12) > 1) continue;
    sealed.presence = pick(2) == 0 ? Presence::withheld : Presence::expunged;
    sealed.content.clear();
    sealed.salt = {};
  }
  return ledger;
}

MemoryLedger small_ledger() {
  MemoryLedger ledger;
  const auto chain = chain_named("small");
  ledger.append(chain, statement_of(property::kind, "element"));
  ledger.append(chain, statement_of(property::code, "E-1"));
  auto dated = statement_of(Registry::standard().named("installed").id, "about 1890");
  dated.edtf = "1890~";
  dated.citations.push_back({uuid_from_name("a source"), "sheet 3", "as it stands"});
  ledger.append(chain, dated);
  return ledger;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("xml: a thousand statements come back the same, and go out the same") {
  const auto ledger = random_ledger(1000, 1890);
  const auto first = exported(ledger);
  MemoryLedger restored;
  restored.archive = ledger.archive;
  const auto summary = parse(first, restored);
  CHECK(summary.statements == 1000);
  CHECK(summary.added == 1000);
  CHECK(summary.archive == ledger.archive);
  CHECK(summary.fingerprint == ledger.fingerprint());
  REQUIRE(restored.statements.size() == ledger.statements.size());
  bool same = true;
  for (auto a = ledger.statements.cbegin(), b = restored.statements.cbegin(); a != ledger.statements.cend();
       ++a, ++b) {
    same = same && a->first == b->first && a->second.content == b->second.content &&
           a->second.salt == b->second.salt && a->second.presence == b->second.presence &&
           a->second.header == b->second.header;
  }
  CHECK(same);
  CHECK(exported(restored) == first);
  MemoryLedger again = restored;
  CHECK(parse(first, again).known == 1000);
}

TEST_CASE("xml: pieces of any size give the same") {
  const auto ledger = random_ledger(60, 7);
  const auto bytes = exported(ledger);
  for (const std::size_t piece : {1U, 2U, 3U, 5U, 4096U}) {
    MemoryLedger restored;
    restored.archive = ledger.archive;
    parse(bytes, restored, piece);
    CHECK(exported(restored) == bytes);
  }
}

TEST_CASE("xml: what XML cannot hold travels as base64") {
  MemoryLedger ledger;
  ledger.append(chain_named("odd"), [] {
    auto content = statement_of(4, "fine");
    content.why = std::string("nul \0 bell \a", 12) + "\xEF\xBF\xBF";
    return content;
  }());
  const auto bytes = exported(ledger);
  CHECK(bytes.find("<bytes>") != std::string::npos);
  MemoryLedger restored;
  restored.archive = ledger.archive;
  parse(bytes, restored);
  CHECK(exported(restored) == bytes);
}

// S. Josefsson, 'The Base16, Base32, and Base64 Data Encodings', RFC 4648, 2006, section 10.
TEST_CASE("base64: the test vectors of RFC 4648 section 10") {
  const std::vector<std::pair<std::string, std::string>> vectors{{"", ""},
                                                                 {"f", "Zg=="},
                                                                 {"fo", "Zm8="},
                                                                 {"foo", "Zm9v"},
                                                                 {"foob", "Zm9vYg=="},
                                                                 {"fooba", "Zm9vYmE="},
                                                                 {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, letters] : vectors) {
    CHECK(to_base64(plain) == letters);
    CHECK(from_base64(letters) == plain);
  }
  for (const auto* bad : {"Zg=", "Zg", "Zh==", "Z===", "Zg==Zg==", "Zm9 ", "Z=9v", "===="})
    CHECK_FALSE(from_base64(bad));
}

TEST_CASE("xml: a fork and two heads keep the fingerprint") {
  auto ledger = small_ledger();
  // A second successor of the first statement: the chain was written in two places.
  Header header;
  header.chain = chain_named("small");
  header.number = 2;
  header.previous = std::get<2>(ledger.statements.begin()->first);
  header.entered = {1'777'000'500, 0};
  ledger.take(seal(statement_of(property::code, "E-2"), header, Salt{}));
  const auto bytes = exported(ledger);
  MemoryLedger restored;
  restored.archive = ledger.archive;
  CHECK(parse(bytes, restored).statements == 4);
  CHECK(exported(restored) == bytes);
}

TEST_CASE("xml: tampering is found and named") {
  const auto good = exported(small_ledger());
  const auto name = short_name(chain_named("small"), 3);
  says(sentence(replaced(good, "about 1890", "about 1891")), "statement " + name + " has been changed");
  says(sentence(replaced(good, "sheet 3", "sheet 4")), "doc.xml:5:");
  // A statement missing from the middle.
  const auto second = good.find("<statement", good.find("<statement") + 1);
  const auto third = good.find("<statement", second + 1);
  says(sentence(good.substr(0, second) + good.substr(third)),
       "statement " + short_name(chain_named("small"), 2) + " is missing");
  // A lost tail.
  const auto end = good.find("</lathbook-exchange>");
  says(sentence(good.substr(0, third) + good.substr(end)), "states 3 statements and holds 2");
  says(sentence(replaced(good.substr(0, third) + good.substr(end), "statements=\"3\"", "statements=\"2\"")),
       "fingerprint");
  // Order.
  says(sentence(good.substr(0, second) + good.substr(third, end - third) +
                good.substr(second, third - second) + good.substr(end)),
       "is missing before");
  says(sentence(good.substr(0, third) + good.substr(second)), "out of order");
}

TEST_CASE("xml: each bad input is one sentence with its place") {
  const auto good = exported(small_ledger());
  const std::string head = good.substr(0, good.find("<lathbook"));
  const auto with_head = [&](const std::string& rest) { return head + rest; };
  says(sentence(""), "doc.xml:1:1: the file is empty");
  says(sentence("no xml at all"), "not well-formed");
  says(sentence(good.substr(0, good.size() / 2)), "is cut off");
  says(sentence(replaced(good, "</says>", "</sayz>")), "doc.xml:3:");
  says(sentence(good + "<more/>"), "not well-formed");
  says(sentence(good + "trailing words"), "not well-formed");
  says(sentence(replaced(good, "<says", "<sais")), "no element");
  says(sentence(replaced(good, "property-id=\"50\"", "property-id=\"9876\"")), "does not know");
  says(sentence(replaced(good, "property-id=\"50\"", "property-id=\"-3\"")), "whole number");
  says(sentence(replaced(good, "subject=\"", "subject=\"x")), "a UUID is wanted");
  says(sentence(replaced(good, "entered=\"2", "entered=\"x2")), "a moment");
  says(sentence(replaced(good, " salt=\"", " pepper=\"")), "no attribute");
  says(sentence(replaced(good, "format=\"1\"", "format=\"2\"")), "format 1");
  says(sentence(replaced(good, "urn:lathbook:exchange:1", "urn:lathbook:exchange:9")), "exchange:1");
  says(sentence(replaced(good, "urn:lathbook:exchange:1", "urn:other")), "no exchange document");
  says(sentence(replaced(good, "format=\"1\" ", "")), "needs the attribute 'format'");
  says(sentence(replaced(good, "<says", "words<says")), "where only elements may");
  says(sentence(replaced(good, "<value>", "<value>a</value><value>")), "once too often");
  says(sentence(replaced(good, "<value>about 1890</value><citation", "<citation")), "changed");
  says(sentence(replaced(good, "encoding=\"UTF-8\"", "encoding=\"ISO-8859-1\"")), "only UTF-8 is read");
  says(sentence(replaced(good, "as it stands", "caf\xE9")), "byte E9");
  says(sentence(replaced(good, "as it stands", "a\xC3")), "byte C3");
  says(sentence(good + "\xC3"), "byte C3");
  says(sentence("\xFF\xFE<\0?\0"), "byte FF");
  says(sentence(replaced(good, "as it stands", "&nbsp;")), "not well-formed");
  says(sentence(replaced(good, "as it stands", "<!--" + std::string(3'000'000, 'x') + "-->")),
       "goes on for more than 1 MiB");
  says(sentence(replaced(good, "as it stands", std::string(1'100'000, 'x'))), "holds more than 1 MiB");
  says(sentence(replaced(good, "locator=\"sheet 3\"", "locator=\"" + std::string(70'000, 'x') + "\"")),
       "longer than 64 KiB");
  says(sentence(with_head("<!DOCTYPE lathbook-exchange [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;\">]>"
                          "<lathbook-exchange>&b;</lathbook-exchange>")),
       "DOCTYPE");
  says(
      sentence(with_head("<!DOCTYPE lathbook-exchange SYSTEM \"file:///etc/hostname\"><lathbook-exchange/>")),
      "DOCTYPE");
  std::string deep;
  for (int i = 0; i < 100'000; ++i) deep += "<says>";
  says(sentence(replaced(good, "<statement", deep + "<statement")), "does not belong into");
}

TEST_CASE("xml: an invalid date and a wrong kind of value are refused though their id fits") {
  MemoryLedger ledger;
  ledger.append(chain_named("bad"), statement_of(Registry::standard().named("installed").id, "1890-13-45"));
  says(sentence(exported(ledger)), "installed");
  MemoryLedger other;
  other.append(chain_named("bad"), statement_of(Registry::standard().named("within").id, "no uuid"));
  says(sentence(exported(other)), "within");
}

TEST_CASE("xml: an attribute without end is given up early") {
  const auto good = exported(small_ledger());
  const auto at = good.find("sheet 3");
  MemoryLedger sink;
  ExchangeParser parser("doc.xml", sink);
  parser.feed(good.substr(0, at));
  const std::string piece(1U << 16U, 'x');
  std::size_t fed = 0;
  const auto feed_2_gb = [&] {
    for (; fed < (std::size_t{1} << 31U); fed += piece.size()) parser.feed(piece);
  };
  CHECK_THROWS_AS(feed_2_gb(), Error);
  CHECK(fed < 2'000'000);
}

TEST_CASE("xml: files that are none") {
  const test::TempFolder folder;
  MemoryLedger sink;
  CHECK_THROWS_WITH(read_exchange(folder / "absent.xml", sink), Catch::Contains("there is no file"));
  CHECK_THROWS_WITH(read_exchange(folder.path(), sink), Catch::Contains("is a folder"));
  test::write_file(folder / "empty.xml", "");
  CHECK_THROWS_WITH(read_exchange(folder / "empty.xml", sink), Catch::Contains("empty"));
  CHECK(sink.statements.empty());
}

TEST_CASE("xml: media are listed, and found beside the document") {
  const test::TempFolder folder;
  auto ledger = small_ledger();
  test::write_file(folder / "photo", "bytes of a photograph");
  ledger.files.push_back({sha256("bytes of a photograph"), 21, folder / "photo"});
  test::write_file(folder / "house.xml", exported(ledger));
  CHECK(write_media_beside(ledger, folder / "house.xml") == 1);
  CHECK(write_media_beside(ledger, folder / "house.xml") == 0);
  MemoryLedger sink;
  const auto summary = read_exchange(folder / "house.xml", sink);
  REQUIRE(summary.media.size() == 1);
  CHECK(sha256_file(summary.media[0].path) == ledger.files[0].digest);
  CHECK(summary.media[0].bytes == 21);
  says(sentence(replaced(exported(ledger), "path=\"", "path=\"../../")),
       "the path that goes with the digest");
  ledger.files[0].digest = sha256("other");
  CHECK_THROWS_WITH(write_media_beside(ledger, folder / "house.xml"), Catch::Contains("has been changed"));
  CHECK_FALSE(std::filesystem::exists(folder / "house.xml.media" / media_path(sha256("other"))));
}

TEST_CASE("xml: a full disk is told") {
  const auto ledger = random_ledger(200, 3);
  std::ofstream full("/dev/full", std::ios::binary);
  if (!full) return;
  CHECK_THROWS_AS(write_exchange(ledger, full), Error);
}

TEST_CASE("schema: the file is what the registry makes, and it accepts an export") {
  const auto path = std::filesystem::path(LATHBOOK_SOURCE_DIR) / "schemas" / "exchange.xsd";
  // After a change of the registry: LATHBOOK_WRITE_SCHEMA=1 test_exchange 'schema*' writes it anew.
  if (std::getenv("LATHBOOK_WRITE_SCHEMA") != nullptr) {
    test::write_file(path, exchange_schema(Registry::standard()));
  }
  CHECK(test::read_file(path) == exchange_schema(Registry::standard()));
  const test::TempFolder folder;
  test::write_file(folder / "good.xml", exported(random_ledger(300, 11)));
  for (const auto& finding : validate_against_schema(folder / "good.xml")) FAIL_CHECK(finding.text);
  const auto good = exported(small_ledger());
  const auto faults = [&](const std::string& bytes) {
    test::write_file(folder / "bad.xml", bytes);
    return validate_against_schema(folder / "bad.xml").size();
  };
  CHECK(faults(good) == 0);
  CHECK(faults(replaced(good, "property=\"installed\"", "property=\"instaled\"")) > 0);
  CHECK(faults(replaced(good, "property-id=\"50\"", "property-id=\"9876\"")) > 0);
  CHECK(faults(replaced(good, "<citation", "<quotation")) > 0);
  CHECK(faults(good.substr(0, good.size() / 2)) > 0);
  CHECK(faults(replaced(good, "<lathbook", "<!DOCTYPE x [<!ENTITY a \"b\">]><lathbook")) > 0);
  CHECK_THROWS_AS(validate_against_schema(folder / "absent.xml"), Error);
}
