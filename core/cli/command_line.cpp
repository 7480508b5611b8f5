#include "core/cli/command_line.hpp"

#include <CLI/CLI.hpp>
#include <functional>
#include <iostream>

#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/help_words.hpp"
#include "core/cli/wrong_use.hpp"

namespace lathbook::cli {

namespace {

// Builds the commands; each leaves what is to be run in `chosen`.
class CommandLine {
public:
  CommandLine() : app_(kAbout, "lathbook") {
    app_.footer(kFooter);
    app_.require_subcommand(0, 1);
    app_.fallthrough();
    app_.set_version_flag("--version", "lathbook " LATHBOOK_VERSION);
    common();
    keeping();
    entering();
    bench();
    proposing();
    labels();
    handling();
    reading();
  }

  int parse(int argc, char** argv, std::ostream& out, std::ostream& err) {
    if (argc > 1 && std::string_view(argv[1]) == "help") return help_on(argc > 2 ? argv[2] : "", out, err);
    try {
      app_.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
      if (error.get_exit_code() == 0) return app_.exit(error, out, err);
      err << "lathbook: " << safe_display(wrong_use_words(app_, error)) << '\n';
      return kWrongUse;
    }
    if (!chosen) out << app_.help();
    return kDone;
  }

  std::function<int(Context&)> chosen;
  Common shared;

private:
  // 'help COMMAND' tells the same as 'COMMAND --help'.
  int help_on(const std::string& name, std::ostream& out, std::ostream& err) {
    try {
      out << (name.empty() ? app_.help() : app_.get_subcommand(name)->help(app_.get_name()));
      return kDone;
    } catch (const CLI::OptionNotFound&) {
      err << "lathbook: " << safe_display(no_command_words(app_, name)) << '\n';
      return kWrongUse;
    }
  }

  // Hands the struct filled by the options to its function.
  template <typename Wanted>
  CLI::App* command(const std::string& name, const std::string& help, const std::string& group,
                    Wanted& wanted, int (*run)(Context&, const Wanted&)) {
    auto* sub = app_.add_subcommand(name, help)->group(group);
    sub->callback(
        [this, &wanted, run] { chosen = [&wanted, run](Context& context) { return run(context, wanted); }; });
    return sub;
  }

  void common() {
    const auto group = "Any command";
    app_.add_option("--archive", shared.archive,
                    "folder of the archive (else LATHBOOK_ARCHIVE, else the folder one works in)")
        ->group(group);
    app_.add_option("--recorder", shared.recorder, "code of the person who enters (else LATHBOOK_RECORDER)")
        ->group(group);
    app_.add_option("--plugins", shared.plugins, "folder of plugins to look in first")->group(group);
    app_.add_flag("--json", shared.json, "answer in JSON")->group(group);
    app_.add_flag("--clock-is-right", shared.clock_is_right, "enter although the clock looks wrong")
        ->group(group);
    app_.add_flag("--with-private", shared.with_private, "read private statements too")->group(group);
    app_.add_option("--known-on", shared.known_on, "read the archive as this copy knew it on a day")
        ->group(group);
    app_.add_flag("--by-entry-day", shared.by_entry_day, "with --known-on: by anyone's day of entry")
        ->group(group);
    app_.add_option("--state", shared.state, "read the state with this fingerprint")->group(group);
  }

