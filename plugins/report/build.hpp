// Puts the report together, chapter by chapter in the order in which it is read.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/analysis/finish_layers.hpp"
#include "core/plugin/plugin.hpp"
#include "plugins/report/picture.hpp"
#include "plugins/report/teller.hpp"
#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// What the user chose.
struct Options {
  /// US practice tells the chronology before the description of the rooms; a draft ASTM outline after it.
  bool description_first = false;
  std::vector<std::string> rooms;  ///< codes; all rooms of the scope when empty
  bool pictures = true;
  /// What of the private archive would narrow dates, told by the host, which alone can see it: codes of
  /// things. Empty optional: nobody has tried.
  std::optional<std::vector<std::string>> narrower;
};

/// What the report is made from; all borrowed.
struct Material {
  const Snapshot& archive;
  const Timeline& timeline;
  const FinishLayers* layers = nullptr;  ///< null: no finish schedule
  const ArchiveFiles* files = nullptr;   ///< null: no pictures
  const std::vector<Digest>& leave_out;
};

/// A room, or the rest of the building, with the things that are told there.
struct Site {
  RecordInfo place;
  std::string anchor;
  std::string title;
  bool at_large = false;
  std::vector<std::size_t> items;      ///< indices of Timeline::items
  std::vector<std::size_t> elsewhere;  ///< things that bound the room too and are told elsewhere
};

/// Statements that cannot all hold, told under one number.
struct Contradiction {
  std::vector<std::size_t> conflicts;  ///< indices of Timeline::conflicts
  std::size_t site = 0;                ///< index of the site where it is told
  std::size_t number = 0;              ///< from 1
  std::string anchor;
};

class Builder {
public:
  Builder(const Material& material, Options options);
  Document build();

private:
  // build.cpp
  void find_sites();
  void place_items();
  void put_at_home(std::size_t item, const std::vector<std::size_t>& homes,
                   const std::vector<std::size_t>& bounded);
  void begin(const std::string& anchor, const std::string& title);
  void end();
  void heading(int level, const std::string& key, const MessageValues& values = {});
  void add(Paragraph paragraph);
  void add(Sentence sentence) { add(paragraph({std::move(sentence)})); }
  void add(List list);
  void add(Table table);
  void add(Figure figure) { chapter_.blocks.emplace_back(std::move(figure)); }
  /// A heading and what `fill` writes under it; neither when that is nothing.
  template <typename Fill>
  void section(int level, const std::string& key, const Fill& fill);
  const TimelineItem& item(std::size_t at) const { return material_.timeline.items[at]; }
  bool is_thing(std::size_t at) const;   ///< an element
  bool is_finish(std::size_t at) const;  ///< a coat
  bool is_of_site(const Site& site, const Uuid& record) const;
  bool is_of_some_site(const Uuid& record) const;
  /// The place of the site and, of the building at large, the places in it that are no rooms.
  std::vector<Uuid> places_of(const Site& site);
  /// These, and the things told of there that have not been moved on.
  std::vector<Uuid> records_of(const Site& site);

  // front.cpp
  void add_front();
  void add_people();
  void add_general_cautions();
  void add_withheld();
  void add_missing();
  Chapter reckoning();

  // authored.cpp
  std::vector<Statement> authored(const Uuid& place, std::string_view section);
  Sentence marked_text(const std::string& text, const Statement& said);
  void add_authored(const Uuid& place, const std::string& section, int level);
  void add_authored_chapter(const std::string& anchor, const std::vector<std::string>& sections);

  // chronology.cpp
  void add_chronology();
  void add_building_names();
  std::optional<Sentence> share_of_works(const Uuid& works, const std::string& relation);
  void add_phase_bounds();
  /// Agents with their statements of being owner or occupant, in the order of time.
  std::vector<std::pair<Uuid, Statement>> roles_in_house();
  void add_ownership();
  Sentence use_in_table(const Statement& use);

  // rooms.cpp
  void add_room(const Site& site);
  void add_names(const Site& site);
  void add_names_of(const Uuid& place, List& list);
  void add_bounding(const Site& site);

  // photographs.cpp
  void add_photographs(const Site& site);
  void add_other_photographs();
  std::optional<Figure> photograph(const Uuid& source, const std::vector<std::string>& cited_for);
  std::string part_shown(const Uuid& id);
  bool shows_one_leaf(const Uuid& id, const SourceView& view);
  Sentence picture_head(const Uuid& id, const Source& source, const std::vector<int>& notes);
  Sentence picture_role(const std::string& role, const std::vector<Statement>& said, const Figure& figure);

  // examined.cpp
  void add_examined(const Site& site);
  Paragraph examination(const Uuid& id);
  void add_samples(const Site& site);
  Paragraph sample(const Uuid& id, const Statement& taken);
  std::optional<Sentence> layers_in(const Uuid& from, const Uuid& sample);
  std::vector<Statement> results_of(const Uuid& sample, const Statement& taken);

