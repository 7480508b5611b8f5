// What is concluded from painted things, what is refused, and what is proposed.
#include <algorithm>
#include <iostream>
#include <random>

#include "tests/finishes/painted_room.hpp"

using namespace lathbook;
using test::about;
using test::Coat;
using test::PaintedRoom;

namespace {

const std::vector<Coat> kFull{{"10R 8/2", "primer"}, {"7.5YR 4/4"}, {"5G 3/4"},
                              {"5PB 5/4"},           {"5Y 8/6"},    {"N 9/"}};

std::vector<Coat> from(std::size_t first) {
  return {kFull.begin() + static_cast<std::ptrdiff_t>(first), kFull.end()};
}

bool has(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

TEST_CASE("finishes: a later thing is put after the coat it lacks, with relations to accept") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  room.thing("E-2", from(2));
  const FinishLayers layers = room.layers(room.room);
  const FinishAlignment found = about(layers, "E-2");
  CHECK(found.concluded);
  CHECK(found.k == 1);
  CHECK(found.confidence == Confidence::probable);
  CHECK_THAT(found.words, Catch::Contains("put in after coat 2, 7.5YR 4/4"));
  CHECK_THAT(found.words, Catch::Contains("stood when coat 3 was put on"));
  const auto names = test::proposed(room, layers, "E-2");
  CHECK(has(names, "put-in-after-coat"));
  CHECK(has(names, "in-place-by-coat"));
  CHECK(has(names, "same-coat-as"));
  for (const Draft& draft : layers.proposals) {
    INFO(draft.words);
    CHECK(draft.content.confidence >= Confidence::probable);
    CHECK_FALSE(draft.content.citations.empty());
    CHECK_FALSE(draft.content.grounds.empty());
    CHECK(draft.content.evidence == EvidenceClass::physical);
  }
}

TEST_CASE("finishes: nothing is concluded where nothing can be") {
  struct Row {
    const char* code;
    std::vector<Coat> coats;
    const char* stripping;
    FinishRefusal refusal;
    const char* words;
  };
  const std::vector<Row> rows{
      {"E-11", from(2), "", FinishRefusal::unexamined, "Nobody has looked"},
      {"E-12", from(2), "not looked", FinishRefusal::unexamined, "Nobody has looked"},
      {"E-13", from(2), "could not tell", FinishRefusal::unexamined, "nobody could tell"},
      {"E-14", from(2), "found", FinishRefusal::stripped, "stripped"},
      {"E-15",
       {{"", "stripped zone"}, {"5G 3/4"}, {"5PB 5/4"}, {"5Y 8/6"}},
       "looked, none",
       FinishRefusal::stripped,
       "stripped"},
      {"E-16", {{"5G 3/4"}}, "looked, none", FinishRefusal::single_coat, "single coat"},
      {"E-17",
       {{"N 9/"}, {"N 9.5/"}, {"2.5Y 9/1"}},
       "looked, none",
       FinishRefusal::white_only,
       "whites only"},
      {"E-18", {{"10R 8/2", "primer"}, {"N 8/", "undercoat"}}, "looked, none", FinishRefusal::no_coats, "no"},
      {"E-19", {{"5B 8/6"}, {"5P 4/8"}, {"5RP 7/8"}}, "looked, none", FinishRefusal::unlike, "Too few"},
  };
  PaintedRoom room;
  room.thing("E-1", kFull);
  for (const Row& row : rows) room.thing(row.code, row.coats, row.stripping);
  const FinishLayers layers = room.layers(room.room);
  for (const Row& row : rows) {
    const FinishAlignment found = about(layers, row.code);
    INFO(row.code << ": " << found.words);
    CHECK_FALSE(found.concluded);
    CHECK(found.refusal == row.refusal);
    CHECK_THAT(found.words, Catch::Contains(row.words, Catch::CaseSensitive::No));
    const auto names = test::proposed(room, layers, row.code);
    CHECK_FALSE(has(names, "put-in-after-coat"));
    CHECK_FALSE(has(names, "in-place-by-coat"));
    CHECK_FALSE(has(names, "same-coat-as"));
  }
}

TEST_CASE("finishes: what is read on site is possible at most, on either side") {
  for (const bool reference_on_site : {true, false}) {
    PaintedRoom room;
    room.thing("E-1", kFull, "looked, none", reference_on_site ? "eye" : "laboratory");
    room.thing("E-2", from(2), "looked, none", reference_on_site ? "laboratory" : "eye");
    const FinishLayers layers = room.layers(room.room);
    CHECK(about(layers, "E-2").concluded);
    CHECK(about(layers, "E-2").confidence == Confidence::possible);
    CHECK_THAT(about(layers, "E-2").words, Catch::Contains("Possible, not more: "));
    CHECK_THAT(about(layers, "E-2").words, Catch::Contains("read on site"));
    for (const Draft& draft : layers.proposals) CHECK(draft.content.confidence == Confidence::possible);
  }
}

TEST_CASE("finishes: an examination counts, and a clear finish under the paint stops the conclusion") {
  for (const std::string clear : {"looked, none", "found"}) {
    PaintedRoom room;
    room.thing("E-1", kFull);
    const Uuid later = room.thing("E-2", from(2), "");
    const Uuid look = room.reader.add(Kind::examination, "X-1", "Loupe");
    room.reader.say(look, "examined", later);
    room.reader.say(look, "method", "loupe");
    room.reader.say(look, "sought", "signs of stripping", Confidence::certain, {{"outcome", "looked, none"}});
    room.reader.say(look, "sought", "a clear first finish", Confidence::certain, {{"outcome", clear}});
    const FinishLayers layers = room.layers(room.room);
    const FinishAlignment found = about(layers, "E-2");
    CHECK(found.concluded == (clear == "looked, none"));
    CHECK(found.refusal == (clear == "found" ? FinishRefusal::clear_first : FinishRefusal::none));
  }
}

TEST_CASE("finishes: an unsure reading makes the finding no surer") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid thing = room.thing("E-2", from(2));
  const Uuid last = room.reader.add(Kind::finish, "E-2.f5", "last");
  room.reader.say(last, "finish-on", thing);
  room.reader.say(last, "layer", "5", Confidence::possible);
  room.reader.say(last, "layer-role", "varnish");
  CHECK(about(room.layers(room.room), "E-2").concluded);
  CHECK(about(room.layers(room.room), "E-2").confidence == Confidence::possible);
}

