#include "plugins/finishes/schedule.hpp"

#include <algorithm>

#include "core/base/colour_difference.hpp"
#include "core/base/munsell.hpp"
#include "plugins/finishes/compare.hpp"

namespace lathbook::finishes {

namespace {

// Primers and undercoats of two elements share a row when they are about one colour (Godlove).
constexpr double kAlike = 2;

bool alike(const FinishCoat& a, const FinishCoat& b) {
  if (a.role != b.role) return false;
  const MunsellReading one = read_munsell(a.munsell), two = read_munsell(b.munsell);
  if (!one.good() || !two.good()) return a.munsell == b.munsell && a.colour == b.colour;
  return godlove(one.colour, two.colour) <= kAlike;
}

class Builder {
public:
  Builder(const FinishLayers& layers, const FinishGroup& group) : layers_(layers), group_(group) {}

  Schedule run() {
    out_.columns.push_back({group_.reference, true, nullptr});
    const std::size_t coats = layers_.sequences[group_.reference].coats.size();
    for (std::size_t i = 0; i < coats; ++i) out_.rows.push_back({{i}});
    for (std::size_t i = 1; i < group_.sequences.size(); ++i) add(group_.sequences[i]);
    return std::move(out_);
  }

private:
  using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;  // coat of the reference, own coat

  void add(std::size_t sequence) {
    ScheduleColumn column;
    column.sequence = sequence;
    column_ = out_.columns.size();
    const Pairs pairs = pairs_of(sequence, column.alignment);
    column.lined_up = !pairs.empty();
    out_.columns.push_back(column);
    for (ScheduleRow& row : out_.rows) row.coats.emplace_back();
    coats_ = &layers_.sequences[sequence].coats;
    if (pairs.empty()) {
      for (std::size_t i = 0; i < coats_->size(); ++i) put(row_from(i), i);
    } else {
      by_pairs(pairs);
    }
  }

  Pairs pairs_of(std::size_t sequence, const FinishAlignment*& alignment) const {
    Pairs pairs;
    for (const FinishAlignment& one : group_.alignments) {
      const bool usual = one.reference == group_.reference && one.sequence == sequence;
      const bool turned = one.reference == sequence && one.sequence == group_.reference;
      if (!usual && !turned) continue;
      alignment = &one;
      for (const CoatMatch& match : one.matches)
        pairs.emplace_back(usual ? match.reference : match.coat, usual ? match.coat : match.reference);
    }
    return pairs;
  }

  // Matched coats go to their rows; what lies between goes between, beside its like where there is one.
  void by_pairs(const Pairs& pairs) {
    std::size_t next = 0;  // first row still free for the coat in hand
    bool begun = false;
    auto pair = pairs.begin();
    for (std::size_t coat = 0; coat < coats_->size(); ++coat) {
      if (pair != pairs.end() && pair->second == coat) {
        const std::size_t row = row_of_reference(pair->first);
        put(row, coat);
        next = row + 1;
        begun = true;
        ++pair;
        continue;
      }
      const std::size_t limit = pair == pairs.end() ? out_.rows.size() : row_of_reference(pair->first);
      std::size_t row = next;
      while (row < limit && !has_like(row, (*coats_)[coat])) ++row;
      if (row >= limit) {
        row = begun ? next : limit;
        insert(row);
      }
      put(row, coat);
      next = row + 1;
    }
  }

  std::size_t row_of_reference(std::size_t coat) const {
    for (std::size_t row = 0; row < out_.rows.size(); ++row)
      if (out_.rows[row].coats[0] == coat) return row;
    return out_.rows.size();
  }

  bool has_like(std::size_t row, const FinishCoat& coat) const {
    for (std::size_t column = 0; column < column_; ++column)
      if (const FinishCoat* other = coat_at(layers_, out_, row, column); other && alike(*other, coat))
        return true;
    return false;
  }

  std::size_t row_from(std::size_t at) {
    if (at >= out_.rows.size()) insert(out_.rows.size());
    return at;
  }

  void insert(std::size_t row) {
    ScheduleRow fresh;
    fresh.coats.resize(out_.columns.size());
    out_.rows.insert(out_.rows.begin() + static_cast<std::ptrdiff_t>(row), fresh);
  }

  void put(std::size_t row, std::size_t coat) { out_.rows[row].coats[column_] = coat; }

  const FinishLayers& layers_;
  const FinishGroup& group_;
  const std::vector<FinishCoat>* coats_ = nullptr;
  std::size_t column_ = 0;
  Schedule out_;
};

}  // namespace

Schedule schedule_of(const FinishLayers& layers, const FinishGroup& group) {
  return Builder(layers, group).run();
}

const FinishCoat* coat_at(const FinishLayers& layers, const Schedule& schedule, std::size_t row,
                          std::size_t column) {
  const auto& coat = schedule.rows[row].coats[column];
  return coat ? &layers.sequences[schedule.columns[column].sequence].coats[*coat] : nullptr;
}

const FinishCoat& coat_of_row(const FinishLayers& layers, const Schedule& schedule, std::size_t row) {
  std::size_t column = 0;
  while (coat_at(layers, schedule, row, column) == nullptr) ++column;
  return *coat_at(layers, schedule, row, column);
}

std::string title_of(const FinishGroup& group) {
  std::string family = group.family == "other" ? "other things" : group.family;
  family.front() = static_cast<char>(family.front() - 'a' + 'A');
  return family + " in " + thing_words(group.place);
}

std::string read_words(const FinishSequence& sequence) {
  if (sequence.read_by == "laboratory") return "read in the laboratory";
  return sequence.read_by == "loupe" ? "read by loupe" : "read on site";
}

std::string finding_of(const FinishLayers& layers, const Schedule& schedule, const ScheduleColumn& column) {
  if (column.alignment) return column.alignment->words;
  const FinishSequence& sequence = layers.sequences[column.sequence];
  std::string words = schedule.columns.size() == 1
                          ? "Nothing of its kind here has layers recorded to compare it with."
                          : "The most layers of its kind here: the others are laid against it.";
  if (sequence.refusal == FinishRefusal::no_neighbour) return words;
  if (sequence.refusal != FinishRefusal::none) words += " Of itself: " + sequence.refusal_words;
  return words;
}

std::string word(FinishRefusal refusal) {
  switch (refusal) {
    case FinishRefusal::none:
      return "none";
    case FinishRefusal::no_coats:
      return "no coats";
    case FinishRefusal::single_coat:
      return "single coat";
    case FinishRefusal::white_only:
      return "white only";
    case FinishRefusal::layers_unclear:
      return "layers unclear";
    case FinishRefusal::not_from_bottom:
      return "not from the bottom";
    case FinishRefusal::stripped:
      return "stripped";
    case FinishRefusal::clear_first:
      return "clear finish first";
    case FinishRefusal::unexamined:
      return "unexamined";
    case FinishRefusal::no_neighbour:
      return "no neighbour";
    case FinishRefusal::unlike:
      return "unlike";
  }
  return {};
}

}  // namespace lathbook::finishes
