// Words: bytes, normal forms, keys, order, display; against the documents of Unicode.
#include "core/base/text.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/base/error.hpp"

using namespace lathbook;

namespace {

std::string from(std::u32string_view points) {
  return utf8(points);
}

std::size_t first_bad(std::string_view bytes) {
  return first_invalid_utf8(bytes).value_or(std::string_view::npos);
}

}  // namespace

// The Unicode Standard, version 15.0, section 3.9, table 3-7 (well-formed byte sequences): the ends of
// every row, and the neighbours just outside.
TEST_CASE("UTF-8 is judged by the standard's table") {
  const std::size_t fine = std::string_view::npos;
  for (const char* good : {"\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xec\xbf\xbf", "\xed\x80\x80",
                           "\xed\x9f\xbf", "\xee\x80\x80", "\xef\xbf\xbf", "\xf0\x90\x80\x80",
                           "\xf3\xbf\xbf\xbf", "\xf4\x80\x80\x80", "\xf4\x8f\xbf\xbf"}) {
    CHECK(first_bad(good) == fine);
  }
  for (const char* bad : {"\x80", "\xbf", "\xc0\xaf", "\xc1\xbf", "\xc2\x7f", "\xc2\xc0", "\xe0\x9f\xbf",
                          "\xe0\x80\xaf", "\xed\xa0\x80", "\xed\xbf\xbf", "\xf0\x8f\xbf\xbf",
                          "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff", "\xe2\x82", "\xf0\x9f\x8f"}) {
    CHECK(first_bad(bad) == 0);
    CHECK(first_bad(std::string("0123456789abcdefé") + bad + "tail and more") == 18);
  }
  CHECK(first_bad("") == fine);
  CHECK(first_bad(std::string("\0", 1)) == fine);
}

TEST_CASE("bad bytes are named with their place") {
  CHECK_NOTHROW(require_utf8("Fußleiste", "x"));
  CHECK_THROWS_WITH(require_utf8("Caf\xe9", "rooms.csv:3"),
                    Catch::StartsWith("rooms.csv:3: ") && Catch::Contains("0xE9") &&
                        Catch::Contains("offset 3") && Catch::Contains("Latin-1"));
  CHECK_THROWS_WITH(require_utf8("\x93quoted\x94", "x"), Catch::Contains("Windows-1252"));
  CHECK_THROWS_WITH(require_utf8(std::string("\xff\xfe"
                                             "a\0",
                                             4),
                                 "x"),
                    Catch::Contains("UTF-16"));
  CHECK_THROWS_WITH(require_utf8(std::string("PNG\0\xe9", 5), "x"), Catch::Contains("other than text"));
}

TEST_CASE("every code point goes through UTF-8 and back") {
  for (char32_t c = 0; c <= 0x10ffff; ++c) {
    if (c >= 0xd800 && c <= 0xdfff) continue;
    const std::string bytes = utf8(std::u32string_view(&c, 1));
    if (first_invalid_utf8(bytes) || code_points(bytes) != std::u32string(1, c))
      FAIL("U+" << std::hex << static_cast<unsigned>(c));
  }
  CHECK(code_points("a\xff"
                    "b") ==
        U"a\xfffd"
        U"b");
}

// Unicode Standard Annex 15, Unicode Normalization Forms: figures 3 to 6 and table 1 (cases recalled from
// the annex, not copied from a file): singletons, composition, order of marks, compatibility, Hangul,
// composition exclusion.
TEST_CASE("canonical composition follows UAX 15") {
  CHECK(nfc(from(U"\x212b")) == from(U"\xc5"));
  CHECK(nfc(from(U"\x2126")) == from(U"\x3a9"));
  CHECK(nfc(from(U"o\x302")) == from(U"\xf4"));
  CHECK(nfc(from(U"s\x307\x323")) == from(U"\x1e69"));
  CHECK(nfc(from(U"\x1e0b\x323")) == from(U"\x1e0d\x307"));
  CHECK(nfc(from(U"q\x307\x323")) == from(U"q\x323\x307"));
  CHECK(nfc(from(U"\xfb01")) == from(U"\xfb01"));
  CHECK(nfc(from(U"2\x2075")) == from(U"2\x2075"));
  CHECK(nfc(from(U"\x1e9b\x323")) == from(U"\x1e9b\x323"));
  CHECK(nfc(from(U"\x1100\x1161\x11a8")) == from(U"\xac01"));
  CHECK(nfc(from(U"\x958")) == from(U"\x915\x93c"));
  CHECK(nfc("plain") == "plain");
}

