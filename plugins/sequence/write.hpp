// The forms of a sequence; each writes all of it to a stream.
#pragma once

#include <cstddef>
#include <ostream>
#include <string>

#include "core/analysis/sequence.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {
class XmlWriter;
}

namespace lathbook::sequence {

/// More things than this are not drawn: nobody could read them, nor wait for it.
inline constexpr std::size_t kMostDrawn = 600;

struct DrawingWishes {
  bool all = false;     ///< redundant relations too, as thin broken lines
  std::string prefix;   ///< of ids, so that several drawings can stand in one page
  std::string classes;  ///< of the svg element
};

/// Boxes joined by lines, later above earlier, phases as bands, floating chains apart to the right.
void draw_boxes(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out);
/// One row a thing, joined by lines in a gutter at the left; 360 units wide, for a phone or a margin.
void draw_rows(const Sequence& sequence, const DrawingWishes& wishes, XmlWriter& out);

/// One self-contained page with both drawings, the wide one where there is room.
void write_page(const Sequence& sequence, const Snapshot& archive, bool all, std::ostream& out);
/// What to put into the text besides.
struct TextWishes {
  bool all = false;      ///< redundant relations
  bool sources = false;  ///< under every relation the statement and what it cites
  std::size_t columns = 80;
};
void write_text(const Sequence& sequence, const Snapshot& archive, const TextWishes& wishes,
                std::ostream& out);
void write_json(const Sequence& sequence, const Snapshot& archive, std::ostream& out);

/// Title and one-sentence summary of a sequence.
std::string title_of(const Sequence& sequence);
std::string summary_of(const Sequence& sequence);
/// A loop in full: its shortest circle, then everything else on it.
std::string loop_words(const Sequence& sequence, std::size_t loop);
/// All relations of a loop, those of its shortest circle first.
std::vector<std::uint32_t> loop_statements(const Sequence& sequence, std::size_t loop);
/// Things that no relation of any kind ties to another, in their order.
std::vector<std::uint32_t> alone(const Sequence& sequence);

}  // namespace lathbook::sequence
