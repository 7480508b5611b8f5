// SHA-256 against the published examples, in one piece, in many, and from a file.
#include "core/base/digest.hpp"

#include <catch2/catch.hpp>
#include <unordered_set>

#include "core/base/error.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;

namespace {

ErrorKind kind_of(const std::filesystem::path& path) {
  try {
    sha256_file(path);
  } catch (const Error& error) {
    CHECK(std::string(error.what()).find(path.string()) != std::string::npos);
    return error.kind();
  }
  FAIL("no error");
  return ErrorKind::invalid;
}

}  // namespace

// NIST, FIPS PUB 180-2, Secure Hash Standard, 2002, appendices B.1, B.2 and B.3; FIPS 180-4 (2015) refers
// to the same examples on NIST's page of example values.
TEST_CASE("SHA-256 gives the published examples") {
  CHECK(sha256("abc").hex() == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq").hex() ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  const std::string million(1000000, 'a');
  const std::string expected = "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0";
  CHECK(sha256(million).hex() == expected);

  Sha256 sum;
  for (std::size_t at = 0; at < million.size(); at += 997) sum.add(std::string_view(million).substr(at, 997));
  CHECK(sum.finish().hex() == expected);

  const test::TempFolder folder;
  test::write_file(folder / "a", million);
  CHECK(sha256_file(folder / "a").hex() == expected);
}

TEST_CASE("a digest object can be used again and moved") {
  Sha256 sum;
  sum.add("something else");
  sum.finish();
  sum.add("ab");
  Sha256 moved = std::move(sum);
  moved.add("c");
  CHECK(moved.finish() == sha256("abc"));
}

TEST_CASE("a file longer than one read has the digest of its bytes") {
  const test::TempFolder folder;
  std::string bytes;
  for (int i = 0; i < 3000000; ++i) bytes += static_cast<char>(i * 7 + i / 256);
  test::write_file(folder / "long", bytes);
  CHECK(sha256_file(folder / "long") == sha256(bytes));
  CHECK(kind_of(folder / "missing") == ErrorKind::not_found);
  CHECK(kind_of(folder.path()) == ErrorKind::io);
  CHECK(kind_of("/dev/zero") == ErrorKind::io);
}

TEST_CASE("a digest is read back from its digits only") {
  const Digest digest = sha256("abc");
  const std::string hex = digest.hex();
  CHECK(Digest::from_hex(hex) == digest);
  std::string upper = hex;
  for (char& c : upper) c = static_cast<char>(std::toupper(c));
  CHECK(Digest::from_hex(upper) == digest);
  CHECK_FALSE(Digest::from_hex(hex.substr(1)));
  CHECK_FALSE(Digest::from_hex(hex + "0"));
  CHECK_FALSE(Digest::from_hex("g" + hex.substr(1)));
  CHECK_FALSE(Digest::from_hex(""));
  const std::unordered_set<Digest> set{digest, sha256("abd"), digest};
  CHECK(set.size() == 2);
  CHECK((Digest{} < digest));
}
