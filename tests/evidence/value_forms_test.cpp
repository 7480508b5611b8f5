// Forms of values, type by type: what is kept and the near misses that are not.
#include <catch2/catch.hpp>

#include "core/evidence/validation.hpp"

using namespace lathbook;

namespace {

const std::string digest(64, 'a');

struct Form {
  ValueType type;
  std::string value;
  std::string fault;  ///< empty = sound; else a part of the sentence
};

void check(const std::vector<Form>& forms, const std::string& choices = "") {
  for (const auto& form : forms) {
    std::string why;
    const bool sound = well_formed(form.type, choices, form.value, Registry::standard(), why);
    INFO(word(form.type) << " '" << form.value.substr(0, 80) << "': " << why);
    CHECK(sound == form.fault.empty());
    CHECK(why.empty() == sound);
    CHECK(why.find(form.fault) != std::string::npos);
  }
}

}  // namespace

// Which characters XML can hold: W3C, 'Extensible Markup Language (XML) 1.0 (Fifth Edition)', 2008,
// section 2.2, production [2]. We also refuse the carriage return and the C1 controls.
TEST_CASE("text") {
  const auto type = ValueType::text;
  check({
      {type, "Sea-green tile", ""},
      {type, "two\nlines\tand a tab", ""},
      {type, "é, e\xCC\x81: both forms stay", ""},
      {type, "\xF0\x9D\x94\x90 beyond the first plane", ""},
      {type, "\xC2\xA0 no-break", ""},
      {type, std::string(1U << 20U, 'x'), ""},
      {type, std::string((1U << 20U) + 1, 'x'), "1 MiB"},
      {type, "", "empty"},
      {type, " \n\t", "empty"},
      {type, std::string("a\0b", 3), "U+0000"},
      {type, "a\x07", "U+0007"},
      {type, "éé\x1b[2J", "character 3"},
      {type, "a\r\nb", "U+000D"},
      {type, "a\x7f", "U+007F"},
      {type, "a\xC2\x85", "U+0085"},
      {type, "a\xC2\x9F", "U+009F"},
      {type, "a\xEF\xBF\xBE", "U+FFFE"},
      {type, "a\xEF\xBF\xBF", "U+FFFF"},
      {type, "a\xEF\xBF\xBD stays", ""},
      {type, "a\xED\xA0\x80", "not UTF-8 at byte 2"},
      {type, "caf\xE9", "not UTF-8 at byte 4"},
  });
}

TEST_CASE("code") {
  const auto type = ValueType::code;
  check({
      {type, "N-204.03", ""},
      {type, "a", ""},
      {type, "2026/T_1", ""},
      {type, std::string(40, 'c'), ""},
      {type, std::string(41, 'c'), "40"},
      {type, "", "empty"},
      {type, "N 204", "character 2"},
      {type, "N-204 ", "character 6"},
      {type, "Ø-1", "character 1"},
      {type, "N:1", "character 2"},
      {type, "../N", "begin and end"},
      {type, "N/", "begin and end"},
  });
}

TEST_CASE("choice and record") {
  check({{ValueType::choice, "lead", ""},
         {ValueType::choice, "Lead", "hazard: lead; asbestos"},
         {ValueType::choice, "lead ", "hazard"},
         {ValueType::choice, "", "hazard"}},
        "hazard");
  check({{ValueType::record, "0b1d8f2e-4c6a-4e53-9a77-3c5e6f708101", ""},
         {ValueType::record, "0B1D8F2E-4c6a-4e53-9a77-3c5e6f708101", "small letters"},
         {ValueType::record, "0b1d8f2e4c6a4e539a773c5e6f708101", "id"},
         {ValueType::record, "N-204", "id"}});
}

// Forms of dates are tested where they are read; here only that the reader is asked.
// Examples: Library of Congress, 'Extended Date/Time Format (EDTF) Specification', 2019.
TEST_CASE("date") {
  const auto type = ValueType::date;
  check({{type, "1984-06-02?/2004-08-08~", ""},
         {type, "156X-12-25", ""},
         {type, "1985-04/..", ""},
         {type, "1985-13", "no date"},
         {type, "about 1890", "no date"},
         {type, "", "no date"}});
}

