// The sequence for the terminal: latest first, each thing with what it lies upon.
#include <algorithm>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/sequence/basis.hpp"
#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/rails.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

class Text {
public:
  Text(const Sequence& sequence, const Snapshot& archive, const TextWishes& wishes, std::ostream& out)
      : sequence_(sequence),
        archive_(archive),
        wishes_(wishes),
        columns_(wishes.columns),
        out_(out),
        ranks_(rank_things(sequence)),
        drawn_(drawn_relations(sequence, wishes.all)) {
    below_.resize(sequence.things.size());
    for (const std::uint32_t at : drawn_) below_[sequence.relations[at].later].push_back(at);
  }

  void write() {
    heading(title_of(sequence_), '=');
    put("", summary_of(sequence_));
    put("", "Later things come first; under each, what it came after. As known on " +
                plain_day(sequence_.reading.known_day) + ", trusting " + trusted() + " evidence.");
    if (sequence_.reading.withheld > 0)
      put("", std::to_string(sequence_.reading.withheld) +
                  " statements withheld; the private archive may order more.");
    loops();
    chains();
    same_time();
    no_order();
    out_ << "\nState of the archive: " << sequence_.reading.fingerprint.hex() << '\n';
  }

private:
  std::string trusted() const {
    return sequence_.level == Level::certain    ? "certain"
           : sequence_.level == Level::probable ? "certain and probable"
                                                : "certain, probable and possible";
  }

  void put(const std::string& mark, const std::string& words) {
    const std::size_t depth = display_width(mark);
    bool is_first = true;
    for (const std::string& line : wrap(safe_display(words), columns_ > depth + 20 ? columns_ - depth : 20)) {
      out_ << (is_first ? mark : std::string(depth, ' ')) << line << '\n';
      is_first = false;
    }
  }
  void heading(const std::string& words, char rule) {
    const std::string safe = safe_display(words);
    out_ << safe << '\n' << std::string(display_width(safe), rule) << '\n';
  }

  void loops() {
    for (std::size_t at = 0; at < sequence_.loops.size(); ++at) {
      out_ << '\n';
      put("! Loop " + loop_letter(at) + ": ", loop_words(sequence_, at));
      put("  ", "On whose word:");
      for (const std::uint32_t relation : loop_statements(sequence_, at))
        put("    ", basis_of(archive_, sequence_.relations[relation]));
    }
  }

  void chains() {
    std::vector<std::vector<std::uint32_t>> things(sequence_.chains), relations(sequence_.chains);
    for (std::uint32_t at = 0; at < sequence_.things.size(); ++at)
      things[sequence_.things[at].chain].push_back(at);
    for (const std::uint32_t at : drawn_)
      relations[sequence_.things[sequence_.relations[at].later].chain].push_back(at);
    for (std::size_t at = 0; at < things.size(); ++at) {
      if (things[at].size() < 2) continue;
      if (at > 0) {
        out_ << '\n';
        heading("Floating: nothing ties this chain to the rest", '-');
      }
      chain(lay_rails(sequence_, things[at], relations[at], ranks_));
    }
    const auto lonely = alone(sequence_);
    if (lonely.empty()) return;
    out_ << '\n';
    heading("No order recorded with anything here", '-');
    for (const std::uint32_t at : lonely) put("  ", head(at));
  }

  void chain(const Rails& rails) {
    std::uint32_t band = UINT32_MAX;
    for (const RailRow& row : rails.rows) {
      if (!sequence_.phases.empty() && ranks_.band[row.thing] != band) {
        band = ranks_.band[row.thing];
        out_ << '\n';
        heading(phase_name(sequence_, band), '-');
      }
      thing(row.thing);
    }
  }

  std::string head(std::uint32_t at) const {
    const SequenceThing& thing = sequence_.things[at];
    std::string words = codes_of(thing) + " " + name_of(thing);
    if (thing.elsewhere) words += " (" + std::string(elsewhere_words(sequence_)) + ")";
    if (thing.first_phase && !is_phase_sure(thing)) words += " (phase " + phases_of(thing) + "?)";
    return words;
  }

  void thing(std::uint32_t at) {
    put(sign(sequence_.things[at].sort) + " ", head(at));
    for (const std::uint32_t reason : sequence_.things[at].joined_by) tell_same(sequence_.relations[reason]);
    for (const std::uint32_t number : below_[at]) {
      const SequenceRelation& relation = sequence_.relations[number];
      std::string words = relation_words(relation);
      if (!relation.kept) words += " [set aside]";
      if (relation.redundant) words += " [said by the others already]";
      put("    ", words);
      if (wishes_.sources) put("      ", basis_of(archive_, relation));
    }
  }

  void tell_same(const SequenceRelation& relation) {
    put("    one thing: ", relation.words);
    if (wishes_.sources) put("      ", basis_of(archive_, relation));
  }

  // From the later thing's side, without repeating its name.
  std::string relation_words(const SequenceRelation& relation) const {
    const SequenceThing& later = sequence_.things[relation.later];
    for (const SequenceMember& member : later.members) {
      const std::string name = display(member.record);
      if (relation.words.starts_with(name + " ")) return relation.words.substr(name.size() + 1);
    }
    return "after: " + relation.words;
  }

  static std::string sign(SequenceSort sort) {
    switch (sort) {
      case SequenceSort::cut:
        return "x";
      case SequenceSort::removal:
        return "X";
      case SequenceSort::ghost:
        return ":";
      case SequenceSort::finish:
        return "~";
      case SequenceSort::fabric:
        break;
    }
    return "*";
  }

  void same_time() {
    for (const auto& group : sequence_.of_one_time) {
      std::string names;
      for (const std::uint32_t at : group) names += (names.empty() ? "" : ", ") + head(at);
      out_ << '\n';
      put("= ", "Of one time, as each is said to be not before the other: " + names + ".");
    }
  }

  void no_order() {
    if (sequence_.no_order.empty()) return;
    out_ << '\n';
    heading("Contacts that order nothing", '-');
    for (const ReasonStep& step : sequence_.no_order) put("  ", step.words + ".");
  }

  const Sequence& sequence_;
  const Snapshot& archive_;
  const TextWishes& wishes_;
  std::size_t columns_;
  std::ostream& out_;
  Ranks ranks_;
  std::vector<std::uint32_t> drawn_;
  std::vector<std::vector<std::uint32_t>> below_;
};

}  // namespace

void write_text(const Sequence& sequence, const Snapshot& archive, const TextWishes& wishes,
                std::ostream& out) {
  Text(sequence, archive, wishes, out).write();
}

}  // namespace lathbook::sequence
