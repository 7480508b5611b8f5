// Transcriptions: the published signs, what is typed for them, faults with their place, hostile text.
#include "core/base/transcription.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <random>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;

namespace {

// Tokens in a short hand for comparing: letters as they are, flags behind them.
std::string tokens_of(const Transcription& read) {
  std::string text;
  for (const Token& token : read.tokens) {
    if (!text.empty()) text += ' ';
    const char32_t c = token.letter;
    switch (token.kind) {
      case TokenKind::letter:
      case TokenKind::sign:
        text += utf8(std::u32string_view(&c, 1));
        break;
      case TokenKind::space:
        text += '_';
        break;
      case TokenKind::line_end:
        text += token.is(kTight) ? "/!" : "/";
        break;
      case TokenKind::part_end:
        text += "//";
        break;
      case TokenKind::gap:
      case TokenKind::blank: {
        constexpr const char* reasons[] = {"end", "lost", "illegible", "covered", "erased"};
        text += token.kind == TokenKind::blank ? "blank" : reasons[static_cast<int>(token.reason)];
        text += token.least < 0   ? "*"
                : token.counted() ? std::to_string(token.least)
                                  : std::to_string(token.least) + "-" + std::to_string(token.most);
        if (token.is(kWholeLine)) text += "line";
        break;
      }
      case TokenKind::note:
        text += "note" + utf8(std::u32string_view(&c, 1));
        break;
    }
    constexpr std::pair<Standing, char> flags[] = {
        {kUncertain, 'u'},   {kRestored, 'r'},    {kExpanded, 'x'}, {kErased, 'e'},
        {kOverErasure, 'o'}, {kSuperfluous, 's'}, {kSupplied, 'm'}, {kCorrected, 'c'},
        {kAdded, 'a'},       {kDoubtful, 'd'},    {kMirrored, 'f'}, {kJoined, 'j'}};
    bool first = true;
    for (const auto& [flag, letter] : flags) {
      if (!token.is(flag)) continue;
      text += first ? "." : "";
      text += letter;
      first = false;
    }
  }
  return text;
}

std::string read(std::string_view text, bool counted = false) {
  return tokens_of(read_transcription(text, {counted}));
}

std::string shown(std::string_view text, bool counted = false) {
  return read_transcription(text, {counted}).shown();
}

std::string fault(std::string_view text) {
  const auto found = fault_in_transcription(text);
  return found ? found->reason : "";
}

double seconds(const std::string& text) {
  const auto start = std::chrono::steady_clock::now();
  if (!fault_in_transcription(text)) read_transcription(text).shown();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

std::string times(std::string_view what, std::size_t n) {
  std::string text;
  for (std::size_t i = 0; i < n; ++i) text += what;
  return text;
}

}  // namespace

// H. Krummrey and S. Panciera, Tituli 2, 1980, in the EpiDoc alignment (guidelines edition 8, appendix): the
// numbers of its headings stand beside the signs.
TEST_CASE("the published signs are read for what they mean") {
  CHECK(read("abc / abc") == "a b c / a b c");    // II.1 lines
  CHECK(read("abc // abc") == "a b c // a b c");  // II.2 faces, columns
  CHECK(read("ạḅc") == "a.u b.u c");              // III.3 ambiguous
  CHECK(read("a\xcc\xa3") == "a.u");              // the same, decomposed
  CHECK(read("+++") == "illegible3");             // III.4 illegible, number known
  CHECK(read("a\xcd\xa1"
             "bc") == "a.j b c");                 // IV.4 ligature
  CHECK(read("〚abc〛") == "a.e b.e c.e");        // V.1 erased, legible
  CHECK(read("〚[abc]〛") == "a.re b.re c.re");   // V.2 erased, restored
  CHECK(read("〚[...]〛", true) == "erased3.e");  // V.3 erased and lost
  CHECK(read("〚[c. 5]〛") == "erased3-7.e");
  CHECK(read("〚[- - -]〛") == "erased*.e");
  CHECK(read("«abc»") == "a.o b.o c.o");            // VI.1 over an erasure
  CHECK(read("«[...]»", true) == "lost3.o");        // VI.3
  CHECK(read("`abc´") == "a.a b.a c.a");            // VII.1 added
  CHECK(read("[abc]") == "a.r b.r c.r");            // VIII.1 restored
  CHECK(read("[...]", true) == "lost3");            // VIII.2 lost, number known
  CHECK(read("[ c. 5 ]") == "lost3-7");             // VIII.3 about
  CHECK(read("[- - -]") == "lost*");                // VIII.3 unknown
  CHECK(read("[ - ]") == "lost*");                  // VIII.4
  CHECK(read("[ - - - - - - ]") == "lost*line");    // VIII.5 line lost
  CHECK(read("- - - - - -") == "lost*line");        // VIII.6
  CHECK(read("[ - - - ?]") == "lost*.d");           // VIII.7 perhaps lost
  CHECK(read("{abc}") == "a.s b.s c.s");            // IX.1 superfluous
  CHECK(read("<abc>") == "a.m b.m c.m");            // IX.2 omitted
  CHECK(read("⸢abc⸣") == "a.c b.c c.c");            // IX.3 corrected
  CHECK(read("a(bc)") == "a b.x c.x");              // X.1 expanded
  CHECK(read("a(- - -)") == "a end*");              // X.2 not expanded
  CHECK(read("a(!)") == "a note!");                 // XI.1 sic
  CHECK(read("a (vac. 3) b") == "a _ blank3 _ b");  // XI.2 vacat
  CHECK(read("((N))") == "N.f");                    // after IV.3 and Panciera 1991, C.VII
}

TEST_CASE("what a phone types stands for the published sign") {
  CHECK(shown("[---]ANE & P[..]L / BURSL[---]") == "[- - -]ANE & P[c. 2?]L / BURSL[- - -]");
  CHECK(shown("[—]ANE") == "[- - -]ANE");
  CHECK(shown("---ANE") == "[- - -]ANE");
  CHECK(shown("[[OLD]] CO") == "〚OLD〛 CO");
  CHECK(shown("[[---]]") == "〚[- - -]〛");
  CHECK(shown("<<NEW>>") == "«NEW»");
  CHECK(shown("BURSL?OW") == "BURSḶOW");
  CHECK(shown("`X'") == "`X´");
  CHECK(shown("A~E") == "A͡E");
  CHECK(shown("STA%NTO%N") == "STA((N))TO((N))");
  CHECK(shown("STAИTOИ") == "STA((N))TO((N))");
  CHECK(shown("STAN(rev.)") == "STA((N))");
  CHECK(shown("CORRANE|PELL") == "CORRANE|PELL");
  CHECK(shown("CORRANE\nPELL") == "CORRANE / PELL");
  CHECK(shown("[.. mortar]L") == "[c. 2? covered]L");
  CHECK(shown("[3 covered]L") == "[3 covered]L");
  CHECK(shown("[---#]L") == "[- - - covered]L");
  CHECK(shown("[2 worn]L") == "++L");
  CHECK(shown("← NOTNATS") == "(rtl) NOTNATS");
  CHECK(read_transcription("A / (rtl) B / C").right_to_left == std::vector<bool>{false, true, false});
  CHECK(read_transcription("(mirrored) TOOT").mirrored_plate);
  CHECK(read_transcription("A / B // C\nD").lines.size() == 4);
}

TEST_CASE("dots typed by hand are some letters, unless they were counted") {
  CHECK(read("P[..]L") == "P lost1-7 L");
  CHECK(read("P[..]L", true) == "P lost2 L");
  CHECK(read("P[2]L") == "P lost2 L");
  CHECK(read("P[2-4]L") == "P lost2-4 L");
  CHECK(read("P..L") == "P illegible1-7 L");
  CHECK(read("P…L") == "P illegible1-9 L");
  CHECK(read("P[AB..]L") == "P A.r B.r lost1-7 L");
  CHECK(read("PAT. APR. 7 08") == "P A T . _ A P R . _ 7 _ 0 8");
  CHECK(read("18[88]") == "1 8 8.r 8.r");  // digits beside digits are restored, not a count
  CHECK(read("[88 lost]") == "lost88");
}

TEST_CASE("the four reasons of a gap stay apart") {
  CHECK(read("[---] [--- worn] [--- mortar] [[---]] [--- erased]") ==
        "lost* _ illegible* _ covered* _ erased*.e _ erased*");
}

TEST_CASE("strokes, marks of doubt and signs keep their place") {
  CHECK(read("CHART RM O/ OFF.") == "C H A R T _ R M _ O / _ O F F .");
  CHECK(read_transcription("CHART RM O/ OFF.").lines.size() == 1);
  CHECK(read("3/4 IN") == "3 / 4 _ I N");
  CHECK(read_transcription("3/4 IN").tokens[1].kind == TokenKind::sign);
  CHECK(read("AB/CD") == "A B /! C D");
  CHECK(read("[abc?]") == "a.rd b.rd c.rd");
  CHECK(read("(ab?)c") == "a.xd b.xd c");
  CHECK(read("A?B") == "A.u B");
  CHECK(read("A ? B") == "A _ illegible1 _ B");
  CHECK(read("50% WOOL") == "5 0 % _ W O O L");
  CHECK(read("\\[A\\]") == "[ A ]");
  CHECK(read("Москва И") == "М о с к в а _ И");
  CHECK(read("Café") == "C a f é");
  CHECK(read("Cafe\xcc\x81") == "C a f é");
  CHECK(read_transcription("P[AT]ENT (NO) 5").letters() == "PENT  5");
  CHECK(read_transcription("[---]ANE / P[A]L").plain() == "…ANE / PAL");
}

TEST_CASE("a fault names its place") {
  CHECK(fault("[---]ANE & P[..L") == "has a bracket “[” at character 13 that nothing closes");
  CHECK(fault("AB]") == "has a bracket “]” at character 3 that nothing opens");
  CHECK(fault("[AB)") == "has a bracket “)” at character 4 where “[” at character 1 is still open");
  CHECK(fault("é〚A]") == "has a bracket “]” at character 4 where “〚” at character 2 is still open");
  CHECK(fault("A[]B") == "has nothing in the bracket “[” at character 2; write [---] for letters lost");
  CHECK(fault("(rev.)") == "has “(rev.)” at character 1 with no letter before it");
  CHECK(fault("A\xff") == "is not UTF-8 at byte 2");
  CHECK(fault_in_transcription("é[")->at == 2);
  CHECK_THROWS_WITH(read_transcription("AB]"),
                    "the transcription “AB]” has a bracket “]” at character 3 that nothing opens");
}

// The 13 vectors of the published signs as search patterns.
TEST_CASE("what a thing could have borne follows the search vectors") {
  const auto folder = test::standards();
  if (folder.empty()) {
    WARN("the folder of standards is not here; the search vectors are left out");
    return;
  }
  std::size_t checked = 0;
  for (const auto& line : split(test::read_file(folder / "leiden" / "search-vectors.tsv"), '\n')) {
    const auto cells = split(line, '\t');
    if (cells.size() < 3 || cells[0] == "transcription") continue;
    const auto transcription = read_transcription(cells[0], {true});
    for (const auto& text : split(cells[1], ';')) {
      INFO(cells[0] << " bears " << text);
      CHECK(could_bear(transcription, trim(text)));
      ++checked;
    }
    INFO(cells[0] << " does not bear " << cells[2]);
    for (const auto& text : split(cells[2], ';')) CHECK_FALSE(could_bear(transcription, trim(text)));
  }
  CHECK(checked >= 20);
}

// Found by fuzzing: a doubtful digit before another bracket, a blank before a doubtful supplement, blanks and
// gaps that brackets part.
TEST_CASE("what once printed as something else") {
  for (const char* text : {"[a---6?][2$8]", "[- - -3?][3-4][--- mor]", "[c. 3]", "[(( ))SN?]",
                           "8?[ [ W---6?]]", "(a )(/b)", "(No--?\?\?)?\?"}) {
    INFO(text);
    const auto fault = fault_in_transcription(text);
    if (fault) FAIL(fault->reason);
    const auto once = read_transcription(text);
    const auto again = read_transcription(once.shown(), {true});
    CHECK(again.shown() == once.shown());
    CHECK(again.tokens.size() == once.tokens.size());
  }
}

TEST_CASE("what is printed reads again as the same") {
  const std::vector<std::string> bits = {"A",
                                         "b",
                                         "8",
                                         "É",
                                         "Ṇ",
                                         "[",
                                         "]",
                                         "[[",
                                         "]]",
                                         "(",
                                         ")",
                                         "<",
                                         ">",
                                         "{",
                                         "}",
                                         "«",
                                         "»",
                                         "〚",
                                         "〛",
                                         "⸢",
                                         "⸣",
                                         "`",
                                         "´",
                                         "'",
                                         "?",
                                         "+",
                                         ".",
                                         "..",
                                         "…",
                                         "-",
                                         "---",
                                         " ",
                                         " / ",
                                         "/",
                                         "//",
                                         "|",
                                         "\n",
                                         "%",
                                         "~",
                                         "\\",
                                         "&",
                                         "·",
                                         "[..]",
                                         "[3]",
                                         "[c. 5]",
                                         "[2-4]",
                                         "[--- mortar]",
                                         "(!)",
                                         "(rtl)",
                                         "(vac. 2)",
                                         "(- - -)",
                                         "((N))",
                                         "И",
                                         "\xcc\xa3",
                                         "\xcd\xa1",
                                         "\xe2\x80\xae",
                                         ",",
                                         "c. ",
                                         "12",
                                         "#"};
  std::random_device device;
  const auto seed = device();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::size_t readable = 0;
  for (int round = 0; round < 20000; ++round) {
    std::string text;
    const std::size_t length = 1 + random() % 9;
    for (std::size_t i = 0; i < length; ++i) text += bits[random() % bits.size()];
    const bool counted = random() % 2 == 0;
    if (fault_in_transcription(text)) continue;
    ++readable;
    const auto once = read_transcription(text, {counted});
    const std::string printed = once.shown();
    INFO("text " << text << "   printed " << printed);
    REQUIRE_FALSE(fault_in_transcription(printed));
    REQUIRE(tokens_of(read_transcription(printed, {true})) == tokens_of(once));
    REQUIRE(read_transcription(printed, {true}).shown() == printed);
  }
  CHECK(readable > 1000);
}

TEST_CASE("hostile text is refused or read in bounded time") {
  const std::size_t mega = 1U << 20U;
  CHECK(fault(times("A", 10 * mega)) == "is longer than 1 MiB; keep it as a file and say where");
  CHECK_THAT(fault(times("[", 10000)), Catch::StartsWith("has brackets more than 12 deep at character 25"));
  CHECK_THAT(fault(times("(", 10000) + times(")", 10000)),
             Catch::StartsWith("has brackets more than 12 deep"));
  CHECK_THAT(fault(times("]", 10000)), Catch::StartsWith("has a bracket “]” at character 1"));
  CHECK(fault(times("[A]", 10000)).empty());
  CHECK_THAT(fault("A" + times("\xcc\x81", 100000)), Catch::Contains("more than 8 marks on the letter"));
  // Right-to-left script is letters like any other; controls that turn the order are passed over, and said.
  CHECK(read("שלום") == "ש ל ו ם");
  const auto turned = read_transcription(
      "A\xe2\x80\xae"
      "B");
  CHECK(tokens_of(turned) == "A B");
  REQUIRE(turned.remarks.size() == 1);
  CHECK_THAT(turned.remarks[0], Catch::StartsWith("1 character that is drawn as nothing"));
  const double plain = seconds(times("A", mega));
  for (const char* bit : {"[",
                          "(",
                          "<",
                          "`",
                          "..",
                          "+",
                          "?",
                          "%",
                          "~",
                          "- ",
                          "/",
                          "\\",
                          "\xcc\x81",
                          "[A]",
                          "(vac. 3)",
                          "((N))",
                          "[---]",
                          "A\xcc\x81\xcc\xa3",
                          "\xe2\x80\xae",
                          "(- - -",
                          "[c. 3"}) {
    const std::string text = times(bit, (mega - 8) / std::string_view(bit).size());
    INFO(bit << ": " << seconds(text) << " s against " << plain << " s of plain letters");
    CHECK(seconds(text) < 60 * plain + 1.0);
  }
  CHECK_THROWS_WITH(could_bear(read_transcription(times("A", 5000)), "A"), Catch::Contains("4,096"));
}