TEST_CASE("finishes: conjectures and what the request does not believe take no part") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid later = room.thing("E-2", from(2), "");
  room.reader.say(later, "stripping-looked-for", "looked, none", Confidence::conjecture,
                  {{"method", "laboratory"}});
  CHECK(about(room.layers(room.room), "E-2").refusal == FinishRefusal::unexamined);
  room.reader.say(later, "stripping-looked-for", "looked, none", Confidence::possible,
                  {{"method", "laboratory"}});
  CHECK(about(room.layers(room.room), "E-2").concluded);
  test::StillServices services;
  const auto strict =
      finishes::layers_of(Snapshot(room.reader), {room.room, Level::probable, {}, {}}, services);
  CHECK(about(strict, "E-2").refusal == FinishRefusal::unexamined);
}

TEST_CASE("finishes: a number left out or given twice is told") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid thing = room.thing("E-2", from(2));
  const Uuid again = room.reader.add(Kind::finish, "E-2.f8", "again");
  room.reader.say(again, "finish-on", thing);
  room.reader.say(again, "layer", "2");
  room.reader.say(again, "layer-role", "finish coat");
  room.reader.say(again, "munsell", "5R 4/8");
  const FinishAlignment found = about(room.layers(room.room), "E-2");
  CHECK(found.refusal == FinishRefusal::layers_unclear);
  CHECK_THAT(found.words, Catch::Contains("Two layers have the number 2"));
}

TEST_CASE("finishes: a notation that cannot be read is shown with the place of its fault") {
  PaintedRoom room;
  room.thing("E-1", {{"7.5YR 4/4"}, {"10YR 7,4"}, {"5G 3/4"}});
  const FinishLayers layers = room.layers(room.room);
  const FinishCoat& coat = layers.sequences.front().coats[1];
  CHECK_THAT(coat.colour_fault, Catch::Contains("at character 7"));
  CHECK_FALSE(coat.compared);
  CHECK(coat.chip.srgb.empty());
}

TEST_CASE("finishes: measured colours take part, and one under another light does not") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid later = room.thing("E-2", {{""}, {""}, {"N 9/"}});
  // About 5G 3/4 and 5PB 5/4.
  room.reader.say(room.reader.record_by_code("E-2.f1")->id, "measured-colour", "31 -20 7");
  Statement& second =
      room.reader.say(room.reader.record_by_code("E-2.f2")->id, "measured-colour", "51.6 0 -16");
  CHECK(about(room.layers(room.room), "E-2").concluded);
  CHECK(about(room.layers(room.room), "E-2").k == 1);
  second.content.qualifiers.push_back({"illuminant", "A"});
  const FinishLayers layers = room.layers(later);
  const auto sequence = std::find_if(layers.sequences.begin(), layers.sequences.end(),
                                     [](const auto& one) { return one.element.code == "E-2"; });
  REQUIRE(sequence != layers.sequences.end());
  CHECK_THAT(sequence->coats[1].colour_fault, Catch::Contains("only colours under D65"));
}

TEST_CASE("finishes: like is compared with like, and the lonely are told so") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  room.thing("E-2", from(2), "looked, none", "laboratory", "plaster");
  const FinishLayers layers = room.layers(room.room);
  CHECK(layers.groups.size() == 2);
  CHECK(layers.proposals.empty());
  for (const FinishSequence& sequence : layers.sequences)
    CHECK(sequence.refusal == FinishRefusal::no_neighbour);
}

