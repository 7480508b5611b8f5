// Draws values.
#include <array>

#include "core/base/digest.hpp"
#include "tests/support/random_archive.hpp"

namespace lathbook::test {

namespace {

constexpr std::array kPlainWords{
    "Sea-green tile",         "lime mortar, hair", "Corrane & Pell",           "north wall",
    "Found under the floor.", "renew stove niche", "chalked CHART RM O/ OFF.", "12",
    "left half of the sheet", "Reed, J."};

// What breaks formats: quotation marks and brackets, ends of CDATA and comments, escapes, formulas, names of
// files with line ends, other scripts and directions, characters outside the first plane, blanks of all
// kinds, things that look like addresses, tags, template marks or percent signs.
constexpr std::array kHardWords{"a \"quoted\" 'word' \\ and \\n",
                                "]]> --> <b>&amp;</b> &lt;",
                                "=HYPERLINK(\"x\")",
                                "+1",
                                "-1",
                                "@sum(A1)",
                                "two\nlines\tand a tab",
                                "100%0D%0A.png",
                                "\u05E9\u05DC\u05D5\u05DD \u0645\u0631\u062D\u0628\u0627",
                                "\u202Eesrever\u202C",
                                "\U0001F9F1\U0001F469\u200D\U0001F527",
                                "e\u0301 \u00E9 \uFB01",
                                "http://example.org/a b?<c>",
                                "urn:x y",
                                "{\"@id\": \"_:b0\"}",
                                "_:b1 a owl:Thing .",
                                "$\\alpha_1$ {x} #~^",
                                "\u00A0no-break\u2028line",
                                "'''\"\"\"",
                                "trailing backslash\\",
                                "@en",
                                "^^xsd:integer",
                                "a,b;c|d",
                                " leading and trailing ",
                                "\uFEFFbom",
                                "%s %n",
                                "../../etc/x",
                                "NULL",
                                "true",
                                "1871"};

constexpr std::array kDates{"1888",
                            "1888-05",
                            "1888-05-03",
                            "1888/1890",
                            "188X",
                            "18XX",
                            "1911~",
                            "1911?",
                            "1911%",
                            "../1890",
                            "1890/..",
                            "1924-21",
                            "1924-33",
                            "1924-06-12/1926",
                            "1904~/1906?",
                            "2024-02-29",
                            "1889-12-31/1890-01-01",
                            "1890/",
                            "/1890",
                            "[1888,1890]",
                            "{1888,1890..1892}",
                            "-0044-03",
                            "2024-05-18T09:30:00Z",
                            "Y17000",
                            "Y-17000",
                            "1950S2",
                            "1884-XX-03"};
constexpr std::array kTypedDates{
    "about 1890", "late 1920s", "spring 1911", "12 June 1924", "between 1888 and 1890", "before 1914"};
constexpr std::array kMeasures{"152 mm", "5' 3 1/2\"", "3 1/2 oz", "11.50 kg", "15/16\"", "0.25 m", "7'"};
constexpr std::array kNumbers{"3.5", "0", "12", "0.125", "1000000"};
constexpr std::array kIntegers{"1", "0", "7", "12", "2"};
constexpr std::array kAddresses{"http://vocab.getty.edu/aat/300010678",
                                "https://example.org/a%20b?x=1&y='2'#z",
                                "http://rightsstatements.org/vocab/InC/1.0/", "urn:isbn:0000000000",
                                "http://creativecommons.org/publicdomain/mark/1.0/"};
constexpr std::array kOutlines{"0,0 4.2,0 4.2,3 0,3", "0,0 1,0 0.5,2.25", "-1.5,0 4,0 4,3 -1.5,3 -1.5,0"};
constexpr std::array kMunsells{"10YR 7/4", "N 8/", "5BG 6/2", "2.5Y 9/1"};
constexpr std::array kReadings{
    "[---]ANE & P[..]L / BURSL[---]", "CHART RM", "Rd N\u1ECD 101774", "(C)HART", "VIIII",
    "\U0001F4CD N-203 <top>"};

}  // namespace

std::size_t RandomValues::below(std::size_t count) {
  // Not std::uniform_int_distribution: its results differ from library to library.
  return count == 0 ? 0 : static_cast<std::size_t>(random_()) % count;
}

bool RandomValues::chance(unsigned percent) {
  return below(100) < percent;
}

std::string RandomValues::text() {
  if (!hard_words_ || chance(50)) return one_of(kPlainWords);
  std::string text = one_of(kHardWords);
  if (chance(20)) text += std::string(" ") + one_of(kHardWords);
  if (chance(2)) {
    std::string longer;
    while (longer.size() < 20'000) longer += text + " ";
    return longer + "end";
  }
  return text;
}

std::string RandomValues::edtf() {
  return one_of(kDates);
}

std::string RandomValues::date() {
  return chance(15) ? one_of(kTypedDates) : one_of(kDates);
}

std::string RandomValues::value(ValueType type, const std::string& list) {
  switch (type) {
    case ValueType::choice: {
      const auto& words = Registry::standard().choices(list);
      return words.empty() ? std::string() : one_of(words);
    }
    case ValueType::yes_no:
      return chance(50) ? "yes" : "no";
    case ValueType::date:
      return date();
    case ValueType::quantity:
      return one_of(kMeasures);
    case ValueType::number:
      return one_of(kNumbers);
    case ValueType::integer:
      return one_of(kIntegers);
    case ValueType::uri:
      return one_of(kAddresses);
    case ValueType::media:
      return sha256("file " + std::to_string(below(12))).hex();
    case ValueType::polygon:
      return one_of(kOutlines);
    case ValueType::munsell:
      return one_of(kMunsells);
    case ValueType::transcription:
      return one_of(kReadings);
    case ValueType::code:
      return "R-" + std::to_string(below(1'000'000));
    default:
      return text();
  }
}

}  // namespace lathbook::test
