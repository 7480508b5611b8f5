// The typed result of counting pieces: fields with their cells, states, what is missing, what to order.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/error.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// Sizes as measured, in millimetres; nothing where nobody measured.
struct PieceSize {
  std::optional<double> length, width, thickness;
  std::string tolerance;  ///< as stated with the measurement
};

/// Where a piece lies on a photograph of its field, in hundredths of the picture from its upper left.
struct PieceSpot {
  RecordInfo source;
  std::string face;  ///< of choice list 'shown-face'; empty when not said
  double x = 0, y = 0, width = 0, height = 0;
};

/// A photograph on which pieces of a field are marked.
struct FieldPicture {
  RecordInfo source;
  std::string face;              ///< the face it shows, as most of its spots say
  Digest media;                  ///< nil when no file is on record
  double width = 0, height = 0;  ///< pixels; 0 when they could not be read
};

/// One piece (never a fragment: those hang on their piece).
struct PieceLine {
  RecordInfo record;
  std::optional<int> row;      ///< from the bottom, from 1
  std::optional<int> column;   ///< from the left, seen from the room, from 1
  int rotation = 0;            ///< degrees clockwise, seen from the room
  double wide = 1, high = 1;   ///< cells it takes to the right and upwards
  std::optional<double> x, y;  ///< metres from the lower left of the field, where it has no cell
  std::string state;           ///< of choice list 'piece-state'; empty when never said
  std::string since;           ///< EDTF of that state
  std::optional<RecordInfo> container;
  int order = 0;          ///< place in the container, from 1; 0 when not said
  std::string condition;  ///< of choice list 'piece-condition'; empty when never said
  int parts = 1;
  std::string sounds;  ///< of choice list 'bed-sound', from the last tap test
  std::optional<int> prominence;
  std::vector<RecordInfo> fragments;
  bool incomplete = false;  ///< a fragment is not held
  std::size_t count = 1;    ///< more for a bag of unnumbered fragments, which counts no piece
  bool is_bag = false;
  bool retained = false;                       ///< kept as evidence
  std::string keeps_cell;                      ///< why it goes back to no other cell; empty when it may
  std::optional<std::pair<int, int>> goes_to;  ///< cell it is to be laid in, when not its own
  std::optional<std::pair<int, int>> laid_at;  ///< cell in which it sits, in place in another than its own
  PieceSize size;                              ///< of its own, where it was measured
  std::vector<PieceSpot> spots;
  Digest state_statement;  ///< nil when never said
};

/// What to look for and buy for one field.
struct OrderLine {
  std::string type;
  PieceSize size;
  std::string colour, munsell, back_pattern;
  std::size_t needed = 0;  ///< cells without a piece that can be laid again
  std::size_t to_buy = 0;  ///< with the allowance for rejects
  std::size_t spares = 0;  ///< beside those
};

/// One element laid in pieces. whole + broken + missing = laid, always.
struct FieldAccount {
  RecordInfo element;
  int rows = 0;  ///< 0 when it has no map
  int columns = 0;
  std::vector<std::pair<int, int>> gaps;  ///< cells that never held a piece
  std::string bond;
  std::optional<double> joint;  ///< millimetres
  std::size_t laid = 0;         ///< cells of the map without its gaps, and pieces outside it
  std::size_t whole = 0;        ///< held and not broken; cracked and chipped ones among them
  std::size_t broken = 0;
  std::size_t missing = 0;
  std::vector<std::pair<std::string, std::size_t>> by_state;  ///< every state of the list, in its order
  std::vector<PieceLine> pieces;                              ///< by row from the top, column, code
  Findings mismatches;
  OrderLine order;
  std::vector<FieldPicture> pictures;
};

struct ContainerAccount {
  RecordInfo record;
  std::string type, way_up, weight, seal;
  std::string
      packed;  ///< "A-20 R. Vane, 2024-05-18": by whom and when it was last packed; empty when not said
  std::vector<std::string> hazards;
  std::vector<std::string> stood;                    ///< where it stood since when, earliest first
  std::vector<std::pair<int, RecordInfo>> contents;  ///< by order (0 = not said), then code
};

struct PieceAccounts {
  RecordInfo scope;
  Reading reading;
  std::vector<FieldAccount> fields;
  std::vector<ContainerAccount> containers;
};

}  // namespace lathbook
