// What the sheet of a room says, in order, before it is put into any format: the one tree that the page,
// the terminal text and the JSON are all written from.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::sheet {

/// A stretch of words. `why` is the place of a date in Sheet::whys (none when it is no computed date);
/// `dated` marks every stretch that tells a date.
struct Part {
  std::string words;
  std::optional<std::size_t> why;
  bool dated = false;
};

/// A whole sentence with its full stop, and the numbers of the notes it rests on, sorted.
struct Sentence {
  std::vector<Part> parts;
  std::vector<int> notes;
  /// The words alone.
  std::string words() const;
};

/// One statement of a reason or of a contradiction, in plain words.
struct Step {
  std::string words;
  std::string basis;      ///< class of evidence, confidence, who and when; empty for a rule
  std::string remark;     ///< what its author added; may be empty
  std::string statement;  ///< short name; empty for a rule
  std::vector<int> notes;
  std::vector<Step> grounds;  ///< statements it is concluded from
};

/// One end of a date and the chain that fixes it. No steps: nothing fixes it.
struct Chain {
  std::string words;  ///< "not before 12 June 1924 (probable)"
  std::optional<Day> day;
  std::vector<Step> steps;
};

/// A date that can be asked why.
struct Why {
  std::string label;  ///< what happened: "beginning of the ivory tile field (N-204)"
  std::string words;  ///< the date
  Chain earliest;
  Chain latest;
};

/// What is said of one thing at one place of the sheet.
struct Entry {
  std::size_t thing = 0;  ///< place in Sheet::things
  Sentence head;
  std::vector<Sentence> more;
};

/// Members of a phase of one sort.
struct Group {
  std::string sort;  ///< "put-in", "taken-out", "covered-up", "to-be-seen", "out-of-sight"
  std::string label;
  bool surely = false;
  bool names_only = false;  ///< each entry is a name, to be told in one list
  std::vector<Entry> entries;
};

struct Chapter {
  int number = 0;
  std::string heading;
  std::vector<Sentence> opening;
  std::vector<Group> groups;  ///< none of them empty
};

struct Contradiction {
  Sentence head;
  std::vector<Step> one_side;      ///< what stays in the dates shown; all of them when nothing was preferred
  std::vector<Step> set_aside;     ///< left out of the dates shown
  std::string clash;               ///< by how much they miss each other
  std::string proposal;            ///< what was done about it for the dates shown
  std::vector<Sentence> ways_out;  ///< what each equally good way out leaves out; empty where there is one
  std::vector<Sentence> fallen_with;  ///< left out, too, since they rest on the same source
  std::vector<Sentence> beside;       ///< said of the same thing and not part of the clash
};

struct Note {
  int number = 0;
  std::string words;           ///< the whole source, or its short form
  std::string quote;           ///< words of the source; may be empty
  std::optional<int> full_in;  ///< the note that has the whole source, for a short form
};

struct SourceLine {
  std::string code;
  std::string words;
};

/// A thing as drawn: days, each absent where nothing fixes it.
struct Bar {
  std::size_t thing = 0;
  std::optional<Day> begin_earliest, begin_latest, end_earliest, end_latest;
  Level begin_level = Level::certain;
  Level end_level = Level::certain;
};

struct Band {
  int number = 0;
  std::string name;
  std::optional<Day> earliest, latest;  ///< of its opening
};

struct Tick {
  std::string letter;
  Uuid source;
  Day day = 0;  ///< middle of the days its date allows
  Sentence sentence;
};

/// A thing to find out, with what it would do to the dates.
struct Task {
  Sentence task;
  std::string gain;
  std::vector<Sentence> known;  ///< what has been looked for already, and what is said of it
};

struct Drawing {
  std::vector<Bar> bars;
  std::vector<Band> bands;
  std::vector<Tick> ticks;
  Day first = 0;
  Day last = 0;  ///< the day up to which the archive is known, or later
};

struct Thing {
  std::string name;  ///< as recorded
  std::string code;
  std::string type;
  std::string material;
  std::string begins;  ///< in words, for the table
  std::string ends;
  std::optional<std::size_t> begins_why, ends_why;
  std::vector<int> notes;
};

struct Sheet {
  std::string code;
  std::string title;
  std::vector<Sentence> names;
  std::vector<Sentence> uses;
  std::string known;              ///< as known on which day
  std::string fingerprint;        ///< 64 hexadecimal digits
  std::string trusted;            ///< which evidence was used
  std::string withheld;           ///< empty when nothing is withheld
  std::string private_copy;       ///< a warning, empty for a public reading
  std::vector<Sentence> stopped;  ///< where work is stopped, loudly and first
  std::vector<Sentence> what_if;  ///< statements that were left out as if they had not been made
  std::vector<Sentence> works;
  std::vector<Chapter> phases;
  std::vector<Entry> outside;  ///< dated, but in no phase
  std::vector<Entry> undated;
  std::vector<Entry> pieces;  ///< pieces and finds whose making bears on the dates
  std::vector<Contradiction> contradictions;
  std::vector<Sentence> rulings;
  std::vector<Sentence> examined;  ///< who looked at what, what was sought, what could not be reached
  std::vector<Task> tasks;         ///< what would help most, first
  std::vector<Sentence> cautions;
  std::vector<Sentence> settings;
  std::vector<Thing> things;
  std::vector<Why> whys;
  std::vector<Note> notes;
  std::vector<SourceLine> sources;
  Drawing drawing;
};

/// Takes together what the timeline says of its scope and what the archive says of the same things.
/// Records and statements that the snapshot does not give do not appear, whatever the timeline holds.
/// The timeline was made without the statements left out, and nothing is told from them.
/// Throws Error(not_found) when the snapshot has no record of the timeline's scope.
Sheet build_sheet(const Snapshot& archive, const Timeline& timeline,
                  const std::vector<Digest>& leave_out = {});

}  // namespace lathbook::sheet