TEST_CASE("quantity") {
  const auto type = ValueType::quantity;
  check({
      {type, "152 mm", ""},
      {type, "6 in", ""},
      {type, "0.5 kg", ""},
      {type, "5 7/8 in", ""},
      {type, "3/4 in", ""},
      {type, "5' 3 1/2\"", ""},
      {type, "5'", ""},
      {type, "11 15/16\"", ""},
      {type, "12 lb", ""},
      {type, "450 g", ""},
      {type, "152mm", "no measure"},
      {type, "152", "no measure"},
      {type, "mm", "no measure"},
      {type, " mm", "no measure"},
      {type, "152  mm", "no measure"},
      {type, "152 Mm", "no measure"},
      {type, "152 furlong", "no measure"},
      {type, "-3 mm", "no measure"},
      {type, "1,5 m", "no measure"},
      {type, "1e3 mm", "no measure"},
      {type, "nan mm", "no measure"},
      {type, "inf mm", "no measure"},
      {type, "5 8/7 in", "no measure"},
      {type, "5 0/8 in", "no measure"},
      {type, "5 1/0 in", "no measure"},
      {type, "5' 12\"", "no measure"},
      {type, "5' 3", "no measure"},
      {type, "5'3\"", "no measure"},
      {type, "'", "no measure"},
      {type, "\"", "no measure"},
      {type, "", "no measure"},
  });
}

TEST_CASE("number, integer and yes-no") {
  check({
      {ValueType::number, "12", ""},
      {ValueType::number, "-0.5", ""},
      {ValueType::number, "3.25", ""},
      {ValueType::number, "3,25", "comma"},
      {ValueType::number, "3.", "no number"},
      {ValueType::number, ".5", "no number"},
      {ValueType::number, "1e5", "no number"},
      {ValueType::number, "nan", "no number"},
      {ValueType::number, "0x10", "no number"},
      {ValueType::number, "+1", "no number"},
      {ValueType::number, "", "no number"},
      {ValueType::number, "-", "no number"},
      {ValueType::integer, "0", ""},
      {ValueType::integer, "-1", ""},
      {ValueType::integer, "9223372036854775807", ""},
      {ValueType::integer, "9223372036854775808", "no whole number"},
      {ValueType::integer, "007", "no whole number"},
      {ValueType::integer, "-0", "no whole number"},
      {ValueType::integer, "1.0", "no whole number"},
      {ValueType::integer, " 1", "no whole number"},
      {ValueType::integer, "", "no whole number"},
      {ValueType::yes_no, "yes", ""},
      {ValueType::yes_no, "no", ""},
      {ValueType::yes_no, "Yes", "neither"},
      {ValueType::yes_no, "", "neither"},
  });
}

// The first eight are the examples of T. Berners-Lee, R. Fielding, L. Masinter, 'Uniform Resource
// Identifier (URI): Generic Syntax', RFC 3986, 2005, section 1.1.2.
TEST_CASE("uri") {
  const auto type = ValueType::uri;
  check({
      {type, "ftp://ftp.is.co.za/rfc/rfc1808.txt", ""},
      {type, "http://www.ietf.org/rfc/rfc2396.txt", ""},
      {type, "ldap://[2001:db8::7]/c=GB?objectClass?one", ""},
      {type, "mailto:John.Doe@example.com", ""},
      {type, "news:comp.infosystems.www.servers.unix", ""},
      {type, "tel:+1-816-555-1212", ""},
      {type, "telnet://192.0.2.16:80/", ""},
      {type, "urn:oasis:names:specification:docbook:dtd:xml:4.1.2", ""},
      {type, "https://example.org/a%20b", ""},
      {type, "example.org/a", "scheme"},
      {type, "/a/b", "scheme"},
      {type, "1a:b", "scheme"},
      {type, ":b", "scheme"},
      {type, "http:", "ends after its scheme"},
      {type, "http:///path", "host"},
      {type, "https:example.org", "host"},
      {type, "https://example.org/a b", "character 22"},
      {type, "https://example.org/%zz", "character 21"},
      {type, "https://example.org/%2", "character 21"},
      {type, "https://example.org/\"><b>", "character 21"},
      {type, "https://example.org/é", "character 21"},
      {type, "JavaScript:alert(1)", "browser"},
      {type, "data:text/html,x", "browser"},
  });
}

