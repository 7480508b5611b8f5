// The pen: boxes, lines and words as SVG, the same for every form of the drawing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/analysis/sequence.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/sequence/layout.hpp"

namespace lathbook::sequence {

/// How a relation is drawn; one entry each in the key.
enum class Stroke : std::uint8_t { after, with_or_after, taking, coat, together, either, aside, redundant };
Stroke stroke_of(const SequenceRelation& relation);
std::string_view meaning(Stroke stroke);
std::string_view meaning(SequenceSort sort);

/// "N-203" or "N-203 = N-211"; with the placement where there are several.
std::string codes_of(const SequenceThing& thing);
/// The same where it fits, else the first code and how many more.
std::string short_codes(const SequenceThing& thing, double width, double letter);
std::string name_of(const SequenceThing& thing);
/// "Phase 2, Ada Crane's house"; the number is put before a name that does not begin with it.
std::string phase_name(const Sequence& sequence, std::size_t phase);
/// "1", "1 or 2", "1 to 3": numbers of the phases it may have come in; empty without phases.
std::string phases_of(const SequenceThing& thing);
/// "stands elsewhere", or, where one thing was asked about, "further off".
std::string_view elsewhere_words(const Sequence& sequence);
bool is_phase_sure(const SequenceThing& thing);
/// "A" for the first loop, "AA" after "Z".
std::string loop_letter(std::size_t loop);
/// Letters of the loops of every thing.
std::vector<std::string> loops_by_thing(const Sequence& sequence);

class Ink {
public:
  explicit Ink(XmlWriter& out) : out_(out) {}

  XmlWriter& out() { return out_; }
  void begin(double width, double height, const std::string& classes, const std::string& prefix,
             const std::string& title, const std::string& description);
  void end() { out_.end(); }
  void line(double x1, double y1, double x2, double y2, double width, std::string_view dashes = {});
  void area(double x, double y, double width, double height, std::string_view fill);
  void path(const std::string& way, double width, std::string_view dashes = {},
            std::string_view fill = "none");
  void dot(double x, double y, double radius, bool filled);
  void words(double x, double y, double letter, const std::string& text, std::string_view anchor = "start",
             bool bold = false, bool slanted = false);
  /// The outline of a thing's sort round the middle (x, y).
  void outline(SequenceSort sort, double x, double y, double width, double height, bool elsewhere,
               bool in_loop);
  /// A way of Bezier points in the manner of the stroke, with its sign in the middle.
  void stroke(Stroke stroke, const std::vector<Spot>& way);

  /// Width that text takes, roughly.
  static double measured(std::string_view text, double letter);
  /// At most `lines` lines that fit; the last ends in an ellipsis when there is more.
  static std::vector<std::string> fitted(const std::string& text, double width, double letter,
                                         std::size_t lines);
  static std::string number(double value);

private:
  XmlWriter& out_;
};

}  // namespace lathbook::sequence
