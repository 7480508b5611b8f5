// A small invented room with a hand-made timeline: what the tests of the sheet read.
#pragma once

#include "core/analysis/timeline.hpp"
#include "core/view/snapshot.hpp"
#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

/// The Chart Room of the invented Fairlead, cut down to four things and two phases. Statements are cited to
/// invented sources; the timeline is written by hand, as an analysis would give it.
class SmallRoom {
public:
  FakeReader reader;
  Timeline timeline;
  Uuid room, green, ivory, shelf, skirting;

  SmallRoom() {
    reader.state.known_day = days_from_civil(2026, 3, 1);
    reader.state.withheld = 3;
    add_records();
    add_statements();
    add_timeline();
  }

  Bound bound(std::int64_t year, int month, int day, Level level, const Digest& statement,
              const std::string& words = {}) const {
    Bound made;
    made.day = days_from_civil(year, month, day);
    made.known = true;
    made.level = level;
    made.reason = {{statement, words}};
    return made;
  }

private:
  Uuid source(const std::string& code, const std::string& type, const std::string& title,
              const std::string& creator, const std::string& date) {
    const Uuid id = reader.add(Kind::source, code, title);
    reader.say(id, "source-type", type);
    reader.say(id, "title", title);
    reader.say(id, "creator", creator);
    dated_ = reader.say(id, "source-date", date).id;
    reader.say(id, "repository", "Port Ellery Athenaeum");
    return id;
  }
  Digest cited(const Uuid& subject, const std::string& property, const std::string& value, const Uuid& from,
               const std::string& locator, Confidence confidence = Confidence::certain,
               std::vector<Qualifier> qualifiers = {}) {
    Statement& said = reader.say(subject, property, value, confidence, std::move(qualifiers));
    said.content.citations = {{from, locator, {}}};
    said.content.evidence = EvidenceClass::documentary;
    return said.id;
  }

  void add_records() {
    room = reader.add(Kind::place, "202", "Chart Room");
    green = reader.add(Kind::element, "N-203", "Sea-green tile");
    ivory = reader.add(Kind::element, "N-204", "Ivory tile");
    shelf = reader.add(Kind::element, "E-202.05", "Shelf");
    skirting = reader.add(Kind::element, "E-202.09", "Skirting");
    works_ = reader.add(Kind::campaign, "C-2", "Works of Ada Crane");
    building_ = reader.add(Kind::campaign, "C-1", "Building works");
    first_ = reader.add(Kind::phase, "P-1", "The pilots' house");
    second_ = reader.add(Kind::phase, "P-2", "Ada Crane's house");
    reader.add(Kind::agent, "A-1", "Ada Crane");
    plan_ = source("S-01", "plan sheet", "Sheet 3, First Floor", "E. Harcastle", "1888-05");
    photo_ = source("S-17", "photograph", "The pilots' dinner", "unknown photographer", "1911~");
    photo_dated_ = dated_;
    permit_ = source("S-26", "permit", "Permit 1924-117", "Port Ellery Building Office", "1924-06-12");
    permit_dated_ = dated_;
    invoice_ = source("S-28", "bill", "Invoice of Rusk & Son", "Rusk & Son", "1926");
    interview_ = source("S-38", "interview", "Mrs Odell remembers", "H. Odell", "2019-05-03");
    survey_ = source("S-47", "physical inspection", "Survey of the niche", "R. Vane", "2024-03-30");
  }

  void add_statements() {
    cited(room, "name", "Chart Room", plan_, "middle", Confidence::certain,
          {{"sort", "on a plan"}, {"from", "1888"}, {"to", "1951"}});
    cited(room, "hazard", "lead", survey_, "p. 2", Confidence::certain, {{"status", "not tested"}});
    cited(ivory, "element-class", "tile field", survey_, "p. 31");
    cited(green, "element-class", "tile field", survey_, "p. 31");
    covers_ = cited(ivory, "covers", green.text(), survey_, "p. 31", Confidence::certain,
                    {{"contact", "laps over"}});
    seen_ = cited(green, "uncovered-in", photo_.text(), photo_, "right of the stove", Confidence::certain,
                  {{"feature", "the chipped corner of tile 3"}});
    permit_reading_ = cited(ivory, "of-campaign", works_.text(), permit_, "line 2", Confidence::probable);
    billed_ = cited(ivory, "billed-in", invoice_.text(), invoice_, "item 8");
    odell_ = cited(ivory, "standing-by", "1914-07", interview_, "00:22:40", Confidence::possible);
    opened_ = cited(second_, "opened-by", works_.text(), permit_, "line 2", Confidence::probable);
    built_ = cited(building_, "works-began", "1888", plan_, "title block");
    cited(first_, "opened-by", building_.text(), plan_, "title block");
  }

