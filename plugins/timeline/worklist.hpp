// What would help most: unread contacts, undated things, sources and works, each tried in the network.
//
// A hypothesis is one constraint more. With the distances of a solved Simple Temporal Problem its whole
// effect is known without solving again: the new latest of z is the least of its old one and the latest of
// `from` plus the weight plus the distance from `to` to z (R. Dechter, I. Meiri, J. Pearl, 'Temporal
// constraint networks', Artificial Intelligence 49, 1991: bounds are shortest paths), and likewise for the
// earliest.
#pragma once

#include <map>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/reasons_words.hpp"
#include "plugins/timeline/scope.hpp"

namespace lathbook::timeline {

class Worklist {
public:
  Worklist(const Claims& claims, const Words& words, const Solution& solution, const Scope& scope,
           std::uint8_t level);

  /// The best tasks first: by bounds narrowed (mean of the outcomes), then by years, then by words. A task
  /// that narrows nothing in its worst outcome is not among them.
  std::vector<TimelineTask> tasks();
  /// As many as asked for, and of one sort of work no more than a few.
  std::vector<TimelineTask> tasks(std::size_t most);

private:
  /// A bound that is counted: an instant with its bounds, cut to the years the scope is about.
  struct Watched {
    Var var = kOrigin;
    Tick low = 0;
    Tick high = 0;
    bool low_known = false;  ///< by evidence, and not only cut
    bool high_known = false;
    Uuid item = {};
    int placement = 1;
    bool is_end = false;
  };
  /// One way it could come out: x[to] - x[from] <= weight, and the contrary edge for a date.
  struct Outcome {
    Var from = kOrigin;
    Var to = kOrigin;
    Tick weight = 0;
    bool is_date = false;  ///< then x[to] = weight
    Uuid earlier = {};     ///< of two things in order
    Uuid later = {};
  };
  struct Distances {
    std::vector<Tick> from;
    std::vector<Tick> to;
  };
  struct Gain {
    std::size_t narrowed = 0;
    double years = 0;
    std::vector<TimelineGain> gains;
  };

  /// A coat that a sample could date, and what that would tell.
  struct Coat {
    Uuid coat;
    Uuid on;
    Var begin = kOrigin;
    TimelineTask task;
  };

  void watch();
  Watched cut(Var var) const;
  const Distances& distances(Var var);
  bool is_open(const Outcome& outcome);
  Gain gain(const Outcome& outcome);
  bool weigh(TimelineTask& task, const std::vector<Outcome>& outcomes);
  std::vector<Outcome> dates(Var var) const;
  bool is_wide(Var var, double years) const;
  bool is_in_scope(const Uuid& record) const;

  void add_contacts();
  void add_layers();
  bool add_layer_of(const Uuid& thing, const std::vector<Uuid>& coats);
  void add_sources();
  void add_works();
  void add_things();
  std::string task_to_date(const Uuid& item) const;
  void add_coats();
  TimelineTask coats_task(const std::vector<Coat>& coats, std::vector<Uuid> also_on) const;
  void add_looks(const Uuid& record, TimelineTask& task) const;
  bool share_a_place(const Uuid& one, const Uuid& other) const;

  const Claims& claims_;
  const Facts& facts_;
  const Words& words_;
  const Solution& solution_;
  const Scope& scope_;
  std::uint8_t level_;
  Tick floor_ = 0;
  Tick roof_ = 0;
  std::vector<Watched> watched_;
  std::map<Var, Distances> distances_;
  std::vector<TimelineTask> tasks_;
};

/// What an examination that looked at the record sought there, with what came of it, one step each. Empty
/// when no examination of it is recorded.
std::vector<ReasonStep> looked_for(const Facts& facts, const Words& words, const Uuid& record);

}  // namespace lathbook::timeline
