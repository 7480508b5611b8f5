// Puts the sheet together, part by part in the order in which it is read, so that notes run in order.
#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "plugins/sheet/content.hpp"
#include "plugins/sheet/teller.hpp"

namespace lathbook::sheet {

class Builder {
public:
  Builder(const Snapshot& archive, const Timeline& timeline, const std::vector<Digest>& leave_out);
  Sheet build();

private:
  enum class Side : std::uint8_t { opens, works_begin, works_end, begins, ends, made, source };

  // content.cpp
  void add_title();
  void add_stops();
  void add_what_if();
  void add_names(const RecordInfo& scope);
  void add_cautions();
  void add_settings();
  void add_table();
  void add_source_dates();
  /// The place of the date's reasons in sheet_.whys, made on first use.
  std::size_t why(std::size_t at, Side side, const Span& span, const std::string& label);
  Chain chain(const Bound& bound, bool earliest);
  /// What a single approximate statement gives for both ends of a span, else empty.
  std::string about(const Span& span) const;
  /// Adds the date with its caveat and the notes of its reasons to the sentence.
  void add_date(Sentence& sentence, std::size_t why_at) const;

  // things.cpp
  void add_phases();
  void add_others();
  std::vector<Sentence> opening_of(std::size_t phase);
  void add_groups(Chapter& chapter, std::size_t phase);
  Entry put_in(std::size_t item, const std::string& how);
  Entry taken_out(std::size_t item);
  Entry covered_up(std::size_t item);
  Entry undated(std::size_t item);
  Entry piece(std::size_t item);
  bool is_piece(std::size_t item) const;
  void add_all_that_is_said(Entry& entry);
  void add_original_pieces(Entry& entry);
  /// ", over the sea-green tile field (N-203)" of what it covers, fills or replaces, with notes.
  void add_relations(Sentence& sentence, std::size_t item);
  std::optional<Sentence> telling(const Statement& statement, std::string_view pattern);

  /// What hid it and has gone since.
  void add_bared(Entry& entry);

  // looking.cpp
  void add_works();
  void add_examinations();
  void add_tasks();
  void add_examination(const Uuid& examination);
  std::string all_said(const Uuid& subject, std::string_view property, std::vector<int>& notes,
                       std::string_view detail = {});

  // contradictions.cpp
  void add_contradictions();
  void add_rulings();
  void add_ways_out(const TimelineConflict& conflict, Contradiction& told);
  Contradiction contradiction(const TimelineConflict& conflict);
  std::string head_of(const TimelineConflict& conflict, bool all_given);
  std::vector<Sentence> beside(const TimelineConflict& conflict);

  const Timeline& timeline_;
  const std::vector<Digest>& leave_out_;
  Teller teller_;
  std::vector<TimelineItem> items_;  ///< those whose record the reading gives
  std::vector<bool> told_;           ///< whether the item has had its full entry
  std::map<std::pair<std::size_t, Side>, std::size_t> why_places_;
  Sheet sheet_;
};

/// A sentence of plain words.
Sentence sentence_of(std::string words, const std::vector<int>& notes = {});

}  // namespace lathbook::sheet