TEST_CASE("what a person would call the same word has the same key") {
  CHECK(fold("  Cornice\t\n moulding ") == "cornice moulding");
  CHECK(fold("Façade") == fold("FACADE"));
  CHECK(fold(from(U"fac\x327"
                  U"ade")) == fold("façade"));
  CHECK(fold("Fußleiste") == "fussleiste");  // full case folding, The Unicode Standard section 5.18
  CHECK(fold(from(U"\xfb01replace")) == "fireplace");
  CHECK(fold(from(U"Hearth\x2019s \x201cwell\x201d 1905\x2013"
                  U"10")) == "hearth's \"well\" 1905-10");
  CHECK(fold(from(U"wains\xad"
                  U"cot\x200b")) == "wainscot");
  CHECK(fold(from(U"a\xa0\x3000"
                  U"b")) == "a b");
  CHECK(fold("") == "");
  CHECK(fold(" \n") == "");
  CHECK(fold("tile 1") != fold("tile 2"));
  CHECK(fold("ı") != fold("i"));  // another letter, not a mark
}

TEST_CASE("ASCII is folded as everything else is") {
  for (char c = 1; c < 127; ++c) {
    const std::string plain{'X', c, c, 'Y', c};
    // The letter beside it sends the same text through the tables of Unicode.
    if (fold(plain + " é") != fold(plain) + " e") FAIL(int{c});
  }
}

TEST_CASE("folding a key again changes nothing") {
  for (char32_t c = 1; c <= 0x10ffff; ++c) {
    if (c >= 0xd800 && c <= 0xdfff) continue;
    const std::string once = fold(from(std::u32string{U'x', c, U'y'}));
    if (fold(once) != once) FAIL("U+" << std::hex << static_cast<unsigned>(c));
  }
}

// Unicode Technical Standard 35, part 5 (Collation), setting kn: digits compare as numbers. Unicode
// Technical Standard 10, table 3 (comparison levels) and section 1.1 (French words without the backward
// setting); recalled from the standards.
TEST_CASE("order is as people expect") {
  const auto ordered = [](const std::vector<std::string>& words) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
      INFO(words[i] << " before " << words[i + 1]);
      CHECK(compare_for_people(words[i], words[i + 1]) < 0);
      CHECK(compare_for_people(words[i + 1], words[i]) > 0);
      CHECK(sort_key(words[i]) < sort_key(words[i + 1]));
    }
  };
  ordered({"A-9", "A-21", "A-123"});
  ordered({"N-2", "N-10", "N-10a", "N-100", "S-1"});
  ordered({"role", "roles", "rule"});
  ordered({"role", "rôle", "roles"});
  ordered({"role", "Role", "rôle"});
  ordered({"cote", "coté", "côte", "côté"});
  CHECK(compare_for_people("x", "x") == 0);
  CHECK(compare_for_people("", "") == 0);
  // Equal for collation, so bytes decide.
  CHECK(compare_for_people("N-02", "N-2") < 0);
  CHECK(sort_key("N-02") == sort_key("N-2"));
  CHECK(sort_key(from(U"o\x302")) == sort_key("ô"));
  CHECK(sort_key("a").find('\0') == std::string::npos);
}

TEST_CASE("nothing hidden or steering is displayed") {
  CHECK(safe_display("plain, größer, 窓\nnext") == "plain, größer, 窓\nnext");
  CHECK(safe_display(from(U"a\x202e"
                          U"b")) == "a<U+202E>b");
  CHECK(safe_display("\x1b[31m\a\t\r") == "<U+001B>[31m<U+0007><U+0009><U+000D>");
  CHECK(safe_display(std::string("\0", 1)) == "<U+0000>");
  CHECK(safe_display(from(U"\x9b")) == "<U+009B>");
  CHECK(safe_display(from(U"\x200b\x2066\xfeff\xad\x2028\x034f\x3164")) ==
        "<U+200B><U+2066><U+FEFF><U+00AD><U+2028><U+034F><U+3164>");
  CHECK(safe_display(from(U"\xe000\x0378\x10ffff")) == "<U+E000><U+0378><U+10FFFF>");
  CHECK(safe_display(from(U"\xe0041")) == "<U+E0041>");  // a tag character
  CHECK(safe_display("x\xff\xc3") == "x<byte FF><byte C3>");
}

// Bidi_Control of The Unicode Standard's property list (PropList.txt), recalled: the twelve of them.
TEST_CASE("every bidirectional control is written out") {
  for (const char32_t c : {0x61cU, 0x200eU, 0x200fU, 0x202aU, 0x202bU, 0x202cU, 0x202dU, 0x202eU, 0x2066U,
                           0x2067U, 0x2068U, 0x2069U}) {
    CHECK(safe_display(utf8(std::u32string(1, c)))[0] == '<');
  }
}

