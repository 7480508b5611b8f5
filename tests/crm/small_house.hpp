// An invented house of a few records, with one of everything that the exporter treats in its own way.
#pragma once

#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

struct SmallHouse {
  FakeReader reader;
  Uuid site, building, storey, room, pit, wall, field, cut, finish, piece, crate, mark, label, photo, permit,
      person, firm, works, phase, removal, move, look, sample, button, archive;
  Digest fitted_early, fitted_late, covers, note, replaced;

  SmallHouse() {
    reader.state.fingerprint = sha256("small house");
    make_records();
    say_places();
    say_fabric();
    say_pieces();
    say_sources();
    say_events();
    complete();
  }

private:
  void make_records() {
    site = reader.add(Kind::place, "X", "Yard");
    building = reader.add(Kind::place, "X-H", "House");
    storey = reader.add(Kind::place, "X-1", "First floor");
    room = reader.add(Kind::place, "X-1-A", "Chart Room");
    pit = reader.add(Kind::place, "X-V", "Void behind the niche");
    wall = reader.add(Kind::element, "E-1", "North wall");
    field = reader.add(Kind::element, "E-2", "Tile field");
    cut = reader.add(Kind::element, "E-3", "Door cut");
    finish = reader.add(Kind::finish, "F-1", "Distemper");
    piece = reader.add(Kind::piece, "P-1", "Tile 1");
    crate = reader.add(Kind::container, "K-1", "Crate");
    mark = reader.add(Kind::mark, "M-1", "Maker's mark");
    label = reader.add(Kind::label, "L-1", "Chalk");
    photo = reader.add(Kind::source, "S-1", "Photograph");
    permit = reader.add(Kind::source, "S-2", "Permit");
    person = reader.add(Kind::agent, "A-1", "Reed");
    firm = reader.add(Kind::agent, "A-2", "Corrane & Pell");
    works = reader.add(Kind::campaign, "C-1", "Works of 1924");
    phase = reader.add(Kind::phase, "PH-1", "Second phase");
    removal = reader.add(Kind::event, "V-1", "Lifting");
    move = reader.add(Kind::event, "V-2", "Crating");
    look = reader.add(Kind::examination, "X-01", "First look");
    sample = reader.add(Kind::sample, "SA-1", "Lime");
    button = reader.add(Kind::find, "G-1", "Button");
    archive = reader.add(Kind::archive, "AR", "Archive");
  }

  void say_places() {
    const std::pair<Uuid, const char*> types[] = {
        {site, "site"}, {building, "building"}, {storey, "storey"}, {room, "room"}, {pit, "void"}};
    for (const auto& [place, type] : types) reader.say(place, "place-type", type, Confidence::none);
    reader.say(building, "within", site.text(), Confidence::none);
    reader.say(storey, "within", building.text(), Confidence::none);
    reader.say(room, "within", storey.text(), Confidence::none);
    reader.say(pit, "within", room.text(), Confidence::none);
    reader.say(room, "name", "Pilots' \"Chart\" Room\nwest", Confidence::certain,
               {{"sort", "on a plan"}, {"from", "1888"}, {"to", "1951"}, {"used-by", "the pilots"}});
    reader.say(room, "name", "Kartenzimmer", Confidence::possible, {{"language", "de"}});
    reader.say(room, "footprint", "0,0 4.2,0 4.2,3 0,3", Confidence::certain);
    reader.say(building, "place-began", "1888/1890", Confidence::certain);
    reader.say(room, "place-ended", "1953~", Confidence::probable);
    reader.say(room, "hazard", "lead", Confidence::certain, {{"status", "not tested"}});
  }

  void say_fabric() {
    reader.say(cut, "element-class", "cut", Confidence::none);
    for (const Uuid& element : {wall, field, cut})
      reader.say(element, "stands-in", room, {{"face", "north wall"}, {"role", "bounds"}});
    reader.say(field, "stands-in", pit, {{"role", "shows in"}});
    reader.say(wall, "material", "Lime mortar", Confidence::certain);
    reader.say(wall, "dimension", "400 mm", Confidence::certain, {{"of", "thickness"}});
    reader.say(field, "dimension", "5' 3 1/2\"", Confidence::certain, {{"of", "width"}});
    reader.say(wall, "condition", "Damp at the foot", Confidence::certain, {{"on", "2024-06-01"}});
    reader.say(wall, "concept", "http://vocab.getty.edu/aat/300000885", Confidence::none);
    reader.say(wall, "installed", "1888", Confidence::certain);
    fitted_early = reader.say(field, "installed", "1890", Confidence::probable).id;
    fitted_late = reader.say(field, "installed", "1924", Confidence::certain).id;
    reader.say(field, "removed-for-good", "2024-03", Confidence::certain);
    reader.say(field, "of-campaign", works);
    reader.say(field, "made-not-before", "1888", Confidence::certain, {{"basis", "number"}});
    covers = reader.say(field, "covers", wall, {{"contact", "laps over"}}).id;
    reader.say(cut, "cuts", wall, {{"contact", "stops against"}});
    reader.say(wall, "bonded-with", field);
    reader.say(finish, "finish-on", wall);
    reader.say(finish, "layer", "1", Confidence::certain);
    reader.say(finish, "munsell", "10YR 7/4", Confidence::certain);
    reader.say(finish, "made", "1888", Confidence::certain);
    reader.say(field, "seen-in", photo, {{"feature", "chipped corner"}});
    reader.say(wall, "proposed-in", permit);
  }

