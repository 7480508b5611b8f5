// The wide drawing.
#include <algorithm>
#include <cmath>
#include <set>

#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/ranks.hpp"
#include "plugins/sequence/tiers.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

constexpr double kLetter = 11;

class Boxes {
public:
  Boxes(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out)
      : sequence_(sequence),
        wishes_(wishes),
        ink_(out),
        drawn_(drawn_relations(sequence, wishes.all)),
        tiers_(arrange(sequence, drawn_)),
        size_(tiers_.size),
        width_(std::max(tiers_.width, 420.0)),
        loops_(loops_by_thing(sequence)) {}

  void write() {
    for (const Chain& chain : tiers_.chains) {
      for (const std::uint32_t thing : chain.things) sorts_.insert(sequence_.things[thing].sort);
      for (const std::uint32_t at : chain.relations) strokes_.insert(stroke_of(sequence_.relations[at]));
    }
    const auto lonely = alone(sequence_);
    const double key_top = tiers_.bottom + 18;
    const double height = key_top + key_height() + list_height(lonely) + kMargin;
    ink_.begin(width_, height, wishes_.classes, wishes_.prefix, title_of(sequence_), summary_of(sequence_));
    for (const Tier& tier : tiers_.tiers) draw(tier);
    key(key_top);
    list(lonely, key_top + key_height());
    ink_.end();
  }

private:
  void draw(const Tier& tier) {
    top_ = tier.top;
    if (!sequence_.phases.empty()) bands(tier);
    floating_rules(tier);
    for (const std::size_t at : tier.chains) lines(tiers_.chains[at]);
    for (const std::size_t at : tier.chains)
      for (std::size_t thing = 0; thing < tiers_.chains[at].things.size(); ++thing)
        box(tiers_.chains[at], thing);
  }

  void bands(const Tier& tier) {
    const double pitch = size_.box_height + size_.between_ranks;
    ink_.line(0, tier.top, width_, tier.top, 0.8);
    for (std::size_t band = 0; band < sequence_.phases.size(); ++band) {
      if (tier.first[band + 1] == tier.first[band]) continue;
      const double from = tier.top + tier.depth - tier.first[band + 1] * pitch;
      const double to = tier.top + tier.depth - tier.first[band] * pitch;
      if (band % 2 == 0) ink_.area(0, from, width_, to - from, "#f2f2ef");
      ink_.line(0, to, width_, to, 0.8);
      ink_.dot(kMargin + 9, from + 18, 9.5, false);
      ink_.words(kMargin + 9, from + 22, 12, std::to_string(band + 1), "middle");
      const auto room = static_cast<std::size_t>(std::max((to - from - 34) / 13, 1.0));
      double y = from + 42;
      for (const std::string& line : Ink::fitted(phase_name(sequence_, band), kBandLabels - 10, 10.5, room)) {
        ink_.words(kMargin, y, 10.5, line);
        y += 13;
      }
    }
  }

  // In the first tier everything right of the largest part floats, in the others everything.
  void floating_rules(const Tier& tier) {
    const bool is_main = &tier == tiers_.tiers.data();
    if (is_main && tier.rules.size() < 2) return;
    const double bottom = tier.top + tier.depth, head = tier.top - kTierHead;
    const double x = is_main ? tier.rules[1] : kMargin - 8;
    if (is_main) ink_.line(x, head, x, bottom, 0.9, "9 4 2 4");
    ink_.words(x + 8, head + 10, kLetter, "Floating", "start", true);
    ink_.words(x + 8, head + 22, 10, "tied to nothing else");
    for (std::size_t at = is_main ? 2 : 1; at < tier.rules.size(); ++at)
      ink_.line(tier.rules[at], tier.top, tier.rules[at], bottom, 0.5, "2 5");
  }

  void lines(const Chain& chain) {
    for (std::size_t at = 0; at < chain.relations.size(); ++at) {
      std::vector<Spot> way = chain.layout.lines[at];
      for (Spot& spot : way) {
        spot.x += chain.left;
        spot.y += top_;
      }
      const SequenceRelation& relation = sequence_.relations[chain.relations[at]];
      ink_.out().start("g");
      ink_.out().element("title", relation.words);
      ink_.stroke(stroke_of(relation), way);
      ink_.out().end();
    }
  }

  void box(const Chain& chain, std::size_t at) {
    const std::uint32_t number = chain.things[at];
    const SequenceThing& thing = sequence_.things[number];
    const double x = chain.layout.boxes[at].x + chain.left, y = chain.layout.boxes[at].y + top_;
    const double width = size_.box_width, height = size_.box_height;
    ink_.out().start("g");
    ink_.out().element("title", codes_of(thing) + " " + name_of(thing));
    ink_.outline(thing.sort, x, y, width, height, thing.elsewhere, !loops_[number].empty());
    const bool notched = thing.sort == SequenceSort::cut || thing.sort == SequenceSort::removal;
    const double room = width - (notched ? 26 : 10);
    const std::string code = Ink::fitted(short_codes(thing, room, kLetter), room, kLetter, 1).front();
    const auto name = Ink::fitted(name_of(thing), room, 10, 2);
    double base = y - 0.5 * (kLetter + 11.0 * static_cast<double>(name.size())) + kLetter - 1;
    ink_.words(x, base, kLetter, code, "middle", true, thing.elsewhere);
    for (const std::string& line : name)
      ink_.words(x, base += 11.5, 10, line, "middle", false, thing.elsewhere);
    if (thing.first_phase && !is_phase_sure(thing))
      tag(x + width / 2, y - height / 2, phases_of(thing) + " ?");
    if (!loops_[number].empty()) tag(x - width / 2 + 26, y - height / 2, "loop " + loops_[number]);
    ink_.out().end();
  }

