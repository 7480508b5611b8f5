// Who alone may take a thing is told at the step itself.
#include <catch2/catch.hpp>

#include "plugins/takedown/licensed.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using namespace lathbook::takedown;
using Catch::Contains;
using lathbook::test::FakeReader;

namespace {

struct Things : FakeReader {
  Uuid thing(const std::string& code, const std::string& type, const std::string& of_class) {
    const Uuid id = add(Kind::element, code, code);
    say(id, "element-type", type);
    say(id, "element-class", of_class);
    return id;
  }
  std::string note(const Uuid& id) const {
    const Snapshot archive(*this);
    return licensed_note(archive, *archive.find(id));
  }
};

}  // namespace

// Common practice, no source: capped and disused gas pipes are treated as live, old gas pipes carried wires,
// and nobody opens structure before it is understood.
TEST_CASE("gas, electricity, structure, lead and asbestos are for people who may") {
  Things house;
  CHECK_THAT(house.note(house.thing("E-1", "iron gas pipe, riser", "pipe")),
             Contains("gas: licensed people only"));
  CHECK_THAT(house.note(house.thing("E-2", "insulated conductors on knobs", "wiring")),
             Contains("electricity: licensed people only"));
  CHECK_THAT(house.note(house.thing("E-3", "slate hearth", "hearth")), Contains("structure or chimney"));
  CHECK_THAT(house.note(house.thing("E-4", "stone lintel", "other")), Contains("structure or chimney"));
  const Uuid both = house.thing("E-5", "wall jet, capped and wired", "fixture");
  const Uuid services = house.add(Kind::place, "SV-G", "Gas lighting");
  house.say(both, "stands-in", services, {{"role", "serves"}});
  CHECK_THAT(house.note(both), Contains("gas and electricity: licensed people only"));
}

TEST_CASE("what anybody may take has no note, whatever its neighbours are") {
  Things house;
  const Uuid skirting = house.thing("E-1", "plain skirting", "joinery");
  house.say(skirting, "description", "Runs past the gas pipe and the lead flashing.");
  CHECK(house.note(skirting).empty());
  CHECK(house.note(house.thing("E-2", "gasket of rope, sample", "other")).empty());
}

TEST_CASE("a test that found nothing clears lead and asbestos, but not gas or electricity for another day") {
  Things house;
  const auto with = [&](const std::string& code, const std::string& type, const std::string& hazard,
                        const std::string& status) {
    const Uuid id = house.thing(code, type, "other");
    house.say(id, "hazard", hazard, Confidence::certain, {{"status", status}});
    return house.note(id);
  };
  CHECK_THAT(with("E-1", "floor cloth", "asbestos", "found"), Contains("asbestos: licensed people only"));
  CHECK_THAT(with("E-2", "floor cloth", "asbestos", "not tested"), Contains("asbestos"));
  CHECK(with("E-3", "asbestos board", "asbestos", "tested clear").empty());
  CHECK(with("E-4", "sheet lead", "lead", "tested clear").empty());
  CHECK_THAT(with("E-5", "gas pipe", "gas", "tested clear"), Contains("live until they prove it dead"));
}
