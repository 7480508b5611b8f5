// Draws from a system, every solution as likely: one instant at a time, or a whole forest of them together.
#pragma once

#include <cstdint>
#include <vector>

#include "plugins/chances/dice.hpp"
#include "plugins/chances/system.hpp"

namespace lathbook::chances {

/// One chain of draws. The system must be rigid-free (make_rigid) and outlive the chain.
class Chain {
public:
  /// Starts `share` (0 to 1) of the way from all lows to all highs, which is a solution, as the body is
  /// convex but for rounding, which is repaired.
  Chain(const System& system, double share, std::uint64_t seed);

  /// Gibbs sampling: every instant anew, uniform between what the others leave it (S. Geman, D. Geman,
  /// IEEE Trans. Pattern Analysis and Machine Intelligence 6, 1984, 721-741).
  void sweep();
  /// Every tree of a forest of instants, picked by chance, anew together, given the rest: each moves by whole
  /// steps, the length of which has nothing to do with where they stand, and the way it moves is drawn by
  /// summing over all ways (forward) and drawing backward, as in forward-filtering backward-sampling
  /// (C. Carter, R. Kohn, Biometrika 81, 1994, 541-553). Exact; makes long chains move.
  void sweep_forest();

  const std::vector<Tick>& state() const { return state_; }

private:
  struct Link {
    Var other = 0;
    Tick gap = 0;
    bool is_after = false;  ///< the other comes after: x[other] - x >= gap
  };
  struct Range {
    Tick low, high;
  };
  struct TreeNode;

  Range room(Var var, bool beside_forest) const;
  void move(Var var);
  void pick_forest();
  void gather_tree(Var root, std::vector<TreeNode>& tree);
  void redraw(std::vector<TreeNode>& tree);

  const System& system_;
  Dice dice_;
  std::vector<Tick> state_;
  std::vector<std::vector<Link>> links_;
  std::vector<Var> order_;
  std::vector<Var> above_;  // union-find of the forest
  std::vector<bool> in_forest_;
  std::vector<bool> visited_;
  bool upward_ = true;
};

}  // namespace lathbook::chances