  static void ground_options(CLI::App* sub, Ground& ground) {
    const auto group = "What it rests on";
    sub->add_option("--source", ground.source, "code of the source that is cited")->group(group);
    sub->add_option("--at", ground.locator,
                    "the spot in it: page, sheet, frame, time code, place on the wall")
        ->group(group);
    sub->add_option("--quote", ground.quote, "the words of the source as they stand")->group(group);
    sub->add_option("--by", ground.by, "code of who observed or said it")->group(group);
    sub->add_option("--on", ground.on, "the day of observing or saying")->group(group);
    sub->add_option("--class", ground.evidence, "physical, documentary, oral or comparative")->group(group);
    sub->add_option("--confidence", ground.confidence, "certain, probable, possible or conjecture")
        ->group(group);
    sub->add_option("--with", ground.details, "a detail, name=value (see 'lathbook properties')")
        ->group(group);
    sub->add_option("--because", ground.because, "a statement it is concluded from")->group(group);
    sub->add_option("--why", ground.why, "the reason, or a remark")->group(group);
    sub->add_option("--private", ground.private_reason, "keep it private: the reason")->group(group);
    sub->add_option("--private-until", ground.private_until, "a day from which it may be shown")
        ->group(group);
  }

  void keeping() {
    const auto group = "Keeping";
    auto* sub = command("begin", "make a new archive", group, begin_, begin);
    sub->add_option("folder", begin_.folder, "a new folder")->required();
    sub->add_option("--name", begin_.name, "what the archive is called");
    sub = command("take-in", "take in a surveyor's sheets (CSV): all rows or none", group, take_in_, take_in);
    sub->add_option("files", take_in_.files, "sheets, or a folder of them")->required();
    sub->add_flag("--good-rows", take_in_.good_rows, "take the good rows although others are refused");
    sub->add_option("--media", take_in_.media_folder, "folder of the files that sheets name");
    ground_options(sub, take_in_.ground);
    sub = command("write-out", "write the whole archive as one exchange document", group, write_out_,
                  write_out);
    sub->add_option("file", write_out_.file, "the document to write, - for standard output")->required();
    sub->add_flag("--no-media", write_out_.no_media, "leave the files behind");
    sub = command("restore", "make an archive from an exchange document or a bag of ours", group, restore_,
                  restore);
    sub->add_option("file", restore_.file, "the document, or the bag's folder")->required();
    sub->add_option("folder", restore_.folder, "a new folder")->required();
    sub = command("verify-bag", "judge a BagIt package of any program, version 0.93 to 1.0", group,
                  verify_bag_, verify_package);
    sub->add_option("folder", verify_bag_.folder, "the bag's folder")->required();
    sub = command("merge", "take over all that another copy knows", group, merge_, merge);
    sub->add_option("other", merge_.other, "folder of the other archive")->required();
    sub = command("check", "look for anything changed, lost or at odds", group, check_, check);
    sub->add_option("--fingerprint", check_.fingerprint,
                    "a fingerprint written down earlier: is that state still held?");
    sub->add_flag("--no-media", check_.no_media, "leave out the files");
    sub->add_flag("--bring-forward", check_.bring_forward,
                  "bring an archive of an older program forward first");
    auto* counts = app_.add_subcommand("tally", "count what there is")->group(group);
    counts->callback([this] { chosen = [](Context& context) { return tally(context); }; });
  }

  void entering() {
    const auto group = "Entering";
    auto* sub = command("new", "make a record", group, new_, make_new);
    sub->add_option("kind", new_.kind, "place, element, piece, source, agent ...")->required();
    sub->add_option("code", new_.code, "its code, unique in the archive")->required();
    sub->add_option("--name", new_.name, "its name (a source's title)");
    ground_options(sub, new_.ground);
    sub = command("say", "say one thing about one record", group, say_, say);
    sub->add_option("subject", say_.subject, "code of the record")->required();
    sub->add_option("property", say_.property, "what is said (see 'lathbook properties')")->required();
    sub->add_option("value", say_.value, "the value; a record by its code, a file by its path")->required();
    ground_options(sub, say_.ground);
    sub = command("amend", "replace a statement by a better one; both stay", group, amend_, amend);
    sub->add_option("statement", amend_.statement, "its name, like 3fa9c2d1-12")->required();
    sub->add_option("value", amend_.value, "the new value")->required();
    ground_options(sub, amend_.ground);
    sub = command("withdraw", "take statements back; they stay in the record", group, withdraw_, withdraw);
    sub->add_option("statements", withdraw_.statements, "their names")->required();
    sub->add_option("--why", withdraw_.why, "the reason")->required();
    sub = command("expunge", "destroy the words of statements for good", group, expunge_, expunge);
    sub->add_option("statements", expunge_.statements, "their names")->required();
    sub->add_option("--why", expunge_.why, "the reason, which stays readable")->required();
    sub->add_flag("--i-am-sure", expunge_.sure, "do not ask");
  }