TEST_CASE("finishes: of several samples of one thing the fullest decides") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid thing = room.thing("E-2", kFull);
  const Uuid whole = room.reader.add(Kind::sample, "SA-1", "corner");
  const Uuid worn = room.reader.add(Kind::sample, "SA-2", "edge");
  for (int layer = 1; layer <= 6; ++layer) {
    const Uuid finish = room.reader.record_by_code("E-2.f" + std::to_string(layer))->id;
    room.reader.say(finish, "seen-in-sample", whole);
    if (layer > 2) room.reader.say(finish, "seen-in-sample", worn);
  }
  const FinishLayers layers = room.layers(thing);
  CHECK(layers.sequences.size() == 3);
  for (const FinishAlignment& one : layers.groups.front().alignments) {
    const FinishSequence& sequence = layers.sequences[one.sequence];
    if (sequence.sample.code != "SA-2") continue;
    CHECK_FALSE(one.concluded);
    CHECK_THAT(one.words, Catch::Contains("SA-1"));
  }
  CHECK_FALSE(has(test::proposed(room, layers, "E-2"), "put-in-after-coat"));
}

TEST_CASE("finishes: a sample that does not reach the substrate concludes nothing") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  room.thing("E-2", from(2));
  const Uuid sample = room.reader.add(Kind::sample, "SA-1", "flake");
  room.reader.say(sample, "reaches", "green to surface");
  for (int layer = 1; layer <= 4; ++layer)
    room.reader.say(room.reader.record_by_code("E-2.f" + std::to_string(layer))->id, "seen-in-sample",
                    sample);
  CHECK(about(room.layers(room.room), "E-2").refusal == FinishRefusal::not_from_bottom);
}

TEST_CASE(
    "finishes: what is said already is not proposed again, and asking about one thing tells of that thing") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  const Uuid later = room.thing("E-2", from(2));
  room.thing("E-3", from(3));
  const auto first = room.layers(later);
  for (const Draft& draft : first.proposals) {
    const bool own = draft.content.subject == later ||
                     room.reader.record(draft.content.subject)->code.rfind("E-2", 0) == 0;
    CHECK(own);
  }
  REQUIRE_FALSE(first.proposals.empty());
  // Beside the reference only: the others would stand there without their findings.
  REQUIRE(first.groups.size() == 1);
  CHECK(first.groups.front().sequences.size() == 2);
  for (const Draft& draft : first.proposals)
    room.reader.say(draft.content.subject, Registry::standard().find(draft.content.property)->name,
                    draft.content.value);
  CHECK(room.layers(later).proposals.empty());
  CHECK_FALSE(room.layers(room.room).proposals.empty());
}

TEST_CASE("finishes: the reference may be named, and a wrong name is refused") {
  PaintedRoom room;
  room.thing("E-1", kFull);
  room.thing("E-2", from(2));
  const auto layers = room.layers(room.room, {{"reference", "E-2"}});
  // Compared from the shorter one, the longer begins lower, and the finding is the same.
  const FinishAlignment& found = layers.groups.front().alignments.front();
  CHECK(found.concluded);
  CHECK(layers.sequences[found.sequence].element.code == "E-2");
  CHECK_THROWS_WITH(room.layers(room.room, {{"reference", "E-9"}}),
                    Catch::Contains("no layers are recorded"));
  CHECK_THROWS_WITH(room.layers(room.report), Catch::Contains("has no layers to compare"));
}

TEST_CASE("finishes: random rooms, and none is told wrong") {
  const unsigned seed = 99;
  std::mt19937 random(seed);
  std::cout << "seed of random rooms " << seed << '\n';
  const std::vector<const char*> palette{"7.5YR 4/4", "5G 3/4", "5PB 5/4",  "5Y 8/6", "5R 4/8",
                                         "10B 7/4",   "5P 3/4", "10YR 6/8", "N 2/",   "2.5BG 6/4"};
  int concluded = 0, later = 0;
  for (int trial = 0; trial < 200; ++trial) {
    auto colours = palette;
    std::shuffle(colours.begin(), colours.end(), random);
    std::vector<Coat> coats;
    for (std::size_t i = 0; i < 7; ++i) coats.push_back({colours[i]});
    const std::size_t k = random() % 5;
    PaintedRoom room;
    room.thing("E-1", coats);
    room.thing("E-2", {coats.begin() + static_cast<std::ptrdiff_t>(k), coats.end()});
    const FinishLayers layers = room.layers(room.room);
    const FinishAlignment found = about(layers, "E-2");
    CHECK(found.k == static_cast<int>(k));
    CHECK(found.concluded == (k > 0));
    concluded += found.concluded;
    later += k > 0;
  }
  CHECK(concluded == later);
}
