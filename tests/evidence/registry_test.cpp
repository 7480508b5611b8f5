// The registry: what the built-in table holds, and that a wrong row of each sort is refused by name.
#include <catch2/catch.hpp>
#include <set>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"

using namespace lathbook;

namespace {

const std::string heading =
    "id\tname\tsubjects\ttype\ttargets\tcount\tcites\tdating\tqualifiers\tprivacy\tlabel\thelp\tcrm\n";
const std::string lists = "# remark\nhue\tred\nhue\tsea green\nsize\tlarge\n";

// A sound row of thirteen cells, to spoil one at a time.
const std::vector<std::string> sound_row{
    "7", "made-of",    "element,piece", "choice", "hue", "many", "source", "covers", "share=text how!=size",
    "-", "is made of", "What it is.",   "P45"};

std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::string out = "# remark\n" + heading;
  for (const auto& row : rows) out += join(row, "\t") + "\n";
  return out;
}

std::string message_of(const std::string& properties, const std::string& choices = lists) {
  try {
    const Registry registry(properties, choices);
  } catch (const Error& error) {
    REQUIRE(error.kind() == ErrorKind::corrupt);
    return error.what();
  }
  return "accepted";
}

}  // namespace

TEST_CASE("a sound table is read") {
  const Registry registry(table({sound_row}), lists);
  const auto& property = registry.named("made-of");
  CHECK(property.id == 7);
  CHECK(property.subjects == std::vector<Kind>{Kind::element, Kind::piece});
  CHECK(property.type == ValueType::choice);
  CHECK(property.choices == "hue");
  CHECK(property.many);
  CHECK(property.cites == Cites::source);
  CHECK(property.dating == "covers");
  REQUIRE(property.qualifiers.size() == 2);
  CHECK_FALSE(property.qualifier("share")->required);
  CHECK(property.qualifier("how")->required);
  CHECK(property.qualifier("how")->type == "size");
  CHECK(property.qualifier("where") == nullptr);
  CHECK_FALSE(property.private_by_default);
  CHECK(property.label == "is made of");
  CHECK(property.help == "What it is.");
  CHECK(property.crm == "P45");
  CHECK(property.said_of(Kind::piece));
  CHECK_FALSE(property.said_of(Kind::place));
  CHECK(registry.find(7) == &property);
  CHECK(registry.find(6) == nullptr);
  CHECK(registry.find(4000000000U) == nullptr);
  CHECK(registry.choices("hue") == std::vector<std::string>{"red", "sea green"});
  CHECK(registry.choices("hues").empty());
}

TEST_CASE("a wrong row is refused by name") {
  struct Spoilt {
    std::size_t column;
    std::string cell;
    std::string says;
  };
  const Spoilt cases[] = {
      {0, "0", "id"},
      {0, "-3", "id"},
      {0, "07", "id"},
      {0, "7x", "id"},
      {0, "99999", "id"},
      {1, "Made", "small letters"},
      {1, "made of", "small letters"},
      {1, "made-", "small letters"},
      {2, "element,wall", "“wall” is no kind"},
      {2, "element,element", "twice"},
      {2, "unknown", "“unknown” is no kind"},
      {2, "any,element", "“any” is no kind"},
      {3, "colour", "no type of value"},
      {3, "yes_no", "no type of value"},
      {4, "hues", "no list of choices “hues”"},
      {4, "-", "no list of choices"},
      {5, "few", "neither “one” nor “many”"},
      {6, "yes", "not one of source, self, none"},
      {7, "cover", "dating rule “cover”"},
      {7, "none", "dating rule “none”"},
      {8, "share", "has no type"},
      {8, "share=words", "neither a type of value nor a list"},
      {8, "share=choice", "neither a type of value nor a list"},
      {8, "share=text share=text", "twice"},
      {8, "share=text  how=size", "has no type"},
      {8, "=text", "small letters"},
      {9, "yes", "neither “-” nor “default”"},
      {10, "-", "no label"},
      {10, "", "column 11 is empty"},
      {11, "-", "no help"},
      {11, "", "column 12 is empty"},
      {11, " What", "column 12"},
      {12, "", "column 13 is empty"},
  };
  for (const auto& spoilt : cases) {
    auto row = sound_row;
    row[spoilt.column] = spoilt.cell;
    const auto message = message_of(table({row}));
    INFO("column " << spoilt.column + 1 << " = '" << spoilt.cell << "': " << message);
    CHECK(message.find(spoilt.says) != std::string::npos);
    CHECK(message.find("properties.tsv, line 3") != std::string::npos);
    if (spoilt.column != 1) CHECK(message.find("made-of") != std::string::npos);
  }
}