  void mark_reading(const std::string& group) {
    auto* sub = command("read-mark", "who may have made a mark, letter by letter, and what its codes date",
                        group, read_mark_, read_mark);
    sub->add_option("code", read_mark_.code, "a mark, what it is on, or a place (else every mark)");
    sub->add_option("--text", read_mark_.text, "read this text instead of a mark of the archive");
    sub->add_flag("--dots-counted", read_mark_.dots_counted, "dots in brackets were counted, one a letter");
    sub->add_option("--list", read_mark_.list, "compare with the list of this source only");
    sub = command("take-in-marks", "take in a list of makers' marks (CSV or XML) to compare with", group,
                  mark_list_, take_in_mark_list);
    sub->add_option("file", mark_list_.file, "the list, with columns maker and mark at least")->required();
    sub->add_option("--code", mark_list_.code, "code of the source it becomes, or of one that is here");
    sub->add_option("--title", mark_list_.title, "what it is called");
    sub->add_option("--creator", mark_list_.creator, "who made it");
    sub->add_option("--rights", mark_list_.rights, "its licence or rights statement, as a web address");
    sub->add_option("--note", mark_list_.note, "where it comes from, what to mind");
    auto* lists = app_.add_subcommand("mark-lists", "the lists of marks that were taken in")->group(group);
    lists->callback([this] { chosen = [](Context& context) { return mark_lists(context); }; });
  }

  void bench() {
    const auto group = "At the bench";
    auto* sub = command("mark", "record a maker's mark on the piece in your hand", group, mark_, mark);
    sub->add_option("piece", mark_.carrier, "code of the piece or element (the number on the bag)")
        ->required();
    sub->add_option("letters", mark_.transcription,
                    "what is read, letter for letter: [---] lost, [..] two lost, (abc) expanded, / line end; "
                    "may be left out where only a --number is read");
    sub->add_option("--method", mark_.method, "relief, impressed, printed, painted, incised, cast or paper");
    sub->add_option("--face", mark_.face, "the face it is on");
    sub->add_option("--orientation", mark_.orientation, "which way up it reads");
    sub->add_option("--photo", mark_.photo, "a photograph of it, with a scale");
    sub->add_option("--number", mark_.numbers, "a registration or patent number read in it");
    sub->add_option("--code", mark_.code, "code of the mark (else the next free one)");
    ground_options(sub, mark_.ground);
    mark_reading(group);
    sub = command("link", "link a labelled component to the room it was made for", group, link_, link);
    sub->add_option("component", link_.component, "code of the component")->required();
    sub->add_option("room", link_.room,
                    "code of the room, as you judge it (else the one its label clearly means)");
    sub->add_option("--label", link_.label, "code of the label that says so");
    sub->add_option("--fit", link_.fit, "what was tried and fits: it stood there, not only meant for it");
    sub->add_option("--tested", link_.tested,
                    "with --fit: screw holes, ghost, size, matching finish, or a witness");
    sub->add_option("--part", link_.part, "which part or position in the room");
    sub->add_option("--open", link_.open, "what the label leaves open");
    ground_options(sub, link_.ground);
    sub = command("work", "enter what was done in the trade's words: boxed in, blocked, made good ...", group,
                  work_, work);
    sub->add_option("word", work_.word, "the trade's word");
    sub->add_option("subject", work_.subject, "the later thing");
    sub->add_option("object", work_.object, "the other thing");
    sub->add_option("--contact", work_.contact, "the contact read between them");
    sub->add_flag("--list", work_.list, "list the words and what each is entered as");
    ground_options(sub, work_.ground);
    sub = command("aids", "nails, tiles, pigments ... and their first possible year, with sources", group,
                  aids_, aids);
    sub->add_option("words", aids_.words, "words to look for; all aids when left out");
    sub->add_option("--panes", aids_.panes, "thicknesses of window panes in mm: the mean year of a sample");
    sub = command("date-by", "date a piece, fixing or coat by a dating aid: made not before", group, date_by_,
                  date_by);
    sub->add_option("aid", date_by_.aid, "name of the aid (see 'lathbook aids')")->required();
    sub->add_option("piece", date_by_.subject, "code of the piece, fixing or coat")->required();
    sub->add_option("--whole", date_by_.whole,
                    "for an element that is one thing made at one time: why it is");
    ground_options(sub, date_by_.ground);
  }

