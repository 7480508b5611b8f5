// Ids of records against RFC 9562.
#include "core/base/identifier.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <unordered_set>

using namespace lathbook;

// K. Davis, B. Peabody, P. Leach: RFC 9562, Universally Unique IDentifiers, 2024, appendix B.2: a version 8
// id from the SHA-256 of the DNS name space followed by "www.example.com".
TEST_CASE("an id from a name is the published example") {
  const auto space = Uuid::parse("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
  REQUIRE(space);
  std::string name(space->bytes.begin(), space->bytes.end());
  name += "www.example.com";
  CHECK(uuid_from_name(name).text() == "5c146b14-3c52-8afd-938a-375d0df1fbf6");
  CHECK(uuid_from_name("a") == uuid_from_name("a"));
  CHECK(uuid_from_name("a") != uuid_from_name("b"));
}

// RFC 9562 section 5.4: version 4 in the high half of octet 6, variant 10 in the high bits of octet 8.
TEST_CASE("random ids differ and carry version 4") {
  std::unordered_set<Uuid> seen;
  for (int i = 0; i < 2000; ++i) {
    const Uuid id = Uuid::random();
    CHECK((id.bytes[6] >> 4) == 4);
    CHECK((id.bytes[8] >> 6) == 2);
    seen.insert(id);
  }
  CHECK(seen.size() == 2000);
}

TEST_CASE("an id is read back from its text only") {
  // RFC 9562 appendix A.3.
  const std::string text = "919108f7-52d1-4320-9bac-f847db4148a8";
  const auto id = Uuid::parse(text);
  REQUIRE(id);
  CHECK(id->text() == text);
  CHECK(Uuid::parse("919108F7-52D1-4320-9BAC-F847DB4148A8") == id);
  CHECK_FALSE(Uuid::parse(text + "0"));
  CHECK_FALSE(Uuid::parse(text.substr(1)));
  CHECK_FALSE(Uuid::parse("{" + text + "}"));
  CHECK_FALSE(Uuid::parse("919108f752d1-4320-9bac-f847-db4148a8"));
  CHECK_FALSE(Uuid::parse("919108f7-52d1-4320-9bac-f847db4148ag"));
  CHECK_FALSE(Uuid::parse(""));
}

TEST_CASE("random bytes fill the whole buffer") {
  // 64 zero bytes by chance: once in 2^512.
  std::array<unsigned char, 64> first{};
  random_bytes(first.data() + 32, 32);
  CHECK(std::all_of(first.begin(), first.begin() + 32, [](unsigned char b) { return b == 0; }));
  CHECK_FALSE(std::all_of(first.begin() + 32, first.end(), [](unsigned char b) { return b == 0; }));
}
