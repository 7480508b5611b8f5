// The narrow drawing: a list that can be read on a phone, with rails for what lies under what.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/rails.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

constexpr double kWidth = 360;
constexpr double kLetter = 12.5;
constexpr double kRowHeight = 36;
constexpr double kBandHeight = 26;
constexpr double kEdge = 12;
constexpr double kMostPitch = 13;
constexpr double kMostGutter = 150;

struct Part {
  Rails rails;
  bool is_floating = false;
};

class Rows {
public:
  Rows(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out)
      : sequence_(sequence),
        wishes_(wishes),
        ink_(out),
        ranks_(rank_things(sequence)),
        loops_(loops_by_thing(sequence)) {}

  void write() {
    arrange();
    const double height = height_of_all();
    ink_.begin(kWidth, height, wishes_.classes, wishes_.prefix, title_of(sequence_), summary_of(sequence_));
    double y = 4;
    for (const Part& part : parts_) y = draw(part, y);
    y = key(y + 16);
    list(y);
    ink_.end();
  }

private:
  void arrange() {
    std::vector<std::vector<std::uint32_t>> things(sequence_.chains), relations(sequence_.chains);
    for (std::uint32_t at = 0; at < sequence_.things.size(); ++at)
      things[sequence_.things[at].chain].push_back(at);
    drawn_ = drawn_relations(sequence_, wishes_.all);
    for (const std::uint32_t at : drawn_) {
      const SequenceRelation& relation = sequence_.relations[at];
      const std::uint32_t chain = sequence_.things[relation.later].chain;
      if (chain == sequence_.things[relation.earlier].chain) relations[chain].push_back(at);
    }
    for (std::size_t at = 0; at < things.size(); ++at) {
      if (things[at].size() < 2) continue;
      parts_.push_back({lay_rails(sequence_, things[at], relations[at], ranks_), at > 0});
      for (const std::uint32_t thing : things[at]) sorts_.insert(sequence_.things[thing].sort);
    }
    lonely_ = alone(sequence_);
    std::string names;
    for (const std::uint32_t at : lonely_)
      names +=
          (names.empty() ? "" : "; ") + codes_of(sequence_.things[at]) + " " + name_of(sequence_.things[at]);
    if (!lonely_.empty()) lonely_lines_ = Ink::fitted(names, kWidth - 2 * kEdge, kLetter, 60);
  }

  static double pitch(const Rails& rails) {
    return rails.count < 2 ? kMostPitch : std::min(kMostPitch, kMostGutter / (rails.count - 1.0));
  }
  static double gutter(const Rails& rails) { return kEdge + pitch(rails) * std::max(rails.count, 1U) + 4; }

  bool opens_band(const Part& part, std::size_t row) const {
    if (sequence_.phases.empty()) return false;
    return row == 0 || ranks_.band[part.rails.rows[row].thing] != ranks_.band[part.rails.rows[row - 1].thing];
  }

  double height_of(const Part& part) const {
    double height = part.is_floating ? 38 : 0;
    for (std::size_t row = 0; row < part.rails.rows.size(); ++row)
      height += kRowHeight + (opens_band(part, row) ? kBandHeight : 0);
    return height;
  }
  double height_of_all() const {
    double height = 4;
    for (const Part& part : parts_) height += height_of(part);
    const double key_height = parts_.empty() ? 0 : 92 + 22.0 * static_cast<double>(sorts_.size());
    return height + 16 + key_height +
           (lonely_.empty() ? 0 : 34 + 16.0 * static_cast<double>(lonely_lines_.size())) + 8;
  }

  double draw(const Part& part, double y) {
    if (part.is_floating) {
      ink_.line(0, y + 10, kWidth, y + 10, 0.9, "9 4 2 4");
      ink_.words(kEdge - 6, y + 28, kLetter, "Floating: nothing ties this chain to the rest", "start", true);
      y += 38;
    }
    for (std::size_t row = 0; row < part.rails.rows.size(); ++row) {
      const double extra = opens_band(part, row) ? kBandHeight : 0;
      const std::uint32_t band = ranks_.band[part.rails.rows[row].thing];
      if (!sequence_.phases.empty() && band % 2 == 0) ink_.area(0, y, kWidth, kRowHeight + extra, "#f2f2ef");
      if (extra > 0) {
        ink_.line(0, y, kWidth, y, 0.8);
        const double left = gutter(part.rails);
        ink_.words(left, y + 17, kLetter,
                   Ink::fitted(phase_name(sequence_, band), kWidth - left - 6, kLetter, 1).front(), "start",
                   true);
      }
      for (const std::uint32_t rail : part.rails.rows[row].arriving)
        ink_.line(x_of(part, rail), y, x_of(part, rail), y + extra, 1.3);
      y += extra;
      draw_row(part, part.rails.rows[row], y);
      y += kRowHeight;
    }
    return y;
  }

  static double x_of(const Part& part, std::uint32_t rail) { return kEdge + pitch(part.rails) * rail; }