  static void proposal_options(CLI::App* sub, Proposals& wanted) {
    sub->add_option("analysis", wanted.analysis, "which analysis proposes: timeline, marks, labels ...")
        ->required();
    sub->add_option("record", wanted.record, "code of what it is asked about")->required();
    sub->add_option("--level", wanted.level, "trust certain, probable or possible evidence");
    sub->add_option("--setting", wanted.settings, "a setting of the analysis, name=value");
  }

  void proposing() {
    const auto group = "At the bench";
    auto* sub = command("proposals", "what an analysis proposes to enter about a record", group, proposals_,
                        proposals);
    proposal_options(sub, proposals_);
    sub = command("accept", "enter what an analysis proposes, at your word", group, accept_, accept);
    proposal_options(sub, accept_.proposals);
    sub->add_option("keys", accept_.keys, "the handles of the proposals, as listed")->required();
    ground_options(sub, accept_.ground);
  }

  void labels() {
    const auto group = "Reading";
    auto* sub =
        command("where-to", "which room a label means, with every reason", group, where_to_, where_to);
    sub->add_option("label", where_to_.what,
                    "code of a label, or of a component (its labels); all labels when left out");
    sub->add_option("--text", where_to_.text, "a label typed in instead, in the signs of transcriptions");
    sub->add_option("--carrier", where_to_.carrier, "with --text: code of what it is written on");
    sub->add_option("--written", where_to_.written, "when it was written (tells which names were in use)");
    sub->add_option("--storeys", where_to_.storeys, "how the writer counted: us (ground is first) or uk");
    sub->add_option("--left", where_to_.left, "left and right of the house from: outside (usual) or inside");
    sub->add_option("--in", where_to_.within, "with --text: look among the rooms of this building only");
    sub->add_flag("--brief", where_to_.brief, "the answers only, without the reasons");
    sub = command("made-for", "what was made for a room, marked or fitted", group, made_for_, made_for);
    sub->add_option("what", made_for_.what,
                    "code of a room, or of a component: what else was made for its room?");
    sub->add_flag("--no-home", made_for_.no_home, "labelled components that no room has been found for");
  }

  void handled(CLI::App* sub, Handling& wanted) {
    sub->add_option("pieces", wanted.pieces, "codes of the pieces: H1-03, H1-26 to H1-30")->required();
    sub->add_option("--condition", wanted.condition, "how whole they are since then: sound, broken ...");
    sub->add_option("--tools", wanted.tools, "tools and method tried");
    sub->add_option("--outcome", wanted.outcome, "what came of it");
    sub->add_option("--worked", wanted.worked, "worked, worked in part, did not work, or made it worse");
    sub->add_option("--hours", wanted.hours, "how long it took");
    sub->add_option("--lesson", wanted.lesson, "what was learnt for the next time");
    sub->add_option("--although-stopped", wanted.although, "why it was done although work is stopped there");
    ground_options(sub, wanted.ground);
  }

