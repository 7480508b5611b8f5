// The rules for one statement: a sound statement passes; each way of spoiling it gives its own finding.
#include <catch2/catch.hpp>
#include <functional>
#include <map>

#include "core/evidence/validation.hpp"

using namespace lathbook;

namespace {

Uuid id(std::uint8_t number) {
  Uuid out;
  out.bytes.back() = number;
  return out;
}

// Ids 1 to 16 are records of the kinds of those numbers, 17 is a second element, 99 does not exist.
std::optional<Kind> kind_of(const Uuid& record) {
  const auto number = record.bytes.back();
  if (number == 17) return Kind::element;
  if (number == 0 || number > 16) return std::nullopt;
  return static_cast<Kind>(number);
}

const Uuid place = id(1), element = id(2), finish = id(10), source = id(11), agent = id(12),
           other_element = id(17), nobody = id(99);

Digest digest(std::uint8_t number) {
  Digest out;
  out.bytes.back() = number;
  return out;
}

const Registry& registry() {
  return Registry::standard();
}

// A sound statement of this property.
Content sound(const std::string& property, const Uuid& subject, const std::string& value) {
  Content content;
  content.subject = subject;
  content.property = registry().named(property).id;
  content.value = value;
  content.author = agent;
  content.said_on = "2026-05-02";
  content.recorder = agent;
  content.evidence = EvidenceClass::physical;
  content.confidence = Confidence::probable;
  content.citations = {{source, "sheet 3", ""}};
  return content;
}

Content covering() {
  auto content = sound("covers", element, other_element.text());
  content.qualifiers = {{"contact", "laps over"}};
  return content;
}

std::string faults(const Content& content) {
  std::string out;
  for (const auto& finding : validate(content, registry(), kind_of)) {
    CHECK(finding.severity == Severity::fault);
    CHECK_FALSE(finding.text.empty());
    out += (out.empty() ? "" : " ") + finding.code;
    UNSCOPED_INFO(finding.code << ": " << finding.text);
  }
  return out;
}

struct Spoilt {
  const char* what;
  std::function<void(Content&)> change;
  const char* code;  ///< the findings expected, blank between; empty = still sound
};

void check(const Content& start, const std::vector<Spoilt>& cases) {
  REQUIRE(faults(start).empty());
  for (const auto& spoilt : cases) {
    auto content = start;
    spoilt.change(content);
    INFO(spoilt.what);
    CHECK(faults(content) == spoilt.code);
  }
}

}  // namespace

TEST_CASE("a relation between elements") {
  check(covering(),
        {
            {"unknown property", [](Content& c) { c.property = 9998; }, "property.unknown"},
            {"no property", [](Content& c) { c.property = 0; }, "property.unknown"},
            {"no subject", [](Content& c) { c.subject = {}; }, "subject.missing"},
            {"subject does not exist", [](Content& c) { c.subject = nobody; }, "subject.missing"},
            {"a place covers nothing", [](Content& c) { c.subject = place; }, "subject.kind"},
            {"a finish covers too", [](Content& c) { c.subject = finish; }, ""},
            {"no value", [](Content& c) { c.value.clear(); }, "value.missing"},
            {"value is a code", [](Content& c) { c.value = "N-204"; }, "value.form"},
            {"value does not exist", [](Content& c) { c.value = nobody.text(); }, "value.missing-record"},
            {"value of another kind", [](Content& c) { c.value = place.text(); }, "value.kind"},
            {"covers itself", [](Content& c) { c.value = c.subject.text(); }, "value.itself"},
            {"edtf beside a record", [](Content& c) { c.edtf = "1890"; }, "value.edtf"},
            {"contact not read is a statement", [](Content& c) { c.qualifiers[0].value = "not read"; }, ""},
            {"contact missing", [](Content& c) { c.qualifiers.clear(); }, "qualifier.missing"},
            {"contact unknown word", [](Content& c) { c.qualifiers[0].value = "glued"; }, "qualifier.form"},
            {"contact empty", [](Content& c) { c.qualifiers[0].value.clear(); }, "qualifier.form"},
            {"contact twice", [](Content& c) { c.qualifiers.push_back(c.qualifiers[0]); }, "qualifier.twice"},
            {"detail not allowed",
             [](Content& c) {
               c.qualifiers.push_back({"share", "half"});
             },
             "qualifier.unknown"},
            {"placement",
             [](Content& c) {
               c.qualifiers.push_back({"placement", "2"});
             },
             ""},
            {"placement no number",
             [](Content& c) {
               c.qualifiers.push_back({"placement", "two"});
             },
             "qualifier.form"},
            {"two faults, both found",
             [](Content& c) {
               c.qualifiers.clear();
               c.confidence = Confidence::none;
             },
             "qualifier.missing confidence.missing"},
        });
}