TEST_CASE("rows of another number of columns are refused") {
  auto row = sound_row;
  row.pop_back();
  CHECK_THAT(message_of(table({row})), Catch::Contains("“made-of”: has 12 columns, not 13"));
  row = sound_row;
  row.push_back("more");
  CHECK_THAT(message_of(table({row})), Catch::Contains("“made-of”: has 14 columns, not 13"));
  CHECK_THAT(message_of(join(sound_row, "\t") + "\n"), Catch::Contains("first row"));
  CHECK_THAT(message_of("# only a remark\n"), Catch::Contains("no rows"));
}

TEST_CASE("targets belong to records and choices only") {
  auto row = sound_row;
  row[3] = "text";
  CHECK_THAT(message_of(table({row})), Catch::Contains("“made-of”: only records and choices"));
  row[3] = "record";
  CHECK_THAT(message_of(table({row})), Catch::Contains("“hue” is no kind of record (targets)"));
  row[4] = "-";
  CHECK_THAT(message_of(table({row})), Catch::Contains("must say which kinds"));
  row[4] = "any";
  CHECK(Registry(table({row}), lists).named("made-of").targets.empty());
  row[4] = "same-kind";
  CHECK(Registry(table({row}), lists).named("made-of").same_kind);
  row[4] = "place,element";
  CHECK(Registry(table({row}), lists).named("made-of").targets ==
        std::vector<Kind>{Kind::place, Kind::element});
}

TEST_CASE("ids and names are given once") {
  auto other = sound_row;
  other[1] = "made-with";
  CHECK_THAT(message_of(table({sound_row, other})),
             Catch::Contains("line 4, “made-with”") && Catch::Contains("id 7"));
  other = sound_row;
  other[0] = "8";
  CHECK_THAT(message_of(table({sound_row, other})),
             Catch::Contains("line 4, “made-of”") && Catch::Contains("name already"));
}

TEST_CASE("wrong lines of the lists are refused") {
  const std::pair<const char*, const char*> cases[] = {
      {"hue red\n", "a tab"},
      {"hue\t\n", "empty"},
      {"hue\tred \n", "blanks"},
      {"hue\tred\tgreen\n", "tab"},
      {"hue\tred\nhue\tred\n", "twice"},
      {"Hue\tred\n", "small letters"},
      {"text\tred\n", "type of value"},
      {"hue\tred\nsize\tlarge\nhue\tgreen\n", "together"},
  };
  for (const auto& [choices, says] : cases) {
    INFO(choices);
    CHECK_THAT(message_of(table({sound_row}), choices),
               Catch::Contains("choices.tsv, line") && Catch::Contains(says));
  }
}

TEST_CASE("kinds and types have words") {
  CHECK(all_kinds().size() == 16);
  for (const auto kind : all_kinds()) CHECK(kind_from_word(word(kind)) == kind);
  CHECK(word(Kind::unknown) == "unknown");
  CHECK_FALSE(kind_from_word("unknown"));
  CHECK_FALSE(kind_from_word("Place"));
  CHECK(value_type_from_word("yes-no") == ValueType::yes_no);
  CHECK(word(ValueType::yes_no) == "yes-no");
  CHECK_FALSE(value_type_from_word("contact"));
}

TEST_CASE("the built-in table holds what code names") {
  const auto& registry = Registry::standard();
  const std::pair<std::uint32_t, const char*> named[] = {
      {property::kind, "kind"},
      {property::code, "code"},
      {property::name, "name"},
      {property::same_record_as, "same-record-as"},
      {property::private_record, "private-record"},
      {property::source_type, "source-type"},
      {property::title, "title"},
      {property::media, "media"},
      {property::consent, "consent"},
      {property::public_name, "public-name"},
  };
  for (const auto& [id, name] : named) {
    INFO(name);
    REQUIRE(registry.find(id) != nullptr);
    CHECK(registry.find(id)->name == name);
  }
  std::vector<std::string> kinds;
  for (const auto kind : all_kinds()) kinds.emplace_back(word(kind));
  CHECK(registry.choices("kind") == kinds);
  for (const auto& property : registry.properties()) {
    INFO(property.name);
    CHECK(registry.find(property.id) == &property);
    CHECK(registry.find(property.name) == &property);
  }
}

TEST_CASE("an unknown name is answered with the nearest") {
  const auto& registry = Registry::standard();
  CHECK_THROWS_WITH(registry.named("stand-in"),
                    Catch::Contains("“stand-in”") && Catch::Contains("stands-in"));
  CHECK_THROWS_WITH(registry.named("zzzzzzzzzzzz"), Catch::Contains("lathbook properties"));
}