  void handling() {
    const auto group = "Taking down and putting back";
    auto* sub =
        command("take-down", "pieces come off and lie on the bench, to return", group, take_down_, take_down);
    handled(sub, take_down_);
    sub = command("pack", "pieces go into a crate or box", group, pack_, pack);
    handled(sub, pack_);
    sub->add_option("--into", pack_.container, "code of the container")->required();
    sub->add_option("--order", pack_.order, "place of the first of them in the container, from 1");
    sub = command("put-back", "pieces are set in place again", group, put_back_, put_back);
    handled(sub, put_back_);
    sub->add_option("--cell", put_back_.cell, "ROW,COLUMN where it is laid, when that is not its own cell");
    sub->add_option("--product", put_back_.product, "what they were bedded or fixed with");
    sub->add_option("--batch", put_back_.batch, "its batch");
    sub->add_option("--marked", put_back_.marked, "how and where new work is marked");
    sub->add_option("--cures", put_back_.cures, "days the work must be left alone");
    sub = command("account", "a piece is lost, found, away, sampled, reused or discarded", group, account_,
                  account);
    handled(sub, account_);
    sub->add_option("--state", account_.state, "its state from now on, in the words of the list")->required();
    sub = command("did", "other work on things: opened, faced, cleaned, repaired, propped, tried ...", group,
                  did_, did);
    sub->add_option("work", did_.event, "what was done (lathbook properties event)")->required();
    handled(sub, did_);
    sub->add_option("--product", did_.product, "what was used");
    sub->add_option("--batch", did_.batch, "its batch");
    sub =
        command("tried", "what was tried before on a thing like this, and what worked", group, tried_, tried);
    sub->add_option("words", tried_.words, "rusted slotted screw")->required();
    sub->add_option("--most", tried_.most, "how many at most")->check(CLI::Range(1, 1000));
    sub = command("stop", "work must stop: enter it, and be told whom to ring", group, stop_, stop_work);
    sub->add_option("where", stop_.where, "code of the place or thing")->required();
    sub->add_option("what", stop_.what,
                    "a hazard (gas, asbestos ...) or movement, smell of gas, human remains, other")
        ->required();
    sub->add_option("--words", stop_.words, "what was seen, smelt or heard");
    ground_options(sub, stop_.ground);
    sub = command("lift", "work may go on: who cleared the danger, and on what ground", group, lift_,
                  lift_stop);
    sub->add_option("stop", lift_.stop, "code of the stop (V-3), or of where work is stopped")->required();
    sub->add_option("--words", lift_.words, "on what ground: a laboratory's result, a clearance in writing");
    sub->add_option("--hazard-is", lift_.status, "how the danger stands now: tested clear, found, presumed");
    ground_options(sub, lift_.ground);
  }