TEST_CASE("citations, class and confidence") {
  check(covering(),
        {
            {"no citation", [](Content& c) { c.citations.clear(); }, "citation.missing"},
            {"cites an agent", [](Content& c) { c.citations[0].source = agent; }, "citation.source"},
            {"cites nothing there is", [](Content& c) { c.citations[0].source = nobody; }, "citation.source"},
            {"one good citation beside a bad one",
             [](Content& c) {
               c.citations.push_back({element, "", ""});
             },
             "citation.source"},
            {"no class", [](Content& c) { c.evidence = EvidenceClass::none; }, "class.missing"},
            {"no confidence", [](Content& c) { c.confidence = Confidence::none; }, "confidence.missing"},
            {"conjecture is a confidence", [](Content& c) { c.confidence = Confidence::conjecture; }, ""},
            {"author no agent", [](Content& c) { c.author = source; }, "author.kind"},
            {"author not known", [](Content& c) { c.author.reset(); }, ""},
            {"recorder missing record", [](Content& c) { c.recorder = nobody; }, "recorder.kind"},
        });
  auto clerical = sound("code", element, "N-204.03");
  check(clerical, {
                      {"neither source nor class nor confidence",
                       [](Content& c) {
                         c.citations.clear();
                         c.evidence = EvidenceClass::none;
                         c.confidence = Confidence::none;
                       },
                       ""},
                      {"a citation must still be a source", [](Content& c) { c.citations[0].source = agent; },
                       "citation.source"},
                      {"code with a blank", [](Content& c) { c.value = "N 204"; }, "value.form"},
                  });
}

TEST_CASE("a source vouches for itself by citing itself") {
  auto title = sound("title", source, "Plan of the first floor");
  title.citations.clear();
  CHECK(faults(title) == "citation.missing");
  complete(title, registry(), kind_of);
  CHECK(title.citations == std::vector<Citation>{{source, "", ""}});
  CHECK(faults(title).empty());

  auto name = sound("name", place, "Chart Room");
  name.citations.clear();
  complete(name, registry(), kind_of);
  CHECK(name.citations.empty());
  CHECK(faults(name) == "citation.missing");

  auto cited = sound("title", source, "Plan");
  cited.citations = {{source, "title block", ""}};
  const auto before = cited;
  complete(cited, registry(), kind_of);
  CHECK(cited == before);
}

TEST_CASE("records are made once") {
  auto kind = sound("kind", nobody, "element");
  kind.citations.clear();
  kind.evidence = EvidenceClass::none;
  kind.confidence = Confidence::none;
  check(kind, {
                  {"same kind again", [](Content& c) { c.subject = element; }, ""},
                  {"another kind", [](Content& c) { c.subject = place; }, "kind.twice"},
                  {"no kind", [](Content& c) { c.value = "tile"; }, "value.form"},
                  {"unknown is no kind", [](Content& c) { c.value = "unknown"; }, "value.form"},
              });
  check(sound("same-record-as", element, other_element.text()),
        {
            {"of two kinds", [](Content& c) { c.value = place.text(); }, "value.kind"},
        });
}

TEST_CASE("dates") {
  auto dated = sound("installed", element, "1890~");
  check(dated, {
                   {"in words, with the date understood",
                    [](Content& c) {
                      c.value = "about 1890";
                      c.edtf = "1890~";
                    },
                    ""},
                   {"in words alone", [](Content& c) { c.value = "about 1890"; }, "date.unread"},
                   {"understood as no date",
                    [](Content& c) {
                      c.value = "about 1890";
                      c.edtf = "189o";
                    },
                    "date.form"},
                   {"two dates", [](Content& c) { c.edtf = "1891"; }, "date.twice"},
                   {"the same date twice", [](Content& c) { c.edtf = c.value; }, ""},
                   {"words with a control character",
                    [](Content& c) {
                      c.value = "about\x07 1890";
                      c.edtf = "1890~";
                    },
                    "value.form"},
                   {"said on a vague day", [](Content& c) { c.said_on = "2026-05~"; }, ""},
                   {"said on no day", [](Content& c) { c.said_on = "Saturday"; }, "date.form"},
                   {"not known when", [](Content& c) { c.said_on.clear(); }, ""},
               });
}

