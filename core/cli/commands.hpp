// Every command: a plain struct of what was asked, and a function that does it and gives the exit code.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/cli/context.hpp"

namespace lathbook::cli {

/// What a statement rests on and who made it; the same on every command that enters one.
struct Ground {
  std::string source;  ///< code
  std::string locator;
  std::string quote;
  std::string by;        ///< code of who observed or said it
  std::string on;        ///< day, as typed
  std::string evidence;  ///< class
  std::string confidence;
  std::vector<std::string> details;  ///< qualifiers "name=value"
  std::vector<std::string> because;  ///< statements it is concluded from
  std::string why;
  std::string private_reason;
  std::string private_until;
};

// --- keeping (keep_commands.cpp)
struct Begin {
  std::string folder, name;
};
int begin(Context&, const Begin&);
struct Check {
  bool no_media = false;
  std::string fingerprint;
  bool bring_forward = false;
};
int check(Context&, const Check&);
struct Merge {
  std::string other;
};
int merge(Context&, const Merge&);
struct VerifyBag {
  std::string folder;
};
int verify_package(Context&, const VerifyBag&);
struct Restore {
  std::string file, folder;
};
int restore(Context&, const Restore&);
struct WriteOut {
  std::string file;
  bool no_media = false;
};
int write_out(Context&, const WriteOut&);
struct TakeIn {
  std::vector<std::string> files;
  bool good_rows = false;
  Ground ground;
  std::string media_folder;
};
int take_in(Context&, const TakeIn&);
int tally(Context&);

// --- entering (enter_commands.cpp)
struct New {
  std::string kind, code, name;
  Ground ground;
};
int make_new(Context&, const New&);
struct Say {
  std::string subject, property, value;
  Ground ground;
};
int say(Context&, const Say&);
struct Amend {
  std::string statement, value;
  Ground ground;
};
int amend(Context&, const Amend&);
struct Withdraw {
  std::vector<std::string> statements;
  std::string why;
};
int withdraw(Context&, const Withdraw&);
struct Expunge {
  std::vector<std::string> statements;
  std::string why;
  bool sure = false;
};
int expunge(Context&, const Expunge&);

// --- the bench: marks, the trade's words (bench_commands.cpp)
struct Mark {
  std::string carrier, transcription, method, face, orientation, photo, code;
  std::vector<std::string> numbers;
  Ground ground;
};
int mark(Context&, const Mark&);
struct Work {
  std::string word, subject, object, contact;
  bool list = false;
  Ground ground;
};
int work(Context&, const Work&);

// --- dating aids (aid_commands.cpp)
struct Aids {
  std::vector<std::string> words;
  std::vector<double> panes;  ///< thicknesses in millimetres
};
int aids(Context&, const Aids&);
struct DateBy {
  std::string aid, subject, whole;
  Ground ground;
};
int date_by(Context&, const DateBy&);

// --- labels: where they send their components (label_commands.cpp)
struct WhereTo {
  std::string what, text, carrier, written, storeys, left, within;
  bool brief = false;
};
int where_to(Context&, const WhereTo&);
struct Link {
  std::string component, room, label, fit, tested, part, open;
  Ground ground;
};
int link(Context&, const Link&);
struct MadeFor {
  std::string what;
  bool no_home = false;
};
int made_for(Context&, const MadeFor&);

// --- reading marks (mark_commands.cpp)
struct ReadMark {
  std::string code, text, list;
  bool dots_counted = false;
};
int read_mark(Context&, const ReadMark&);
struct TakeInMarkList {
  std::string file, code, title, creator, rights, note;
};
int take_in_mark_list(Context&, const TakeInMarkList&);
int mark_lists(Context&);

// --- pieces on their way (piece_commands.cpp)
struct Handling {
  std::vector<std::string> pieces;
  std::string container, state, event, tools, outcome, worked, hours, lesson, product, batch, marked, cures;
  std::string cell;       ///< "ROW,COLUMN" in which a piece is laid; empty = its own
  std::string condition;  ///< how whole the pieces are from now on; empty = not said
  std::string although;   ///< why this is entered although work is stopped there; empty = it is refused
  int order = 0;          ///< place of the first piece in the container; 0 = not said
  Ground ground;
};
int take_down(Context&, const Handling&);
int pack(Context&, const Handling&);
int put_back(Context&, const Handling&);
int account(Context&, const Handling&);
/// Work on things that moves none of them: opened, faced, cleaned, repaired, tried ...
int did(Context&, const Handling&);
struct Tried {
  std::vector<std::string> words;
  std::size_t most = 10;
};
int tried(Context&, const Tried&);

// --- danger (stop_commands.cpp)
struct StopWork {
  std::string where, what, words;
  Ground ground;
};
int stop_work(Context&, const StopWork&);
struct LiftStop {
  std::string stop;    ///< code of the event, or of where work is stopped
  std::string words;   ///< on what ground
  std::string status;  ///< of choice list 'hazard-status'; empty = not said
  Ground ground;
};
int lift_stop(Context&, const LiftStop&);

// --- reading (read_commands.cpp, history_commands.cpp)
struct Show {
  std::string code;
  bool all = false;
};
int show(Context&, const Show&);
struct Find {
  std::vector<std::string> words;
  std::size_t most = 20;
};
int find(Context&, const Find&);
// finish_commands.cpp
struct Layers {
  std::string where, reference, level, svg;
  bool narrow = false;
};
int layers(Context&, const Layers&);
int properties(Context&, const std::string& of_kind);
struct Plugins {
  bool strict = false;
};
int plugins(Context&, const Plugins&);
struct History {
  std::string place, level, html, answer;
  std::vector<std::string> without;
  bool reasons = false;
};
int history(Context&, const History&);
struct WouldHelp {
  std::string place, level;
};
int would_help(Context&, const WouldHelp&);
// report_commands.cpp
struct ReportOn {
  std::string place, file, form, level, order, rooms;
  std::vector<std::string> without;
  bool no_pictures = false;
};
int report_on(Context&, const ReportOn&);
struct Why {
  std::string code, what, level, answer;
  std::vector<std::string> without;
};
int why(Context&, const Why&);

// --- what plugins write and propose (plugin_commands.cpp)

// --- order and chances (sequence_commands.cpp)
struct SequenceOf {
  std::string scope, level, svg, html;
  bool redundant = false;
  bool sources = false;
  bool narrow = false;
  int steps = 1;
};
int sequence(Context&, const SequenceOf&);
/// Of one: the dates of a place or thing. Of two: which began first.
struct ChancesOf {
  std::string first, second, level;
  int first_placement = 1;
  int second_placement = 1;
  std::uint64_t seed = 1;
};
int chances(Context&, const ChancesOf&);

struct Export {
  std::string plugin, file, format, scope, level, base_iri;
};
int export_with(Context&, const Export&);
struct Print {
  std::string plugin, record, form, file, level;
  std::vector<std::string> settings;
};
int print(Context&, const Print&);
struct Proposals {
  std::string analysis, record, level;
  std::vector<std::string> settings;
};
int proposals(Context&, const Proposals&);
struct Accept {
  Proposals proposals;
  std::vector<std::string> keys;
  Ground ground;
};
int accept(Context&, const Accept&);

}  // namespace lathbook::cli