  // phases.cpp
  void add_phases(const Site& site);
  std::optional<std::string> add_phase(const Site& site, std::size_t phase);
  Sentence phase_opening(const TimelinePhase& phase, const std::string& name);
  void add_put_in(const Site& site, std::size_t phase, Membership wanted);
  /// The words that join a thing with what happened to it: "was " and "laid"; "" and "took place".
  struct Happening {
    std::string be, verb;
  };
  bool is_deed(std::size_t item);
  Happening happening(std::size_t item, bool of_end, bool many = false);
  std::string own_verb(std::size_t item);
  Sentence put_in(std::size_t item, const std::string& how);
  Sentence put_in_together(const std::vector<std::size_t>& members, const std::string& date,
                           std::size_t phase);
  void add_taken_out(const Site& site, std::size_t phase);
  void add_covered(const Site& site, std::size_t phase);
  std::vector<std::size_t> covers_in(std::size_t item, std::size_t phase, std::vector<Statement>& said);

  // sight.cpp
  enum class Sight : std::uint8_t { none, hidden, perhaps, sure, shown };
  std::vector<Uuid> tops_of(const Uuid& id);
  std::optional<Statement> shown_in(std::size_t item, std::size_t phase);
  bool is_there(std::size_t item, std::size_t phase, int depth = 0);
  bool is_gone(std::size_t item, std::size_t phase) const;
  std::optional<Sight> built_in(const Site& site, std::size_t item);
  Sight sight_of(const Site& site, std::size_t item, std::size_t phase);
  static std::string key_of(Sight sight);
  /// `tells_more`: something else was told of the phase.
  void add_in_view(const Site& site, std::size_t phase, bool tells_more);

  // evidence.cpp
  std::string relations(std::size_t item, std::vector<int>& notes);
  Paragraph evidence(std::size_t item);
  std::optional<Sentence> tell(const std::vector<Statement>& alike, const std::string& key);
  Paragraph ruled_out(const TimelineCase& one, const std::vector<int>& notes);
  /// A single case is left.
  static bool is_closed(const TimelineEither& either);
  /// `beside`: it stands beside the evidence, which need not be told again.
  Paragraph cases_of(const TimelineItem& item, const TimelineEither& either, bool beside = true);

  // proofs.cpp
  /// A thing by name, and which of its placements it is where it has several.
  std::string name_of(std::size_t item);
  /// The same for lists and tables.
  std::string label_of(std::size_t item);
  std::string placement_words(std::size_t item);
  /// Notes of what dates the thing: the dated end of each chain, and the link that joins it to the thing.
  std::vector<int> cite_ends(const Span& span);
  /// ": not before the making of ..., and not after the photograph ...": the dated ends in one clause.
  std::string strongest(std::size_t item, const Span& span);
  std::string dated_end(const Uuid& of, const Bound& bound);
  void add_proofs();
  struct ToldChain {
    std::vector<Digest> steps;
    std::string of;  ///< the thing whose date it proves
  };
  void add_proof(std::size_t item, bool of_end, Table& table, std::array<std::vector<ToldChain>, 2>& told);
  Cell proof_cell(const Bound& bound, const std::string& of, std::vector<ToldChain>& told);

  // elements.cpp
  void add_elements(const Site& site);
  /// `marks` stand in a column of their own, or else with the thing.
  Row element_row(std::size_t item, Cell marks, bool with_marks);
  std::optional<Sentence> last_look(const Uuid& element, Day after);
  Cell marks_of(const Uuid& element);

  // condition.cpp
  void add_condition(const Site& site);
  void add_looks(const Uuid& element, Table& table);

  // finish_schedule.cpp
  void add_finishes(const Site& site);
  void add_sequence(const FinishSequence& sequence);
  std::string refusal_of(const FinishSequence& sequence);
  /// "as layer 4 of the dado (E-105.01)" of a coat taken for the same as another; empty for others.
  std::string same_coat(const FinishSequence& sequence, std::size_t coat);
  std::optional<Sentence> told_by_layers(const std::vector<Uuid>& undated);

  // contradictions.cpp
  void find_rulings();
  bool is_ruled_out(const Statement& said) const;
  void number_contradictions();
  void find_nearest();
  bool are_one(const TimelineConflict& one, const TimelineConflict& other) const;
  std::string see(const std::set<std::size_t>& numbers) const;
  /// The words of report::when(), with a pointer to the contradiction that the date leans on.
  std::string when(const Span& span);
  std::optional<Sentence> decision(const Statement& said, const std::string& key);
  std::optional<Sentence> fate(const Statement& said);
  /// The dates do without it, and a contradiction tells it.
  bool is_left_out(const Statement& said) const;
  void add_contradictions(const Site& site);
  void add_contradiction(const Site& site, const Contradiction& told);
  /// One of the statements, with who said it and by how much it misses the others (days; 0: not told).
  Sentence side(const ReasonStep& step, std::int64_t clash);
  std::vector<Sentence> outcome(const Contradiction& told, const std::vector<ReasonStep>& kept,
                                const std::vector<ReasonStep>& aside);
  void add_rulings(const Site* site);

