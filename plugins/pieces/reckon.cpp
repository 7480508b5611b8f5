// How many pieces or bricks a given size takes, asked without any record: the arithmetic of handbooks.
#include <algorithm>
#include <array>
#include <map>
#include <ostream>

#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/measure.hpp"
#include "plugins/pieces/quantities.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

constexpr double kInch = 25.4, kFoot = 304.8;  // millimetres

/// What was asked; lengths in millimetres.
struct Question {
  std::string of = "tile";
  std::map<std::string, double, std::less<>> lengths;
  double allowance = 0, waste = 0;
  double openings = 0;  ///< square feet of those that count
  std::size_t small_openings = 0;

  double need(const char* name) const {
    const auto found = lengths.find(name);
    if (found == lengths.end())
      fail(ErrorKind::invalid, "setting '" + std::string(name) + "' is missing for " + of +
                                   "; give it like " + name + "=\"6 in\"");
    return found->second;
  }
  double joint() const {
    const auto found = lengths.find("joint");
    return found == lengths.end() ? 0 : found->second;
  }
};

double per_cent(const std::string& name, const std::string& value) {
  const auto number = number_in<double>(value);
  if (!number)
    fail(ErrorKind::invalid, "setting '" + name + "' is a number of per cent, not " + quote(value));
  return *number;
}

// "3 ft x 7 ft"
void add_opening(const std::string& value, Question& asked) {
  const auto cross = value.find(" x ");
  const auto wide = millimetres_in(value.substr(0, cross));
  const auto high = cross == std::string::npos ? std::nullopt : millimetres_in(value.substr(cross + 3));
  if (!wide || !high)
    fail(ErrorKind::invalid,
         "setting 'opening' is width x height, like \"3 ft x 7 ft\", not " + quote(value));
  const double square_feet = *wide / kFoot * *high / kFoot;
  if (counts_as_opening(square_feet))
    asked.openings += square_feet;
  else
    ++asked.small_openings;
}

Question question_in(const Settings& settings) {
  constexpr std::array lengths{"run", "rise", "length", "width", "joint", "flats", "thickness"};
  Question asked;
  for (const auto& [name, value] : settings) {
    if (name == "of") {
      if (value != "tile" && value != "hexagon" && value != "brick" && value != "brickwork")
        fail(ErrorKind::invalid, "setting 'of' is tile, hexagon, brick or brickwork");
      asked.of = value;
    } else if (name == "allowance") {
      asked.allowance = per_cent(name, value);
    } else if (name == "waste") {
      asked.waste = per_cent(name, value);
    } else if (name == "opening") {
      add_opening(value, asked);
    } else if (std::find(lengths.begin(), lengths.end(), name) != lengths.end()) {
      const auto read = millimetres_in(value);
      if (!read)
        fail(ErrorKind::invalid, "setting '" + name +
                                     "' is a length with its unit, like \"6 in\" or \"152 mm\", not " +
                                     quote(value));
      asked.lengths[name] = *read;
    } else {
      fail(ErrorKind::invalid,
           quote(name) +
               " says nothing about quantities; the settings are of (tile, hexagon, brick, "
               "brickwork), run, rise, length, width, flats, thickness, joint, opening, allowance "
               "and waste");
    }
  }
  return asked;
}

void tell_allowance(std::size_t needed, const Question& asked, std::ostream& out) {
  if (asked.allowance > 0)
    out << "with " << in_hundredths(asked.allowance)
        << " per cent on top: " << with_allowance(needed, asked.allowance) << '\n';
}

std::string run_words(const Run& run) {
  return std::to_string(run.pieces) + (run.cut ? " (the last one cut)" : "");
}

void tell_area(double each_square_millimetre, std::ostream& out) {
  out << with_places(each_square_millimetre * kFoot * kFoot, 2) << " a square foot, "
      << with_places(each_square_millimetre * 1e6, 2) << " a square metre, joints reckoned in";
}

void tiles(const Question& asked, std::ostream& out) {
  const double run = asked.need("run"), rise = asked.need("rise");
  const double length = asked.need("length"), width = asked.need("width");
  const Run across = along(run, length, asked.joint()), up = along(rise, width, asked.joint());
  const std::size_t laid = laid_in(run, rise, length, width, asked.joint());
  out << laid << " pieces: " << run_words(across) << " along by " << run_words(up) << " up\n";
  tell_allowance(laid, asked, out);
  const double each = per_area(length, width, asked.joint());
  out << "by area it would be " << with_places(run * rise * each, 1) << " (";
  tell_area(each, out);
  out << ")"
      << (run * rise * each + 0.5 < static_cast<double>(laid) ? ": too few, for a cut piece is a piece" : "")
      << '\n';
}

void hexagons(const Question& asked, std::ostream& out) {
  tell_area(hexagons_per_area(asked.need("flats"), asked.joint()), out);
  out << "\nFor comparison only: edges are cut, so count a field row by row.\n";
}

void bricks(const Question& asked, std::ostream& out) {
  const double length = asked.need("length"), height = asked.need("width");
  const std::size_t needed =
      bricks_by_face(asked.need("run"), asked.need("rise"), length, height, asked.joint());
  out << needed << " bricks in one leaf (";
  tell_area(per_area(length, height, asked.joint()), out);
  out << ")\n";
  tell_allowance(needed, asked, out);
  const std::size_t bought = with_allowance(needed, asked.allowance);
  out << "mortar: " << with_places(mortar_cubic_feet(bought, 0), 1) << " cubic feet";
  if (asked.waste > 0)
    out << ", with " << in_hundredths(asked.waste) << " per cent of waste "
        << with_places(mortar_cubic_feet(bought, asked.waste), 1);
  out << " (11.7 a thousand, for joints of half an inch: NAVEDTRA 14045, p. 159)\n";
}

void brickwork(const Question& asked, std::ostream& out) {
  const Brickwork wall{asked.need("run") / kFoot, asked.need("rise") / kFoot, asked.need("thickness") / kFoot,
                       asked.joint() / kInch, asked.openings};
  const std::size_t needed = bricks_by_volume(wall);
  out << needed
      << " bricks by volume (500 a cubic yard with joints up to 3/8 in, 575 up to 1/8 in: the Building "
         "Trades Pocketbook, with 5 per cent of waste)\n";
  tell_allowance(needed, asked, out);
  if (asked.small_openings != 0)
    out << asked.small_openings << (asked.small_openings == 1 ? " opening" : " openings")
        << " below 100 square feet not deducted: the same book\n";
}

}  // namespace

void write_quantities(const Settings& settings, std::ostream& out) {
  const Question asked = question_in(settings);
  if (asked.of == "tile") tiles(asked, out);
  if (asked.of == "hexagon") hexagons(asked, out);
  if (asked.of == "brick") bricks(asked, out);
  if (asked.of == "brickwork") brickwork(asked, out);
}

}  // namespace lathbook::pieces
