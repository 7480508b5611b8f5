// A room of painted things made of a few short lines, for tests of what the plugin concludes.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/finishes/analysis.hpp"
#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

/// One layer: its role and its colour, "finish coat" when no role is given.
struct Coat {
  std::string munsell;
  std::string role = "finish coat";
};

class StillServices : public Services {
public:
  void note(Severity, const std::string&) override {}
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return nullptr; }
  const ArchiveFiles& files() const override { throw std::logic_error("no files here"); }
};

class PaintedRoom {
public:
  PaintedRoom() {
    room = reader.add(Kind::place, "R-1", "Parlour");
    reader.say(room, "place-type", "room");
    report = reader.add(Kind::source, "S-1", "Report");
  }

  /// An element with layers numbered from 1; looked at for stripping unless told otherwise.
  Uuid thing(const std::string& code, const std::vector<Coat>& coats,
             const std::string& stripping = "looked, none", const std::string& method = "laboratory",
             const std::string& of_class = "joinery") {
    const Uuid element = reader.add(Kind::element, code, "thing " + code);
    reader.say(element, "element-class", of_class);
    reader.say(element, "stands-in", room);
    if (!stripping.empty())
      reader.say(element, "stripping-looked-for", stripping, Confidence::certain, {{"method", method}});
    int layer = 0;
    for (const Coat& coat : coats) {
      const Uuid finish = reader.add(Kind::finish, code + ".f" + std::to_string(++layer), coat.munsell);
      cite(reader.say(finish, "finish-on", element));
      cite(reader.say(finish, "layer", std::to_string(layer)));
      cite(reader.say(finish, "layer-role", coat.role));
      if (!coat.munsell.empty()) cite(reader.say(finish, "munsell", coat.munsell));
    }
    return element;
  }

  FinishLayers layers(const Uuid& scope = {}, const Settings& settings = {}) const {
    StillServices services;
    return finishes::layers_of(Snapshot(reader), {scope, Level::possible, {}, settings}, services);
  }

  void cite(Statement& one) const { one.content.citations.push_back({report, "p. 1", {}}); }

  FakeReader reader;
  Uuid room;
  Uuid report;
};

/// The comparison of an element with the reference; fails the test when there is none.
inline FinishAlignment about(const FinishLayers& layers, const std::string& code) {
  for (const FinishGroup& group : layers.groups)
    for (const FinishAlignment& one : group.alignments)
      if (layers.sequences[one.sequence].element.code == code) return one;
  FAIL("no comparison of " << code);
  throw std::logic_error("not reached");
}

/// Names of the properties proposed for a subject's code and its finishes.
inline std::vector<std::string> proposed(const PaintedRoom& room, const FinishLayers& layers,
                                         const std::string& code) {
  std::vector<std::string> out;
  for (const Draft& draft : layers.proposals) {
    const auto subject = room.reader.record(draft.content.subject);
    if (subject && subject->code.rfind(code, 0) == 0)
      out.push_back(Registry::standard().find(draft.content.property)->name);
  }
  return out;
}

}  // namespace lathbook::test
