// Either-or rows settled exactly: every way of choosing is gone through, group by group.
#pragma once

#include <unordered_map>

#include "plugins/timeline/network_choices.hpp"

namespace lathbook::timeline {

/// Branches over the open choices of a component. Two choices need to be gone through together only when
/// settling one can move a bound from which the other starts; such groups are found while branching. (If the
/// latest dates of two groups' worlds never lower a start of the other's constraints, the lower of both at
/// each variable satisfies all constraints, so worlds combine freely, and the hull over all combinations is
/// the intersection of the groups' hulls.)
class Worlds {
public:
  enum class Outcome : std::uint8_t {
    nothing,  ///< no more is known than before
    bounds,   ///< bounds were derived
    settled   ///< choices were decided (and perhaps bounds derived): look again
  };

  Worlds(State& state, const std::array<Values, 2>& values, ChoiceRules& rules)
      : state_(state), base_(values), rules_(rules) {}

  /// Forgets what was found for the component at hand.
  void open(std::uint32_t component);
  /// To be called when bounds and choices are at rest at the level. A group without any world goes to
  /// `cores`. Groups of more than 256 worlds, or beyond a limit of work, are left as they are.
  Outcome explore(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores);
  /// Variables whose dates fall into two or more separate spans, as found last.
  const std::vector<LevelResult::Gap>& gaps() const { return gaps_; }

private:
  struct Dead {  // a way that leads nowhere
    std::vector<Decision> path;
    std::vector<Link> loop;
  };
  struct Touch {  // a bound that some world moves
    Node node;
    Side side;
    std::uint32_t worlds;  // in how many
    std::uint32_t last;    // the last of them, from 1
    Tick widest;
  };
  struct Group {
    std::vector<std::uint32_t> choices;
    std::vector<std::vector<Decision>> worlds;
    std::vector<Dead> dead;
    std::vector<Touch> touched;
    bool complete = false;  // all worlds known
    bool exact = false;     // and no other group interferes
    bool bounded = false;   // one that interferes could not be joined
    bool merged = false;    // its choices are in a later group
  };
  struct Frame {
    std::uint32_t choice;
    std::uint32_t next;  // alternative to try next
    std::size_t trail;
    std::size_t imposed;
  };
  struct Change {
    Value before;
    Node node;
    Side side;
  };
  struct Item {
    Tick gain;  // negative: how much tighter
    std::uint64_t label;
    Node node;
    Tick dist;
    Link link;
    bool operator>(const Item& other) const {
      return gain != other.gain ? gain > other.gain : label > other.label;
    }
  };

  struct Start {
    Node node;
    Side side;
    std::uint32_t choice;
  };

  std::vector<Group> open_choices();
  void list_starts(const std::vector<Group>& groups);
  void join_neighbour(std::vector<Group>& groups, std::size_t at);
  bool matters(std::uint32_t choice) const;
  void index(std::uint32_t component);
  void enumerate(Group& group);
  bool advance(Group& group, std::vector<Frame>& path);
  void note_world(Group& group, const std::vector<Frame>& path);
  std::uint32_t next_choice(const Group& group, const std::vector<Frame>& path) const;
  std::size_t live(std::uint32_t choice) const;
  bool impose(std::uint32_t choice, std::uint32_t alternative, std::vector<Link>& loop);
  bool impose_option(std::uint32_t option, std::vector<Link>& loop);
  bool spread(Side side, Var head, Tick dist, std::uint64_t label, Link link, Var tail,
              std::vector<Link>& loop);
  void push(Side side, Node node, Tick dist, std::uint64_t label, Link link);
  void spread_from(Side side, Node node);
  std::vector<Link> crossing(Node node) const;
  std::vector<Link> ring_behind(Side side, Node node) const;
  void retreat(std::size_t trail, std::size_t imposed);
  static std::vector<Decision> decisions(const std::vector<Frame>& path);

  Core core_of(const Group& group) const;
  void add_support(const Group& group, const Dead& dead, std::vector<Cause>& claims) const;
  void add_own(const Group& group, std::vector<Cause>& claims) const;
  bool rule_out(const Group& group);
  bool narrow(const Group& group);
  bool follows(const Touch& touch, const std::array<Window<Tick>, 2>& hull) const;
  template <typename Use>
  void each_world(const Group& group, Use use);
  void note_gaps(const std::vector<Group>& groups);
  static std::vector<Bounds> joined(std::vector<Bounds> spans);

  Tick at(Side side, Var var) const {
    return var == kOrigin ? 0 : values_[static_cast<std::size_t>(side)][state_.graph.place[var]].dist;
  }

  State& state_;
  const std::array<Values, 2>& base_;
  ChoiceRules& rules_;
  std::uint32_t component_ = 0;
  std::uint8_t level_ = 0;
  std::array<Values, 2> values_;  // of the world at hand
  std::vector<Change> trail_;
  std::vector<std::uint32_t> imposed_;  // arcs
  std::vector<Item> heap_;
  std::size_t work_ = 0;
  bool indexed_ = false;
  std::vector<std::uint32_t> inward_begin_;  // by node of the component
  std::vector<Inward> inward_;
  std::array<Window<std::uint32_t>, 2> touch_;  // by side: 1 + index into the group's list
  std::vector<Start> starts_;
  std::unordered_map<std::uint32_t, std::uint32_t> group_of_;  // choice -> group
  std::vector<LevelResult::Gap> gaps_;
};

}  // namespace lathbook::timeline
