// What the report says, in order, before it is put into any format: both writers write this one tree.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace lathbook::report {

/// What a stretch of words asserts; a sentence that asserts any of these must have a note.
enum Tells : std::uint8_t { kNothing = 0, kDate = 1, kMaker = 2, kRoom = 4, kCount = 8 };

struct Run {
  std::string text;
  std::uint8_t tells = kNothing;
  bool emphasis = false;
  bool strong = false;
  std::string link = {};  ///< anchor of the heading that these words point to; empty for none
};

/// A whole sentence with its full stop, and the numbers of the notes it rests on, sorted.
struct Sentence {
  std::vector<Run> runs;
  std::vector<int> notes;
  /// It speaks of the report itself (its day, its state, its own parts), and not of the house.
  bool of_report = false;
  /// Its notes are those of the next field of the same row, and printed only there.
  bool notes_beside = false;
  std::string words() const;
  std::uint8_t tells() const;
};

struct Heading {
  int level = 2;  ///< 2 within a chapter, 3 within that
  std::string text;
  std::string anchor;  ///< unique in the document; empty when nothing points to it
};

struct Paragraph {
  std::vector<Sentence> sentences;
  std::vector<Paragraph> points = {};  ///< told under it as a list, one below the other
};

/// Entries in order, or of equal rank.
struct List {
  bool numbered = false;
  std::vector<Paragraph> entries;
};

/// One field of a table: a few sentences, and a colour shown beside them ("#d8b98c", empty for none).
struct Cell {
  std::vector<Sentence> sentences;
  std::string chip;
};

struct Row {
  std::string group;        ///< of a row that is a heading across the table; the cells are empty then
  std::vector<Cell> cells;  ///< the first one names the row
};

struct Table {
  int number = 0;  ///< runs through the report from 1; given when the notes are
  std::string caption;
  std::vector<std::string> columns;
  std::vector<int> widths;  ///< in hundredths of the whole; as many as columns
  std::vector<Row> rows;
};

struct Figure {
  int number = 0;      ///< runs through the report from 1; given when the notes are
  std::string source;  ///< what it is a picture of, as in CitedPlace; empty for drawings of the report
  std::string part;    ///< the only part of the source that it shows ("leaf 23"); empty: not said
  std::vector<std::string> rings;  ///< regions ringed in it (xywh=...): ring 1 is the first
  std::string title;               ///< short, for those who cannot see it
  std::string description;         ///< what there is to see
  Paragraph caption;               ///< under the picture
  std::string media_type;          ///< "image/svg+xml"
  std::string bytes;
  double width = 0;  ///< in millimetres, as printed
  double height = 0;
};

/// A warning that must not be overlooked.
struct Warning {
  Paragraph words;
};

using Block = std::variant<Heading, Paragraph, List, Table, Figure, Warning>;

struct Chapter {
  std::string anchor;
  std::string title;
  std::vector<Block> blocks;
};

/// One place in one source, in the Chicago notes style.
struct CitedPlace {
  std::vector<Run> words;  ///< with its full stop
  std::string source;      ///< record's code or id of the source; empty when the archive names none
  bool full = false;       ///< tells the whole source, and not its short form
  int figure = 0;          ///< the picture of the source in this report; 0 when there is none
  int ring = 0;            ///< the ring in it round the place; 0 when there is none
};

/// A numbered note: one place, or all places of a sentence that leans on more than four.
struct Note {
  int number = 0;
  std::vector<CitedPlace> places;
};

/// The kinds of sources, in the order in which a bibliography tells them.
enum class Sort : std::uint8_t { primary, oral, survey, secondary };

/// One source in the bibliography.
struct Entry {
  std::string source;
  Sort sort = Sort::primary;
  std::vector<Run> words;
};

struct Document {
  std::string title;                 ///< "Preservation report" or "Phase history"
  std::string subject;               ///< the building or room
  std::string archive;               ///< name of the archive
  std::string known;                 ///< the day as known on which
  std::string state;                 ///< fingerprint, 64 hexadecimal digits
  std::string language;              ///< BCP 47
  std::vector<std::string> writers;  ///< of the sections that people wrote, in the order of their coming
  std::vector<Block> front;
  std::vector<Chapter> chapters;
  std::vector<Note> notes;
  std::vector<Entry> bibliography;
  std::vector<Entry> not_cited;  ///< of the archive, and cited nowhere in this report
};

}  // namespace lathbook::report