TEST_CASE("typed dates gain their EDTF") {
  auto dated = sound("installed", element, "about 1890");
  dated.said_on = "2 May 2026";
  dated.privacy = Privacy{"asked by the owner", "2030"};
  complete(dated, registry(), kind_of);
  CHECK(dated.value == "about 1890");
  CHECK(dated.edtf == "1890~");
  CHECK(dated.said_on == "2026-05-02");
  CHECK(dated.privacy->until == "2030");
  CHECK(faults(dated).empty());

  auto plain = sound("installed", element, "1890~");
  complete(plain, registry(), kind_of);
  CHECK(plain.edtf.empty());

  auto years = sound("installed", element, "1905-30");
  complete(years, registry(), kind_of);
  CHECK(years.edtf == "1905/1930");
  CHECK(faults(years).empty());

  auto name = sound("name", place, "Nursery");
  name.qualifiers = {{"from", "about 1911"}, {"sort", "on a plan"}};
  complete(name, registry(), kind_of);
  CHECK(name.qualifier("from") == "1911~");
  CHECK(faults(name).empty());

  auto unread = sound("installed", element, "when the old pilot was alive");
  CHECK_THROWS_AS(complete(unread, registry(), kind_of), Error);
  CHECK(unread.edtf.empty());
}

TEST_CASE("replacing needs a reason") {
  auto better = covering();
  better.targets = {digest(1)};
  better.why = "better reading";
  check(better, {
                    {"no reason", [](Content& c) { c.why.clear(); }, "why.missing"},
                    {"target twice", [](Content& c) { c.targets.push_back(digest(1)); }, "targets.twice"},
                    {"two targets", [](Content& c) { c.targets.push_back(digest(2)); }, ""},
                    {"ground twice",
                     [](Content& c) {
                       c.grounds = {digest(3), digest(3)};
                     },
                     "targets.twice"},
                });
}

TEST_CASE("withdrawing and expunging") {
  for (const auto act : {Act::withdraw, Act::expunge}) {
    Content content;
    content.act = act;
    content.author = agent;
    content.recorder = agent;
    content.said_on = "2026-05-02";
    content.targets = {digest(1), digest(2)};
    content.why = "asked by the informant";
    check(content, {
                       {"private reason",
                        [](Content& c) {
                          c.privacy = Privacy{"names a person", ""};
                        },
                        ""},
                       {"no targets", [](Content& c) { c.targets.clear(); }, "targets.missing"},
                       {"no reason", [](Content& c) { c.why.clear(); }, "why.missing"},
                       {"blank reason", [](Content& c) { c.why = " "; }, "words.form"},
                       {"a subject", [](Content& c) { c.subject = element; }, "act.extra"},
                       {"a property", [](Content& c) { c.property = 4; }, "act.extra"},
                       {"a value", [](Content& c) { c.value = "x"; }, "act.extra"},
                       {"a detail",
                        [](Content& c) {
                          c.qualifiers = {{"placement", "1"}};
                        },
                        "act.extra"},
                       {"a citation",
                        [](Content& c) {
                          c.citations = {{source, "", ""}};
                        },
                        "act.extra"},
                       {"a confidence", [](Content& c) { c.confidence = Confidence::certain; }, "act.extra"},
                       {"a class", [](Content& c) { c.evidence = EvidenceClass::oral; }, "act.extra"},
                       {"grounds", [](Content& c) { c.grounds = {digest(3)}; }, "act.extra"},
                       {"author no agent", [](Content& c) { c.author = element; }, "author.kind"},
                   });
  }
}

TEST_CASE("privacy, language and other words") {
  check(covering(),
        {
            {"private",
             [](Content& c) {
               c.privacy = Privacy{"names a living person", "2040"};
             },
             ""},
            {"private without a reason",
             [](Content& c) {
               c.privacy = Privacy{"", ""};
             },
             "privacy.reason"},
            {"private until no day",
             [](Content& c) {
               c.privacy = Privacy{"asked", "later"};
             },
             "date.form"},
            {"locator with an escape", [](Content& c) { c.citations[0].locator = "\x1b[1m"; }, "words.form"},
            {"quotation not UTF-8", [](Content& c) { c.citations[0].quote = "caf\xE9"; }, "words.form"},
            {"remark", [](Content& c) { c.why = "seen by torch"; }, ""},
            {"remark with a NUL", [](Content& c) { c.why = std::string("a\0b", 3); }, "words.form"},
            {"plugin's name", [](Content& c) { c.proposed_by = "timeline 0.1"; }, ""},
            {"language", [](Content& c) { c.language = "de-AT"; }, ""},
            {"language in words", [](Content& c) { c.language = "German language"; }, "language.form"},
            {"language of one letter", [](Content& c) { c.language = "d"; }, "language.form"},
        });
}

TEST_CASE("findings name the property") {
  auto content = covering();
  content.qualifiers.clear();
  const auto found = validate(content, registry(), kind_of);
  REQUIRE(found.size() == 1);
  CHECK(found[0].place == "covers");
  CHECK(found[0].text == "covers needs the detail contact");
}