TEST_CASE("media and statement") {
  for (const auto type : {ValueType::media, ValueType::statement}) {
    check({{type, digest, ""},
           {type, std::string(64, 'A'), "SHA-256"},
           {type, digest.substr(1), "SHA-256"},
           {type, digest + "a", "SHA-256"},
           {type, std::string(64, 'g'), "SHA-256"},
           {type, "a0a1a2a3-1", "SHA-256"}});
  }
}

TEST_CASE("polygon") {
  const auto type = ValueType::polygon;
  check({
      {type, "0,0 4.2,0 4.2,3.1", ""},
      {type, "0,0 4,0 4,3 0,3 0,0", ""},
      {type, "-1.5,0 0,2 1.5,0", ""},
      {type, "999990,999990 999994,999990 999994,999993", ""},
      {type, "0,0 4,0", "fewer than three"},
      {type, "0,0 4,0 0,0", "fewer than three"},
      {type, "0,0 1,1 2,2", "no area"},
      {type, "0,0 1,0 1,0 1,1", "twice running"},
      {type, "0,0 nan,0 1,1", "“nan,0”"},
      {type, "0,0 inf,0 1,1", "“inf,0”"},
      {type, "0,0 1e3,0 1,1", "“1e3,0”"},
      {type, "0,0 1,0,5 1,1", "“1,0,5”"},
      {type, "0,0  1,0 1,1", "corner"},
      {type, "0,0 1 1,1", "“1”"},
      {type, "0,0 2000000,0 1,1", "corner"},
      {type, "", "corner"},
  });
}

// Hue letters and the order hue, value, chroma: ASTM D1535, 'Standard Practice for Specifying Color by
// the Munsell System' (form only); the limit of chroma is our own.
TEST_CASE("munsell") {
  const auto type = ValueType::munsell;
  check({
      {type, "10YR 7/4", ""},
      {type, "2.5Y 8.5/2", ""},
      {type, "5BG 6/4", ""},
      {type, "5PB5/10", ""},
      {type, "N 8/", ""},
      {type, "N8", ""},
      {type, "N 9.5/", ""},
      {type, "YR 7/4", "no Munsell"},
      {type, "10 YR 7/4", "no Munsell"},
      {type, "11YR 7/4", "no Munsell"},
      {type, "10RY 7/4", "no Munsell"},
      {type, "10YR 11/4", "no Munsell"},
      {type, "10YR 7", "no Munsell"},
      {type, "10YR 7/", "no Munsell"},
      {type, "10YR 7/4 ", "no Munsell"},
      {type, "10yr 7/4", "no Munsell"},
      {type, "10YR 7/51", "no Munsell"},
      {type, "1.2.3YR 7/4", "no Munsell"},
      {type, "N 8/2", "no Munsell"},
      {type, "N", "no Munsell"},
      {type, "", "no Munsell"},
  });
}

// The bracket signs are those of the Leiden conventions of 1931; that they pair off is our own rule.
TEST_CASE("transcription") {
  const auto type = ValueType::transcription;
  check({
      {type, "MINT[ON HOL]LINS & C(OMPAN)Y", ""},
      {type, "[[erased]] {too much} <left out>", ""},
      {type, "[--- (sic)]", ""},
      {type, "no brackets", ""},
      {type, "é[ON", "“[” at character 2 that nothing closes"},
      {type, "éé ON]", "“]” at character 6 that nothing opens"},
      {type, "[a (b] c)", "“]” at character 6 where “(” at character 4 is still open"},
      {type, "[[a]", "“]” at character 4 where “[[” at character 1 is still open"},
      {type, "", "empty"},
      {type, "a\x01", "U+0001"},
  });
}