  // A small flag on a box's upper edge, its right end at x.
  void tag(double x, double y, const std::string& words) {
    const double width = Ink::measured(words, 9) + 6;
    ink_.area(x - width, y - 13, width, 13, "#fff");
    ink_.path("M" + Ink::number(x - width) + " " + Ink::number(y - 13) + "h" + Ink::number(width) + "v13h" +
                  Ink::number(-width) + "z",
              0.8);
    ink_.words(x - width / 2, y - 3, 9, words, "middle");
  }

  // --- the key: only what is there
  std::size_t key_columns() const { return width_ > 760 ? 2 : 1; }
  double key_height() const {
    if (tiers_.chains.empty()) return 0;
    const std::size_t entries =
        strokes_.size() + sorts_.size() + (has_unsure() ? 1 : 0) + (has_elsewhere() ? 1 : 0);
    return 26 + 22 * std::ceil(static_cast<double>(entries) / static_cast<double>(key_columns()));
  }
  bool has_unsure() const {
    return std::any_of(sequence_.things.begin(), sequence_.things.end(),
                       [](const auto& thing) { return thing.first_phase && !is_phase_sure(thing); });
  }
  bool has_elsewhere() const {
    return std::any_of(sequence_.things.begin(), sequence_.things.end(),
                       [](const auto& thing) { return thing.elsewhere; });
  }

  void key(double top) {
    if (tiers_.chains.empty()) return;
    ink_.words(kMargin, top + 10, kLetter, "Key", "start", true);
    ink_.words(kMargin + 34, top + 10, kLetter, "later things stand above earlier ones");
    std::size_t at = 0;
    const auto spot = [&] {
      const double x = kMargin + static_cast<double>(at % key_columns()) * (width_ / 2);
      const double y = top + 30 + 22 * static_cast<double>(at / key_columns());
      ++at;
      return Spot{x, y};
    };
    for (const SequenceSort sort : sorts_) {
      const Spot at_box = spot();
      ink_.outline(sort, at_box.x + 19, at_box.y, 36, 14, false, false);
      ink_.words(at_box.x + 46, at_box.y + 4, kLetter, std::string(meaning(sort)));
    }
    for (const Stroke stroke : strokes_) {
      const Spot from = spot();
      ink_.stroke(stroke, {{from.x + 19, from.y - 9}, {from.x + 19, from.y + 9}});
      ink_.words(from.x + 46, from.y + 4, kLetter, std::string(meaning(stroke)));
    }
    if (has_unsure()) {
      const Spot where = spot();
      tag(where.x + 40, where.y + 7, "1 or 2 ?");
      ink_.words(where.x + 46, where.y + 4, kLetter,
                 "the phases it may have come in; drawn as early as it can be");
    }
    if (has_elsewhere()) {
      const Spot where = spot();
      ink_.outline(SequenceSort::fabric, where.x + 19, where.y, 36, 14, true, false);
      ink_.words(where.x + 46, where.y + 4, kLetter,
                 std::string(elsewhere_words(sequence_)) + "; ties two of the others");
    }
  }

  // --- what nothing orders
  std::vector<std::string> list_lines(const std::vector<std::uint32_t>& lonely) const {
    std::string text;
    for (const std::uint32_t at : lonely)
      text +=
          (text.empty() ? "" : "; ") + codes_of(sequence_.things[at]) + " " + name_of(sequence_.things[at]);
    return Ink::fitted(text, width_ - 2 * kMargin, kLetter, 40);
  }
  double list_height(const std::vector<std::uint32_t>& lonely) const {
    return lonely.empty() ? 0 : 30 + 15 * static_cast<double>(list_lines(lonely).size());
  }
  void list(const std::vector<std::uint32_t>& lonely, double top) {
    if (lonely.empty()) return;
    ink_.words(kMargin, top + 22, kLetter, "No order recorded with anything here", "start", true);
    double y = top + 38;
    for (const std::string& line : list_lines(lonely)) {
      ink_.words(kMargin, y, kLetter, line);
      y += 15;
    }
  }

  const Sequence& sequence_;
  const DrawingWishes& wishes_;
  Ink ink_;
  std::vector<std::uint32_t> drawn_;
  Tiers tiers_;
  LayoutSize size_;
  double width_;
  double top_ = 0;  // of the tier in hand
  std::vector<std::string> loops_;
  std::set<Stroke> strokes_;
  std::set<SequenceSort> sorts_;
};

}  // namespace

void draw_boxes(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out) {
  Boxes(sequence, wishes, out).write();
}

}  // namespace lathbook::sequence