  // open_ends.cpp, tasks.cpp
  struct Looks;
  void add_open_ends(const Site& site);
  /// False when no task is told.
  bool add_tasks(const Site& site);
  std::vector<std::size_t> mixed(const std::vector<std::size_t>& tasks) const;
  Looks looks_at(const Uuid& id);
  /// It may hold asbestos, by its hazards or its material: nobody is to disturb it.
  bool is_left_alone(const Uuid& id);
  bool is_analysed(const Uuid& coat);
  std::optional<Uuid> painted_thing(const Uuid& coat) const;
  /// What is worth a look on the thing, by its kind and material, and has not been looked for.
  std::vector<std::string> looks_left(const Uuid& id, const Looks& looks);
  std::optional<Sentence> asked(const TimelineTask& task, const Looks& looks);
  /// Things whose tasks are the same and would date nothing but themselves, in one entry.
  struct Alike {
    std::string key;
    std::vector<Uuid> things;
    std::vector<int> notes;
    std::optional<Paragraph> alone;  ///< as told where it is the only one
  };
  std::optional<Sentence> asked_together(const Alike& alike);
  std::string likeness(const TimelineTask& task, const Paragraph& told);
  std::optional<Paragraph> told_task(const TimelineTask& task);
  std::optional<Paragraph> told_elsewhere(const TimelineTask& task, const Site& site);
  std::optional<Sentence> told_outcome(const TimelineOutcome& outcome, const std::vector<int>& notes);
  std::optional<Sentence> told_by_day(const TimelineTask& task, const std::vector<int>& notes);
  std::vector<std::string> stretches(const std::vector<TimelineGain>& gains);
  std::string few(std::vector<std::string> names) const;
  std::vector<int> notes_on(const Uuid& record);

  // treatment.cpp
  void add_treatment(const Site& site);
  std::vector<Uuid> works_on(const Site& site);
  Row treatment_row(const Uuid& event);
  /// What happened on: "ivory tile field (N-204)", with the pieces that are named.
  std::string done_to(const Uuid& event);
  bool is_by_this_study(const Uuid& event);

  // pieces.cpp
  void add_pieces(const Site& site);
  /// "crate 1, sea-green tile (K-01)".
  std::string container_of(const Statement& held);
  void add_finds(const Site& site);
  void add_replaced(const Site& site);
  void add_cautions(const Site& site);
  /// Where work was stopped at the record: standing stops, and those that were lifted.
  void tell_stops(const Uuid& at, std::vector<Paragraph>& standing, std::vector<Paragraph>& lifted);
  std::string stop_words(const Uuid& event, std::vector<int>& notes);

  // plan.cpp
  std::optional<Figure> key_plan(const Uuid& storey, const std::optional<Uuid>& room);
  std::optional<Figure> site_plan(const Uuid& building);
  void add_key_plans();

  // chart.cpp
  std::optional<Figure> phase_chart(const Site& site, const std::vector<std::size_t>& rows,
                                    const std::string& which);
  std::string row_label(std::size_t item);
  /// Whether a dated source shows or bills the thing.
  bool leans_on(std::size_t item, const Uuid& source);
  void add_phase_charts(const Site& site);
  std::optional<Figure> building_chart();
  std::optional<Figure> finish_columns(const std::vector<const FinishSequence*>& sequences,
                                       const std::string& title);

  Material material_;
  Options options_;
  Teller teller_;
  Document document_;
  Chapter chapter_;
  std::vector<Site> sites_;
  std::vector<bool> told_;  ///< items told in full
  std::vector<Contradiction> contradictions_;
  std::map<Digest, std::set<std::size_t>> disputed_;  ///< statements in contradictions, with their numbers
  struct Nearest {
    std::size_t steps = 0;
    std::set<std::size_t> numbers;
  };
  std::map<Uuid, Nearest> nearest_;                ///< contradictions nearest to a thing or source
  std::set<Digest> left_out_;                      ///< of these, what the dates do without
  std::vector<Statement> rulings_;                 ///< in force, by persons
  std::map<std::size_t, Sight> seen_;              ///< of the site in hand, in the phase told last
  std::set<std::size_t> told_removed_;             ///< items told as perhaps taken out
  std::set<std::size_t> told_covered_;             ///< items told as perhaps covered
  std::set<Uuid> shown_sources_;                   ///< pictures that are in the report
  std::set<Uuid> examined_;                        ///< places and things that some examination looked at
  bool condition_explained_ = false;               ///< what the classes of condition mean was told
  std::optional<Day> first_look_;                  ///< of the first examination
  std::map<Uuid, const Site*> told_examinations_;  ///< with the site where each is told
  std::set<std::string> told_refusals_;            ///< why nothing follows from a sequence, told in full
  bool finishes_explained_ = false;                ///< how a finish schedule is read was told
  bool pieces_explained_ = false;                  ///< what is not told of containers was told
  std::vector<std::string> missing_;               ///< sections that nobody has written
};

template <typename Fill>
void Builder::section(int level, const std::string& key, const Fill& fill) {
  const std::size_t before = chapter_.blocks.size();
  heading(level, key);
  fill();
  if (chapter_.blocks.size() == before + 1) chapter_.blocks.pop_back();
}

}  // namespace lathbook::report