  void reading() {
    const auto group = "Reading";
    auto* sub = command("show", "one record with all that is said of it", group, show_, show);
    sub->add_option("code", show_.code, "code of the record")->required();
    sub->add_flag("--all", show_.all, "replaced and withdrawn statements too");
    sub = command("find", "look for words in records, marks and sources", group, find_, lathbook::cli::find);
    sub->add_option("words", find_.words, "words, or a run of letters of a mark")->required();
    sub->add_option("--most", find_.most, "how many at most")->check(CLI::Range(1, 10000));
    sub = command("history", "the phases of a room or building, with notes", group, history_, history);
    sub->add_option("place", history_.place, "code of the room or building")->required();
    sub->add_option("--level", history_.level, "trust certain, probable or possible evidence");
    sub->add_option("--html", history_.html, "write a page with a chart to this file");
    sub->add_flag("--reasons", history_.reasons, "list why each date stands, too");
    sub->add_option("--without", history_.without, "as if this statement had not been made");
    sub->add_option("--answer", history_.answer,
                    "where several ways out of a contradiction are equally good: take this one");
    sub = command("would-help", "what to find out first: the tasks that would narrow most dates", group,
                  would_help_, would_help);
    sub->add_option("place", would_help_.place, "code of the room or building")->required();
    sub->add_option("--level", would_help_.level, "trust certain, probable or possible evidence");
    sub = command("report", "the preservation report of a building or room, to print or to edit", group,
                  report_on_, report_on);
    sub->add_option("place", report_on_.place, "code of the building or room")->required();
    sub->add_option("file", report_on_.file, "the file to write: .html or .odt")->required();
    sub->add_option("--form", report_on_.form, "html or odt, where the file's name does not tell");
    sub->add_option("--rooms", report_on_.rooms, "codes of the only rooms to tell, parted by commas");
    sub->add_option("--order", report_on_.order,
                    "history-first (US practice) or description-first (a draft ASTM outline)");
    sub->add_option("--level", report_on_.level, "trust certain, probable or possible evidence");
    sub->add_option("--without", report_on_.without, "as if this statement had not been made");
    sub->add_flag("--no-pictures", report_on_.no_pictures, "leave photographs and drawings out");
    sub = command("layers", "coats of paint side by side, and what was put in after which", group, layers_,
                  layers);
    sub->add_option("where", layers_.where, "code of a room, an element or a finish; all when left out");
    sub->add_option("--reference", layers_.reference, "code of the element or sample to compare with");
    sub->add_option("--level", layers_.level, "trust certain, probable or possible evidence");
    sub->add_option("--svg", layers_.svg, "write a drawing to this file");
    sub->add_flag("--narrow", layers_.narrow, "a drawing for a phone");
    sub = command("why", "why a date or value stands, down to the sources", group, why_, why);
    sub->add_option("code", why_.code, "code of the record, or a statement's name")->required();
    sub->add_option(
        "what", why_.what,
        "begins, ends, made, or a property by its name or as 'show' prints it; all dates when left out");
    sub->add_option("--level", why_.level, "trust certain, probable or possible evidence");
    sub->add_option("--without", why_.without, "as if this statement had not been made");
    sub->add_option("--answer", why_.answer,
                    "where several ways out of a contradiction are equally good: take this one");
    sub = command("sequence", "what came after what in a place, or round one thing", group, sequence_,
                  sequence);
    sub->add_option("of", sequence_.scope, "code of the place, element or finish")->required();
    sub->add_option("--level", sequence_.level, "trust certain, probable or possible evidence");
    sub->add_option("--svg", sequence_.svg, "write a drawing to this file");
    sub->add_option("--html", sequence_.html, "write a page with the drawing to this file");
    sub->add_flag("--narrow", sequence_.narrow, "with --svg: for a phone, one row a thing");
    sub->add_flag("--redundant", sequence_.redundant, "show relations that the others say already");
    sub->add_flag("--sources", sequence_.sources, "under each relation the statement and what it cites");
    sub->add_option("--steps", sequence_.steps, "of one thing: how many relations away its neighbours may be")
        ->check(CLI::Range(0, 20));
    sub = command("chances", "how likely the dates are that the evidence leaves open", group, chances_,
                  chances);
    sub->add_option("of", chances_.first, "code of the place, element or finish")->required();
    sub->add_option("--level", chances_.level, "trust certain, probable or possible evidence");
    sub->add_option("--seed", chances_.seed, "another seed draws other figures, as near the truth");
    sub = command("which-first", "which of two things was there first, and how likely", group, which_first_,
                  chances);
    sub->add_option("one", which_first_.first, "code of an element or finish")->required();
    sub->add_option("other", which_first_.second, "code of another")->required();
    sub->add_option("--setting", which_first_.first_placement, "of the first: which of its settings, from 1")
        ->check(CLI::Range(1, 64));
    sub->add_option("--other-setting", which_first_.second_placement, "of the second: which of its settings")
        ->check(CLI::Range(1, 64));
    sub->add_option("--level", which_first_.level, "trust certain, probable or possible evidence");
    sub->add_option("--seed", which_first_.seed, "another seed draws other figures, as near the truth");
    sub =
        command("export", "write the archive by a plugin, in an open standard", group, export_, export_with);
    sub->add_option("plugin", export_.plugin, "name of the plugin (see 'lathbook plugins')")->required();
    sub->add_option("file", export_.file, "the file or new folder to write, - for standard output")
        ->required();
    sub->add_option("--format", export_.format, "a variant the plugin offers");
    sub->add_option("--of", export_.scope, "a room or building only");
    sub->add_option("--level", export_.level, "trust certain, probable or possible evidence");
    sub->add_option("--base", export_.base_iri, "web address under which records are named");
    sub = command("print", "a sheet, map, list or answer that a plugin draws up", group, print_, print);
    sub->add_option("plugin", print_.plugin, "name of the plugin (see 'lathbook plugins')")->required();
    sub->add_option("record", print_.record, "code of what it is about; the whole archive when left out");
    sub->add_option("--form", print_.form, "which of its forms; a wrong one tells which there are");
    sub->add_option("--to", print_.file, "a file to write; standard output when left out");
    sub->add_option("--level", print_.level, "trust certain, probable or possible evidence");
    sub->add_option("--setting", print_.settings, "a setting of the plugin, name=value");
    sub = command("plugins", "list plugins, and why any was refused", group, plugins_, plugins);
    sub->add_flag("--strict", plugins_.strict, "exit with 1 when any was refused");
    auto* rows = app_.add_subcommand("properties", "list what can be said of what")->group(group);
    rows->add_option("--of", of_kind_, "of one kind of record");
    rows->callback([this] { chosen = [this](Context& context) { return properties(context, of_kind_); }; });
  }