  void say_pieces() {
    reader.say(piece, "piece-of", field);
    reader.say(piece, "piece-state", "in container", Confidence::certain, {{"on", "2024-05-18"}});
    reader.say(piece, "in-container", crate, {{"on", "2024-05-18"}});
    reader.say(piece, "count", "3", Confidence::certain);
    reader.say(piece, "weight", "3 1/2 oz", Confidence::certain);
    reader.say(piece, "fitted-in", room, {{"fit", "holes"}});
    reader.say(piece, "intended-for", room);
    reader.say(mark, "mark-on", piece);
    reader.say(mark, "mark-method", "relief", Confidence::certain);
    reader.say(mark, "transcription", "[---]ANE & P[..]L / BURSL[---]", Confidence::certain);
    reader.say(mark, "blank-maker", firm);
    reader.say(mark, "register-number", "101774", Confidence::certain);
    reader.say(label, "label-on", field);
    reader.say(label, "label-tool", "chalk", Confidence::certain);
    reader.say(label, "transcription", "CHART RM", Confidence::certain);
    reader.say(label, "transcription", "CHART RIM", Confidence::possible);
    reader.say(button, "found-in", room);
    reader.say(button, "came-from", wall);
    reader.say(button, "whereabouts", "drawer 3", Confidence::certain);
    reader.say(sample, "sample-from", wall);
    reader.say(sample, "taken-on", "2024", Confidence::certain);
    reader.say(sample, "taken-by", person);
  }

  void say_sources() {
    reader.say(photo, "source-type", "photograph", Confidence::none);
    reader.say(permit, "source-type", "permit", Confidence::none);
    reader.say(photo, "title", "Pilots' dinner", Confidence::certain);
    reader.say(photo, "creator", "[unknown]", Confidence::certain);
    reader.say(photo, "source-date", "about 1911", Confidence::certain).content.edtf = "1911~";
    reader.say(photo, "repository", "Harbour Trust", Confidence::certain);
    reader.say(photo, "shelf-mark", "12/3", Confidence::certain);
    reader.say(photo, "rights", "http://rightsstatements.org/vocab/NoC-US/1.0/", Confidence::certain);
    reader.say(photo, "media", sha256("picture").hex(), Confidence::certain, {{"file-name", "s 1.png"}});
    reader.say(person, "agent-type", "person", Confidence::none);
    reader.say(firm, "agent-type", "firm", Confidence::none);
    reader.say(person, "born", "1850", Confidence::certain);
    reader.say(firm, "place-of-business", "Burslow", Confidence::certain);
  }

  void say_events() {
    reader.say(works, "works-began", "1924-06", Confidence::certain);
    reader.say(works, "works-ended", "1926", Confidence::probable);
    reader.say(phase, "opened-by", works);
    reader.say(phase, "phase-of", building);
    reader.say(removal, "event-type", "removed", Confidence::certain);
    reader.say(removal, "event-on", piece);
    reader.say(removal, "event-date", "2024-03-30", Confidence::certain);
    reader.say(removal, "done-by", person);
    reader.say(move, "event-type", "moved", Confidence::certain);
    reader.say(move, "event-on", piece);
    reader.say(move, "event-on", wall);
    reader.say(move, "moved-to", crate);
    reader.say(look, "examined", room);
    reader.say(look, "method", "raking light", Confidence::certain);
    reader.say(look, "examined-on", "2023-09-04", Confidence::certain);
    reader.say(archive, "set-aside", fitted_early.hex(), Confidence::none, {{"reason", "invented"}});
    replaced = reader.say(wall, "note", "1.20 m wide", Confidence::certain).id;
    note = reader.say(wall, "note", "1.02 m wide", Confidence::certain).id;
  }

  /// Citations for all that has a confidence, and what hangs between statements.
  void complete() {
    for (Statement& statement : reader.said()) {
      Content& said = statement.content;
      if (said.confidence == Confidence::none) continue;
      said.evidence = EvidenceClass::physical;
      said.author = person;
      said.recorder = person;
      said.said_on = "2024-05-18";
      said.citations = {{photo, "left half", said.property == property::name ? "the words \\ there" : ""}};
      if (statement.id == note) {
        said.targets = {replaced};
        said.grounds = {covers};
        said.why = "slip of the pen";
      }
      if (statement.id == replaced) statement.current = false;
    }
  }
};

}  // namespace lathbook::test