  TimelineItem item(const Uuid& id) const {
    TimelineItem made;
    made.record = *reader.record(id);
    return made;
  }

  void add_timeline() {
    timeline.scope = *reader.record(room);
    timeline.reading = reader.state;
    timeline.statements_used = 12;
    TimelinePhase one{*reader.record(first_), 1, *reader.record(building_), {}, {}};
    one.opens = {bound(1888, 1, 1, Level::certain, built_), bound(1888, 12, 31, Level::certain, built_)};
    TimelinePhase two{*reader.record(second_), 2, *reader.record(works_), {}, {}};
    two.opens = {
        bound(1924, 6, 12, Level::probable, permit_dated_, "the permit (S-26) is dated 12 June 1924"),
        bound(1926, 12, 31, Level::probable, billed_)};
    timeline.phases = {one, two};

    TimelineItem field = item(green);
    field.begins = {bound(1888, 1, 1, Level::certain, built_), bound(1916, 12, 31, Level::certain, seen_)};
    field.ends.earliest = bound(2024, 3, 30, Level::certain, covers_);
    field.last_seen = "still in place when last seen on 30 March 2024";
    field.dated = true;
    field.phases = {
        {0, Membership::certain, Membership::no, Membership::certain, Membership::certain, Membership::no,
         "by the opening works"},
        {1, Membership::no, Membership::no, Membership::certain, Membership::no, Membership::certain, ""}};
    field.under = {{ivory, 1}};
    TimelineItem over = item(ivory);
    over.begins = {bound(1924, 6, 12, Level::probable, permit_reading_),
                   bound(1926, 12, 31, Level::certain, billed_)};
    over.begins.latest.leaned = true;
    over.ends.earliest = bound(2024, 3, 30, Level::certain, covers_);
    over.last_seen = "still in place when last seen on 30 March 2024";
    over.dated = true;
    over.phases = {{1, Membership::certain, Membership::no, Membership::possible, Membership::certain,
                    Membership::no, "by the opening works"}};
    TimelineItem plank = item(shelf);
    plank.begins = {bound(1906, 1, 1, Level::possible, photo_dated_),
                    bound(1916, 12, 31, Level::possible, photo_dated_)};
    plank.ends = {bound(1916, 12, 31, Level::possible, photo_dated_),
                  bound(1953, 6, 30, Level::probable, built_)};
    plank.dated = true;
    plank.phases = {{0, Membership::certain, Membership::possible, Membership::possible, Membership::possible,
                     Membership::no, "piecemeal"},
                    {1, Membership::no, Membership::possible, Membership::possible, Membership::possible,
                     Membership::no, ""}};
    TimelineItem base = item(skirting);
    base.remarks = {{Digest{}, "marked for the Chart Room; fit not tested"}};
    timeline.items = {field, plank, over, base};

    TimelineConflict clash;
    clash.statements = {{odell_, "H. Odell says that the ivory tile (N-204) stood by July 1914"},
                        {permit_reading_, "the ivory tile (N-204) was put in during the works (C-2)"},
                        {permit_dated_, "the permit (S-26) is dated 12 June 1924"}};
    clash.set_aside = {odell_};
    clash.clash_days = days_from_civil(1924, 6, 12) - days_from_civil(1914, 7, 31);
    clash.words = "the ivory tile cannot have stood by July 1914 and be of the works of Ada Crane";
    timeline.conflicts = {clash};
    timeline.settings = {{Digest{}, "'about' widens a date given to the year by 5 years"}};
  }

  Uuid works_, building_, first_, second_, plan_, photo_, permit_, invoice_, interview_, survey_;
  Digest dated_, photo_dated_, permit_dated_, covers_, seen_, permit_reading_, billed_, odell_, opened_,
      built_;
};

}  // namespace lathbook::test