  CLI::App app_;
  Begin begin_;
  Check check_;
  Merge merge_;
  VerifyBag verify_bag_;
  Restore restore_;
  WriteOut write_out_;
  TakeIn take_in_;
  New new_;
  Say say_;
  Amend amend_;
  Withdraw withdraw_;
  Expunge expunge_;
  Mark mark_;
  ReadMark read_mark_;
  TakeInMarkList mark_list_;
  Link link_;
  Work work_;
  Aids aids_;
  DateBy date_by_;
  Show show_;
  Find find_;
  History history_;
  WouldHelp would_help_;
  ReportOn report_on_;
  Layers layers_;
  Why why_;
  SequenceOf sequence_;
  ChancesOf chances_;
  ChancesOf which_first_;
  MadeFor made_for_;
  WhereTo where_to_;
  Handling take_down_, pack_, put_back_, account_, did_;
  Tried tried_;
  StopWork stop_;
  LiftStop lift_;
  Export export_;
  Print print_;
  Proposals proposals_;
  Accept accept_;
  Plugins plugins_;
  std::string of_kind_;
};

}  // namespace

int run_command_line(int argc, char** argv, const Clock& clock, std::ostream& out, std::ostream& err) {
  CommandLine line;
  const int parsed = line.parse(argc, argv, out, err);
  if (parsed != kDone || !line.chosen) return parsed;
  try {
    Context context(line.shared, clock, out, err);
    const int code = line.chosen(context);
    if (!out.flush())
      fail(ErrorKind::io, "the answer could not be written: the disk is full or the pipe is closed");
    return code;
  } catch (const Error& error) {
    err << "lathbook: " << safe_display(error.what()) << '\n';
    return exit_code(error.kind());
  } catch (const std::bad_alloc&) {
    err << "lathbook: there is not enough memory for this; nothing was changed\n";
    return kDiskRefused;
  } catch (const std::exception& error) {
    err << "lathbook: an unexpected fault: " << safe_display(error.what())
        << "; nothing was changed, please report it\n";
    return kCorrupt;
  }
}

}  // namespace lathbook::cli
