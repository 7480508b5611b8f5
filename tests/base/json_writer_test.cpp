// JSON that is written must come back from a reader as it was given.
#include "core/base/json_writer.hpp"

#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <limits>
#include <memory>
#include <sstream>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

using namespace lathbook;

namespace {

using Layout = JsonWriter::Layout;

template <typename Work>
std::string written(Layout layout, const Work& work) {
  std::ostringstream out;
  JsonWriter json(out, layout);
  work(json);
  json.finish();
  return out.str();
}

// What SQLite's own JSON reader makes of a document: the answer to one expression over ?1.
class Reader {
public:
  explicit Reader(const std::string& document) : document_(document) {
    sqlite3* opened = nullptr;
    REQUIRE(sqlite3_open(":memory:", &opened) == SQLITE_OK);
    database_.reset(opened);
  }
  std::string ask(const std::string& expression) const {
    sqlite3_stmt* prepared = nullptr;
    REQUIRE(sqlite3_prepare_v2(database_.get(), ("SELECT " + expression).c_str(), -1, &prepared, nullptr) ==
            SQLITE_OK);
    const std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> statement(prepared, &sqlite3_finalize);
    sqlite3_bind_text(prepared, 1, document_.data(), static_cast<int>(document_.size()), SQLITE_STATIC);
    REQUIRE(sqlite3_step(prepared) == SQLITE_ROW);
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(prepared, 0));
    return bytes != nullptr ? std::string(bytes, static_cast<std::size_t>(sqlite3_column_bytes(prepared, 0)))
                            : std::string("null");
  }

private:
  std::string document_;
  std::unique_ptr<sqlite3, int (*)(sqlite3*)> database_{nullptr, &sqlite3_close};
};

}  // namespace

TEST_CASE("a document is written in both layouts") {
  const auto work = [](JsonWriter& json) {
    json.begin_object().key("room").string("Hall").key("tiles").begin_array();
    json.number(1).number(-2.5).boolean(true).null().begin_object().end_object().end_array().end_object();
  };
  CHECK(written(Layout::compact, work) == "{\"room\":\"Hall\",\"tiles\":[1,-2.5,true,null,{}]}\n");
  CHECK(
      written(Layout::indented, work) ==
      "{\n  \"room\": \"Hall\",\n  \"tiles\": [\n    1,\n    -2.5,\n    true,\n    null,\n    {}\n  ]\n}\n");
  CHECK(written(Layout::compact, [](JsonWriter& json) { json.string(""); }) == "\"\"\n");
}

// T. Bray: RFC 8259, The JavaScript Object Notation (JSON) Data Interchange Format, 2017, section 7: the
// quotation mark, the reverse solidus and U+0000 to U+001F must be escaped.
TEST_CASE("texts and numbers come back as they were") {
  std::string all;
  for (char32_t c = 1; c < 0x3000; ++c) all += utf8(std::u32string(1, c));
  all += utf8(U"\x1f3e0\x10ffff");
  const std::string document = written(Layout::compact, [&](JsonWriter& json) {
    json.begin_array().string(all).number(INT64_MIN).number(INT64_MAX).number(0.1).number(1e300).end_array();
  });
  for (const char c : document.substr(0, document.size() - 1)) CHECK_FALSE((c >= 0 && c < 0x20));
  const Reader back(document);
  CHECK(back.ask("json_valid(?1)") == "1");
  CHECK(back.ask("json_extract(?1, '$[0]')") == all);
  CHECK(back.ask("json_extract(?1, '$[1]')") == std::to_string(INT64_MIN));
  CHECK(back.ask("json_extract(?1, '$[2]')") == std::to_string(INT64_MAX));
  CHECK(back.ask("json_extract(?1, '$[3]') = 0.1") == "1");
  CHECK(back.ask("json_extract(?1, '$[4]') = 1e300") == "1");
  CHECK(written(Layout::compact, [](JsonWriter& json) { json.string(std::string_view("\0", 1)); }) ==
        "\"\\u0000\"\n");
}

TEST_CASE("what JSON cannot hold and wrong order are refused") {
  std::ostringstream out;
  JsonWriter json(out, Layout::compact);
  CHECK_THROWS_AS(json.finish(), Error);
  CHECK_THROWS_AS(json.key("a"), Error);
  CHECK_THROWS_AS(json.end_object(), Error);
  CHECK_THROWS_WITH(json.string("\xe9"), Catch::Contains("0xE9"));
  CHECK_THROWS_AS(json.number(std::numeric_limits<double>::infinity()), Error);
  CHECK_THROWS_AS(json.number(std::numeric_limits<double>::quiet_NaN()), Error);
  json.begin_object();
  CHECK_THROWS_WITH(json.string("a"), Catch::Contains("key"));
  CHECK_THROWS_AS(json.begin_array(), Error);
  CHECK_THROWS_AS(json.end_array(), Error);
  CHECK_THROWS_AS(json.key("\xff"), Error);
  json.key("a");
  CHECK_THROWS_AS(json.key("b"), Error);
  CHECK_THROWS_AS(json.end_object(), Error);
  json.number(1);
  CHECK_THROWS_WITH(json.finish(), Catch::Contains("not complete"));
  json.end_object();
  CHECK_THROWS_AS(json.null(), Error);
  json.finish();
  CHECK(out.str() == "{\"a\":1}\n");
}

TEST_CASE("a full disk is noticed while JSON is written") {
  std::ofstream full("/dev/full", std::ios::binary);
  REQUIRE(full);
  JsonWriter json(full);
  json.string("words");
  CHECK_THROWS_WITH(json.finish(), Catch::Contains("disk full"));
  std::ofstream full_again("/dev/full", std::ios::binary);
  JsonWriter large(full_again);
  large.begin_array();
  const auto fill = [&large] {
    for (int i = 0; i < 100000; ++i) large.string("some words of a statement");
  };
  CHECK_THROWS_AS(fill(), Error);
}
