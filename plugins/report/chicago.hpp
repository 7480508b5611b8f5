// Sources as notes and as lines of a bibliography, in the notes style of The Chicago Manual of Style.
//
// Source: The Chicago Manual of Style, 17th ed. (2017), chapter 14 (from memory), by way of the published CSL
// style chicago-notes-bibliography-17th-edition; docs/report.md tells where we differ on purpose.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// How a source is cited. Chosen by its type.
enum class Form { drawing, picture, video, paper, letter, book, newspaper, interview, report, inspection };

struct Person {
  std::string name;      ///< as a note writes it: "Jane Doe"
  std::string inverted;  ///< as the bibliography sorts it: "Doe, Jane"; the same for firms
  std::string family;    ///< as a short note writes it: "Doe"
};

/// The fields of one source; empty ones are left out.
struct Source {
  Form form = Form::paper;
  std::string type;  ///< word of the choice list source-type
  std::vector<Person> authors;
  std::string title;        ///< as it stands, or in square brackets
  std::string genre;        ///< "photograph", "building permit"
  std::string number;       ///< of a permit, a sheet, a catalogue
  std::string date;         ///< in words; with brackets of its own where it is a guess
  std::string medium;       ///< "ink on linen"
  std::string scale;        ///< "1:48"
  std::string extent;       ///< "20 x 25 cm", "74 min"
  std::string edition;      ///< "14th ed.", "evening edition"
  std::string section;      ///< of a newspaper
  std::string page;         ///< of a newspaper
  std::string publication;  ///< newspaper or publisher
  std::string place;        ///< of publication; of an inspection: where the thing was
  std::string interviewer;
  std::string location;    ///< shelf mark
  std::string collection;  ///< in the holder's keeping
  std::string holder;
  std::string holder_place;
  std::string address;  ///< on the web
  std::string code;     ///< in this archive; printed in brackets at the end, empty for none
};

/// The form for a word of the choice list source-type.
Form form_of(std::string_view source_type);
/// "building permit" for "permit"; what a reader calls a source of that type.
std::string genre_of(std::string_view source_type);

/// What is cited of a source.
struct Place {
  std::string locator;  ///< "sheet 3", "p. 31", "00:22:40"
  std::string
      seen;  ///< of a physical inspection: by whom and when it was seen, where the source leaves it open
  std::string quote;  ///< words of the source
};

/// First mention: the whole source.
std::vector<Run> full_note(const Source& source, const Place& place);
/// Later mention: family name, title, place.
std::vector<Run> short_note(const Source& source, const Place& place);
std::vector<Run> bibliography_line(const Source& source);
/// Words of the runs, without emphasis.
std::string plain(const std::vector<Run>& runs);

}  // namespace lathbook::report
