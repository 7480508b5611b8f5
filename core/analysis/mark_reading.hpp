// What a reading of marks found: reference marks like them, dated codes in them. Values only.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/analysis/draft.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// One letter of the reading against one of a reference mark; either is empty where it has none.
struct MarkLetters {
  std::string read;       ///< "A"; "·" for one that was not read
  std::string reference;  ///< "A"
  std::string fit;        ///< same, confused, other, uncertain, not read, too many, too few
};

struct MarkCandidate {
  std::string maker;  ///< as the list or the archive names the firm
  std::string form;   ///< the mark as it stands there
  std::string place;
  std::string role;      ///< blank maker, decorator or seller, not told
  std::string from, to;  ///< EDTF, when the list says so
  std::string list;      ///< title of the list, or "this archive"
  std::string entry;     ///< number or line of the list, code of the firm
  Uuid agent;            ///< the firm in this archive; nil when it is only in a list
  Uuid source;           ///< the list as a source; nil for this archive's own
  Digest statement;      ///< that says so in this archive; nil for a list's entry
  double share = 0;      ///< how likely, 0 to 1
  double cost = 0;       ///< -log of how badly it fits; 0.05 a letter is a perfect fit
  std::vector<MarkLetters> letters;
  std::string words;  ///< what fits and what does not, in a sentence without a full stop
};

/// One way to understand a code.
struct CodeReading {
  std::string date;   ///< EDTF: a year, a day, an interval
  std::string words;  ///< "between 90,483, the first of 1888, and 116,648, the first of 1889"
};

struct DatedCode {
  std::string kind;  ///< registration diamond, Rd number, US patent, patent date, country of origin ...
  std::string text;  ///< as read
  std::vector<CodeReading> readings;  ///< more than one: it cannot be told which
  std::string not_before;             ///< EDTF day or year; empty when the code dates nothing
  bool hint = false;                  ///< too weak for a 'not before' of more than possible
  std::string table, source, weakness;
  std::vector<std::string> remarks;
};

struct ReadMark {
  RecordInfo mark;     ///< nil id for a text that was typed
  RecordInfo carrier;  ///< the piece or element; nil id when not known
  Digest statement;    ///< the transcription
  std::string raw, shown, by, read_on;
  std::string fault;                      ///< why the text could not be read; all else is empty then
  std::vector<MarkCandidate> candidates;  ///< likeliest first
  double unlisted = 1;                    ///< how likely the mark is in no list
  double others = 0;                      ///< of candidates not shown
  bool too_little = false;                ///< too few letters to compare with makers
  std::string variant;  ///< how the likeliest takes the reading: "", "backwards", "line 1 of 3"
  std::vector<DatedCode> codes;
  std::vector<std::string> remarks;
};

struct MarkListInfo {
  std::string title, rights;
  RecordInfo source;  ///< nil id for this archive's own
  std::size_t marks = 0;
  std::string trouble;  ///< why it could not be used; empty when it was
};

struct MarkReading {
  RecordInfo scope;
  Reading reading;
  std::vector<MarkListInfo> lists;
  std::vector<ReadMark> marks;
  std::vector<Draft> proposals;
};

}  // namespace lathbook
