// A small invented house for tests of a report's parts.
#pragma once

#include <string>
#include <vector>

#include "core/base/text.hpp"
#include "plugins/report/build.hpp"
#include "tests/report/words.hpp"
#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

/// A house with one room, a minute book, and a writer.
struct House {
  FakeReader reader;
  Uuid building = reader.add(Kind::place, "B", "Gate House");
  Uuid room = reader.add(Kind::place, "101", "Porch");
  Uuid book = reader.add(Kind::source, "S-1", "Minute book");
  Uuid writer = reader.add(Kind::agent, "A-1", "Ada Wren");

  House() {
    reader.say(building, "place-type", "building");
    reader.say(room, "place-type", "room");
    reader.say(room, "within", building);
    reader.say(book, "title", "Minutes");
    reader.say(book, "source-type", "other document");
    reader.say(book, "repository", "Gate House Trust");
  }
  void write(const std::string& section, const std::string& text, const std::string& order = {}) {
    Statement& said =
        reader.say(building, "report-section", text, Confidence::certain, {{"section", section}});
    if (!order.empty()) said.content.qualifiers.push_back({"order", order});
    said.content.author = writer;
    said.content.said_on = "2024-05-01";
    said.content.citations = {{book, "p. 3", ""}};
  }
  report::Document report(Timeline timeline = {}, const FinishLayers* layers = nullptr) {
    const Snapshot snapshot(reader);
    timeline.scope = *reader.record(building);
    const std::vector<Digest> none;
    return report::Builder({snapshot, timeline, layers, nullptr, none}, {}).build();
  }
  /// A thing in the porch.
  Uuid thing(const std::string& code, const std::string& name, const std::string& of_class) {
    const Uuid id = reader.add(Kind::element, code, name);
    reader.say(id, "element-class", of_class);
    reader.say(id, "stands-in", room);
    return id;
  }
  TimelineItem item(const Uuid& id) {
    TimelineItem one;
    one.record = *reader.record(id);
    one.placements = 1;
    return one;
  }
};

inline std::vector<report::Heading> headings_of(const report::Document& document) {
  std::vector<report::Heading> found;
  for (const report::Chapter& chapter : document.chapters)
    for (const report::Block& block : chapter.blocks)
      if (const auto* heading = std::get_if<report::Heading>(&block)) found.push_back(*heading);
  return found;
}

}  // namespace lathbook::test
