// The things of a scope that can be moved and what hinders them, read from the archive.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "core/analysis/work_order.hpp"
#include "core/plugin/plugin.hpp"
#include "plugins/takedown/order.hpp"

namespace lathbook::takedown {

/// A node of the graph: a thing to move, or a mark that all pieces of an element must pass.
struct Node {
  RecordInfo record;
  bool mark = false;      ///< no thing of its own
  std::string sounds;     ///< of choice list 'bed-sound', from the last tap test
  std::int64_t out = -1;  ///< day it was really taken away; -1 when it was not
  std::int64_t turn = 0;  ///< its turn among the things of that day, from 1; 0 when nobody wrote it down
  bool propped = false;   ///< a prop was set before and not taken away since
  std::string licensed;   ///< who alone may take it, and why; empty when anybody may
  std::size_t ring = 0;   ///< of a field that lies flat: how far from its free edges, 0 at them
  std::string beneath;    ///< what stays as evidence of a field that may lie over it; mostly empty
};

/// A firmly bedded piece above another: it does not fall with it, but holds by its bed alone from then on.
struct Leaning {
  std::uint32_t upper = 0;
  std::uint32_t lower = 0;
};

/// Why one node comes before another; put into words only when somebody asks, for there are many.
struct Ground {
  Digest statement;     ///< nil for a rule of practice
  const char* between;  ///< "rests on"; nullptr for the marks of a field, which need no reason
  const char* tail;     ///< what follows the second thing
};

/// Places among the grounds of every fabric: the marks of a field, and a piece in the course below.
inline constexpr std::uint32_t kMarks = 0, kBelow = 1;

struct Fabric {
  std::vector<Node> nodes;
  std::vector<Thing> things;          ///< beside nodes
  std::vector<Hindrance> hindrances;  ///< `reason` is an index into grounds
  std::vector<Ground> grounds;
  std::vector<Leaning> leanings;
  std::vector<Leaning>
      partly_kept;  ///< a piece that stays, and the mark at which the rest of its field is gone
  bool upright = false, flat = false;  ///< whether a field of it stands, and whether one lies flat
  std::vector<RecordInfo> retained;
  std::vector<FollowedStep> followed;  ///< what was really taken of these nodes, earliest first

  bool only_marks(const Hindrance& one) const { return grounds[one.reason].between == nullptr; }
  /// "N-203.34 Sea-green tile 34 stands on N-203.46 Sea-green tile 46 in the course below".
  ReasonStep why(const Hindrance& one) const;
};

/// Elements of the place (or the one element) with their pieces, read once. Keeps the snapshot: it must
/// outlive the survey.
class Survey {
public:
  /// What lies over the things of the scope is read with them, wherever it stands. Throws Error(invalid)
  /// for a scope that is no place or element.
  Survey(const Snapshot& archive, const Uuid& scope);
  ~Survey();
  Survey(const Survey&) = delete;
  Survey& operator=(const Survey&) = delete;

  /// Things in place, to be taken down; all of them, for judging the order that was followed; or what is out
  /// and in hand, to be put back: there each piece rests on the one below it whatever its bed was.
  enum class Part { in_place, all, out };
  Fabric fabric(Part part) const;
  /// What is in place of the scope and of all that lies over it.
  Fabric with_what_lies_over() const;
  /// False when nothing of the scope was ever taken away, so that all of it is in place.
  bool anything_out() const;
  /// Whether anything of the scope, or of what lies over it, is kept as evidence.
  bool anything_kept() const;

  struct Read;

private:
  std::unique_ptr<Read> read_;
};

}  // namespace lathbook::takedown