  void draw_row(const Part& part, const RailRow& row, double top) {
    const double middle = top + kRowHeight / 2, bottom = top + kRowHeight, x = x_of(part, row.rail);
    for (const std::uint32_t rail : row.arriving) {
      const bool goes_on = rail != row.rail && std::count(row.passing.begin(), row.passing.end(), rail) > 0;
      ink_.line(x_of(part, rail), top, x_of(part, rail), goes_on ? bottom : middle, 1.3);
    }
    ink_.out().start("g");
    const SequenceThing& thing = sequence_.things[row.thing];
    ink_.out().element("title", codes_of(thing) + " " + name_of(thing));
    for (const Join& join : row.joins) draw_join(part, row, join, middle, bottom);
    ink_.outline(thing.sort, x, middle, 13, 12, thing.elsewhere, !loops_[row.thing].empty());
    const double left = gutter(part.rails);
    ink_.words(left, middle - 3, kLetter, short_codes(thing, kWidth - left - 90, kLetter), "start", true,
               thing.elsewhere);
    std::string flags;
    if (thing.first_phase && !is_phase_sure(thing)) flags = "phase " + phases_of(thing) + " ?";
    if (!loops_[row.thing].empty()) flags += (flags.empty() ? "loop " : ", loop ") + loops_[row.thing];
    add_besides(row.thing, flags);
    const double code_end =
        left + Ink::measured(short_codes(thing, kWidth - left - 90, kLetter), kLetter) * 1.1;
    if (!flags.empty())
      ink_.words(kWidth - 8, middle - 3, 11, Ink::fitted(flags, kWidth - 14 - code_end, 11, 1).front(), "end",
                 false, true);
    ink_.words(left, middle + 12, kLetter, Ink::fitted(name_of(thing), kWidth - left - 6, kLetter, 1).front(),
               "start", false, thing.elsewhere);
    ink_.out().end();
  }

  // What no rail tells.
  void add_besides(std::uint32_t thing, std::string& flags) const {
    std::map<std::string, std::string> said;
    for (const std::uint32_t at : drawn_) {
      const SequenceRelation& relation = sequence_.relations[at];
      if (relation.later != thing && relation.earlier != thing) continue;
      if (has_rail(relation, ranks_)) continue;
      const std::uint32_t other = relation.later == thing ? relation.earlier : relation.later;
      std::string how = "of one time with ";
      if (!relation.kept)
        how = relation.later == thing ? "set aside: after " : "set aside: before ";
      else if (relation.bond == SequenceBond::together)
        how = "bonded with ";
      else if (relation.bond == SequenceBond::either)
        how = "at another time than ";
      std::string& others = said[how];
      others += (others.empty() ? "" : ", ") + short_codes(sequence_.things[other], 90, 11);
    }
    for (const auto& [how, others] : said) flags += (flags.empty() ? "" : "; ") + how + others;
  }

  // Across to the rail of the earlier thing, then down; a dot where the rail runs already.
  void draw_join(const Part& part, const RailRow& row, const Join& join, double middle, double bottom) {
    const double from = x_of(part, row.rail), to = x_of(part, join.rail);
    const SequenceRelation& relation = sequence_.relations[join.relation];
    const std::string_view dashes = relation.bond == SequenceBond::coat ? "1.2 2.6"
                                    : relation.redundant                ? "3 3"
                                                                        : "";
    const bool runs =
        std::count(row.arriving.begin(), row.arriving.end(), join.rail) > 0 && join.rail != row.rail;
    if (join.rail == row.rail) {
      ink_.line(from, middle, from, bottom, 1.3, dashes);
      return;
    }
    const double y = middle + 10, side = to > from ? 1 : -1;
    if (runs) {
      ink_.path(
          "M" + Ink::number(from) + " " + Ink::number(middle) + "V" + Ink::number(y) + "H" + Ink::number(to),
          1.3, dashes);
      ink_.dot(to, y, 2.2, true);
    } else {
      ink_.path("M" + Ink::number(from) + " " + Ink::number(middle) + "V" + Ink::number(y) + "H" +
                    Ink::number(to - side * 4) + "Q" + Ink::number(to) + " " + Ink::number(y) + " " +
                    Ink::number(to) + " " + Ink::number(y + 4) + "V" + Ink::number(bottom),
                1.3, dashes);
    }
  }

  double key(double y) {
    if (parts_.empty()) return y;
    ink_.words(kEdge - 6, y + 8, kLetter, "Key", "start", true);
    ink_.words(kEdge + 26, y + 8, kLetter, "later things stand above earlier ones");
    y += 28;
    for (const SequenceSort sort : sorts_) {
      ink_.outline(sort, kEdge + 3, y - 4, 13, 12, false, false);
      ink_.words(kEdge + 22, y, kLetter, std::string(meaning(sort)));
      y += 22;
    }
    ink_.line(kEdge + 3, y - 14, kEdge + 3, y + 6, 1.3);
    ink_.words(kEdge + 22, y, kLetter, "leads down to what came before, or with it");
    y += 22;
    ink_.line(kEdge + 3, y - 14, kEdge + 3, y + 6, 1.3, "1.2 2.6");
    ink_.words(kEdge + 22, y, kLetter, "leads down to what it is a finish on");
    return y + 22;
  }

  void list(double y) {
    if (lonely_.empty()) return;
    ink_.words(kEdge - 6, y + 14, kLetter, "No order recorded with anything here", "start", true);
    y += 32;
    for (const std::string& line : lonely_lines_) {
      ink_.words(kEdge - 6, y, kLetter, line);
      y += 16;
    }
  }

  const Sequence& sequence_;
  const DrawingWishes& wishes_;
  Ink ink_;
  Ranks ranks_;
  std::vector<std::string> loops_;
  std::vector<std::uint32_t> drawn_;
  std::vector<Part> parts_;
  std::set<SequenceSort> sorts_;
  std::vector<std::uint32_t> lonely_;
  std::vector<std::string> lonely_lines_;
};

}  // namespace

void draw_rows(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out) {
  Rows(sequence, wishes, out).write();
}

}  // namespace lathbook::sequence
