// The nouns of the house as plugins see them; each made from current statements, each value traceable.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/api.hpp"
#include "core/view/record_view.hpp"

namespace lathbook {

/// A name with its period of use (EDTF, empty = not said) and kind.
struct NameView {
  std::string text;
  std::string sort;  ///< "on a plan", "by an occupant", "in use now", "on a label", "in a document"
  std::string from;
  std::string to;
  std::string language;
  std::string used_by;
  Digest statement;
};

/// One vertex of a footprint, metres in building coordinates.
struct Point {
  double x = 0;
  double y = 0;
};

/// An outline with the period in which it held (EDTF, empty = not said).
struct OutlineView {
  std::vector<Point> points;
  std::string from;
  std::string to;
  Digest statement;
};

struct LATHBOOK_API PlaceView {
  RecordView record;
  std::string type;  ///< "room", "storey" ...
  std::optional<Uuid> within;
  std::optional<int> storey_number;   ///< of a storey
  std::vector<NameView> names;        ///< oldest period first
  std::vector<Point> footprint;       ///< of the best footprint statement; empty when none
  std::vector<OutlineView> outlines;  ///< of every footprint statement that can be read, best first
  explicit PlaceView(RecordView view);
};

/// A place an element stands in, with its role and face.
struct StandingView {
  Uuid place;
  std::string role;  ///< "stands in" when not said
  std::string face;
  int placement = 0;  ///< 0 = not said
  Digest statement;
};

struct LATHBOOK_API ElementView {
  RecordView record;
  std::string type;      ///< own words
  std::string of_class;  ///< element-class
  std::vector<std::string> materials;
  std::vector<StandingView> places;
  std::optional<Uuid> part_of;
  int placements = 1;
  explicit ElementView(RecordView view);
};

struct LATHBOOK_API FinishView {
  RecordView record;
  std::optional<Uuid> element;  ///< what it coats
  std::optional<int> layer;     ///< from the substrate outward
  std::string role;
  std::string colour;
  std::string munsell;
  explicit FinishView(RecordView view);
};

struct LATHBOOK_API PieceView {
  RecordView record;
  std::optional<Uuid> element;
  std::string field;
  std::optional<int> row;
  std::optional<int> column;
  int rotation = 0;                            ///< degrees clockwise, seen from the room
  std::optional<std::pair<int, int>> laid_at;  ///< row and column where it sits, in place in another cell
  std::optional<Uuid> fragment_of;
  std::string state;              ///< of choice list 'piece-state', the latest
  std::optional<Uuid> container;  ///< the latest said; meaningful in state 'in container'
  std::string condition;          ///< of choice list 'piece-condition', the latest
  int parts = 1;                  ///< into how many parts it broke
  explicit PieceView(RecordView view);
};

/// One reading of a mark or label as it was written down.
struct ReadingView {
  std::string text;
  std::optional<Uuid> reader;
  std::string read_on;  ///< EDTF
  Digest statement;
};

struct LATHBOOK_API MarkView {
  RecordView record;
  std::optional<Uuid> carrier;  ///< piece or element
  std::string method;
  std::string face;
  std::string orientation;
  std::vector<ReadingView> transcriptions;
  std::vector<ReadingView> readings;
  explicit MarkView(RecordView view);
};

struct LATHBOOK_API LabelView {
  RecordView record;
  std::optional<Uuid> carrier;
  std::string tool;
  std::string face;
  std::vector<ReadingView> transcriptions;
  std::vector<ReadingView> readings;
  explicit LabelView(RecordView view);
};

struct LATHBOOK_API SourceView {
  RecordView record;
  std::string type;  ///< "photograph", "permit" ...
  std::string title;
  std::vector<std::string> creators;
  std::string date;        ///< EDTF
  std::string date_typed;  ///< as typed
  std::string repository;
  std::string shelf_mark;
  std::string published_in;
  std::string rights;
  std::vector<Digest> media;
  explicit SourceView(RecordView view);
  /// One line for a footnote: creator, title, date, holder and shelf mark, then the locator.
  std::string footnote(const std::string& locator) const;
};

struct LATHBOOK_API CampaignView {
  RecordView record;
  std::string began;  ///< EDTF, may be empty
  std::string ended;
  explicit CampaignView(RecordView view);
};

struct LATHBOOK_API PhaseView {
  RecordView record;
  std::optional<int> number;
  std::optional<Uuid> place;     ///< building or room it is a phase of
  std::optional<Uuid> campaign;  ///< that opens it
  explicit PhaseView(RecordView view);
};

}  // namespace lathbook