// Unicode Standard Annex 11, East Asian Width (cases recalled).
TEST_CASE("width is counted in columns") {
  CHECK(display_width("abc") == 3);
  CHECK(display_width("") == 0);
  CHECK(display_width("窓") == 2);
  CHECK(display_width(from(U"\xff21")) == 2);
  CHECK(display_width(from(U"\x3000")) == 2);
  CHECK(display_width(from(U"\xff71")) == 1);
  CHECK(display_width(from(U"e\x301")) == 1);
  CHECK(display_width("é") == 1);
  CHECK(display_width(from(U"a\x20dd")) == 1);
  CHECK(display_width(from(U"\x1100\x1161\x11a8")) == 2);
  CHECK(display_width(from(U"\x1f3e0")) == 2);
}

// Names from The Unicode Standard's code charts.
TEST_CASE("a code point is described") {
  CHECK(describe_code_point(0x202e) == "U+202E RIGHT-TO-LEFT OVERRIDE");
  CHECK(describe_code_point(U'é') == "U+00E9 LATIN SMALL LETTER E WITH ACUTE");
  CHECK(describe_code_point(0x1f3e0) == "U+1F3E0 HOUSE BUILDING");
  CHECK(describe_code_point(7) == "U+0007 (control character)");
  CHECK(describe_code_point(0xe000) == "U+E000 (private use)");
  CHECK(describe_code_point(0x378) == "U+0378 (unassigned)");
  CHECK(describe_code_point(0x110000) == "U+110000 (beyond Unicode)");
}

TEST_CASE("lines are wrapped at spaces") {
  using Lines = std::vector<std::string>;
  CHECK(wrap("the hearth was raised", 10) == Lines{"the hearth", "was raised"});
  CHECK(wrap("the hearth was raised", 9) == Lines{"the", "hearth", "was", "raised"});
  CHECK(wrap("one\n\ntwo", 10) == Lines{"one", "", "two"});
  CHECK(wrap("", 10) == Lines{""});
  CHECK(wrap("abcdefgh ij", 3) == Lines{"abc", "def", "gh", "ij"});
  CHECK(wrap("窓窓窓", 4) == Lines{"窓窓", "窓"});
  CHECK(wrap("窓", 1) == Lines{"窓"});
  CHECK(wrap("abc", 0) == Lines{"a", "b", "c"});
  CHECK(wrap("  a   b  ", 10) == Lines{"a b"});
  for (const auto& line : wrap(std::string(500, 'x') + " tail of some words", 37)) {
    CHECK(display_width(line) <= 37);
  }
}

// "kitten" to "sitting" is 3: the customary example for V. I. Levenshtein, Binary codes capable of
// correcting deletions, insertions and reversals, Soviet Physics Doklady 10, 1966.
TEST_CASE("nearest words are offered") {
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("abc", "") == 3);
  CHECK(edit_distance("Façade", "facade") == 0);
  CHECK(edit_distance("tiel", "tile") == 1);
  CHECK(edit_distance("窓", "戸") == 1);
  CHECK(edit_distance("ca", "abc") == 3);  // swapped letters are not edited again
  const std::vector<std::string> known{"material", "maker", "mark", "installed", "removed"};
  CHECK(nearest("materal", known).front() == "material");
  CHECK(nearest("mrak", known).front() == "mark");
  CHECK(nearest("zzzzzz", known).empty());
  CHECK(nearest("mak", known, 1).size() == 1);
}

TEST_CASE("quoted words are short and safe") {
  CHECK(quote("tile") == "“tile”");
  CHECK(quote("") == "“”");
  CHECK(quote("a\nb") == "“a<U+000A>b”");
  CHECK(quote(std::string(60, 'x')) == "“" + std::string(60, 'x') + "”");
  CHECK(quote(std::string(61, 'x')) == "“" + std::string(59, 'x') + "…”");
  CHECK(quote(std::string(58, 'x') + "\n\n") == "“" + std::string(58, 'x') + "…”");
  CHECK(code_points(quote(std::string(1000, '\x01'))).size() <= 62);
  std::string umlauts;
  for (int i = 0; i < 60; ++i) umlauts += "ü";
  CHECK(quote(umlauts) == "“" + umlauts + "”");
}

TEST_CASE("small helpers") {
  using Parts = std::vector<std::string>;
  CHECK(trim(" \t a b\r\n") == "a b");
  CHECK(trim("   ").empty());
  CHECK(trim("") == "");
  CHECK(split("a,,b,", ',') == Parts{"a", "", "b", ""});
  CHECK(split("", ',') == Parts{""});
  CHECK(join({"a", "b", "c"}, ", ") == "a, b, c");
  CHECK(join({}, ", ").empty());
  CHECK(to_lower_ascii("ÄBC-Z[") == "Äbc-z[");
}
