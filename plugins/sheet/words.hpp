// The table of words of one language, from which every sentence of the sheet is made.
#pragma once

#include <string_view>
#include <vector>

namespace lathbook::sheet {

/// One line of the table of sightings: how a statement about a thing is told.
struct Telling {
  std::string_view property;
  std::string_view pattern;  ///< slots {value} {when} (a date as it follows a verb) {source} {feature} {spot}
  bool by_date = false;      ///< left out where a date told of the thing rests on the statement
};

/// The table of one language. Patterns have slots in braces.
struct Words {
  std::string_view on, in_unit, between, by, not_before, about, or_else, undated;
  std::string_view wide, leaned;
  std::string_view certain, probable, possible;
  std::string_view surely, possibly;
  std::string_view put_in, taken_out, covered_up, to_be_seen, out_of_sight;
  std::string_view making_of, beginning_of, end_of, opening_of;  ///< before the name of a thing
  std::string_view left_out, also_recorded, bared, source_made;
  std::string_view works_began, works_over, works_undated;
  std::string_view looked_at, looked_on, looked_by, looked_how, not_reached, sought, never_looked;
  std::string_view gain, gain_on_average;
  // Sentences and their parts, in the order of words_en.cpp.
  std::string_view placement_of, older_state, withheld_one, withheld_many, private_copy, from_date,
      until_date, from_to, used_by, not_tested, presumed, hazard, local_code, set_by, contested_means,
      took_part, not_dated, made_when, not_known, opened_by, opened, these_over, piecemeal, by_works, came_in,
      taken, covered, covered_by, covered_also, covered_somehow, made, over, filling, in_place_of,
      itself_made, original, original_since, not_older, known_by, clash_circle, clash, none_aside, all_aside,
      some_aside, undecided, way_taken, way_out, fallen_with, cannot_all, cannot_all_of, ruled, not_given,
      source_not_given, no_source, statement_not_given, chart_title, chart_words, phase, letters_below,
      surely_there, possibly_there, key, heading_outside, heading_undated_things, heading_pieces,
      heading_contradictions, heading_rulings, heading_cautions, heading_settings, heading_notes,
      heading_sources, heading_reasons, heading_names, heading_uses, heading_works, heading_examined,
      heading_tasks, heading_what_if, heading_drawn, heading_phases, as_known, state, statement, from_ground,
      cannot_hold, one_side, other_side, beside, because, in_full, tasks_caution, page_title, history,
      history_of, cell_known, cell_evidence, cell_state, cell_withheld, contents, link_phases, link_drawn,
      link_outside, link_pieces, link_contradictions, link_settings, link_examined, link_tasks, footer,
      note_label, concluded_from, table_caption, column_thing, column_put_in, column_gone, column_notes;
  std::vector<Telling> tellings;
};

const Words& english();

}  // namespace lathbook::sheet
