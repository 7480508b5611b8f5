// The books balance, whatever happens to the pieces.
#include <catch2/catch.hpp>
#include <random>
#include <sstream>

#include "core/evidence/registry.hpp"
#include "core/view/piece_states.hpp"
#include "plugins/pieces/account.hpp"
#include "plugins/pieces/map_svg.hpp"
#include "plugins/pieces/qr_code.hpp"
#include "tests/support/support.hpp"

#include <zbar.h>

using namespace lathbook;
using namespace lathbook::pieces;

namespace {

FieldAccount field_of(int rows, int columns) {
  FieldAccount field;
  field.element.code = "N-1";
  field.rows = rows;
  field.columns = columns;
  for (int row = 1; row <= rows; ++row)
    for (int column = 1; column <= columns; ++column) {
      PieceLine line;
      line.record.code = "N-1." + std::to_string(field.pieces.size() + 1);
      line.row = row;
      line.column = column;
      line.state = "in place";
      line.condition = "sound";
      field.pieces.push_back(line);
    }
  return field;
}

std::size_t states_summed(const FieldAccount& field) {
  std::size_t sum = 0;
  for (const auto& [state, number] : field.by_state) sum += number;
  return sum;
}

}  // namespace

// Worked by hand: 27 laid = 19 sound + 5 broken + 3 missing, so 8 to find.
TEST_CASE("a hearth of 27 tiles") {
  FieldAccount field = field_of(3, 9);
  for (std::size_t i = 0; i < 5; ++i) field.pieces[i].condition = "broken";
  for (std::size_t i = 5; i < 8; ++i) field.pieces[i].state = "missing at survey";
  count(field);
  order_missing(field, {0, 2});
  CHECK(field.laid == 27);
  CHECK(field.whole == 19);
  CHECK(field.broken == 5);
  CHECK(field.missing == 3);
  CHECK(field.order.needed == 8);
  CHECK(field.order.spares == 2);
  CHECK(field.mismatches.empty());
}

TEST_CASE("48 drawn, 40 crated, 3 sampled, 2 discarded: 3 cells with nothing on record") {
  FieldAccount field = field_of(6, 8);
  field.pieces.resize(45);
  for (std::size_t i = 0; i < 40; ++i) {
    field.pieces[i].state = "in container";
    field.pieces[i].container = RecordInfo{{}, Kind::container, "K-1", ""};
  }
  for (std::size_t i = 40; i < 43; ++i) field.pieces[i].state = "used up as a sample";
  for (std::size_t i = 43; i < 45; ++i) field.pieces[i].state = "discarded";
  count(field);
  CHECK(field.laid == 48);
  CHECK(field.whole == 40);
  CHECK(field.missing == 8);
  REQUIRE(field.mismatches.size() == 1);
  CHECK(field.mismatches[0].code == "pieces.empty-cells");
  CHECK(field.mismatches[0].text.rfind("3 cells have no piece on record", 0) == 0);
}

TEST_CASE("every mismatch is named") {
  FieldAccount field = field_of(2, 2);
  field.gaps = {{2, 2}};
  field.pieces[1].row = 1;
  field.pieces[1].column = 1;  // two in one cell
  field.pieces[2].state.clear();
  field.pieces.push_back(field.pieces[0]);
  field.pieces.back().record.code = "N-1.9";
  field.pieces.back().row = 7;
  field.pieces.push_back(field.pieces[0]);
  field.pieces.back().record.code = "N-1.10";
  field.pieces.back().row.reset();
  field.pieces.back().state = "in container";
  count(field);
  std::vector<std::string> codes;
  for (const auto& finding : field.mismatches) codes.push_back(finding.code);
  for (const char* code : {"pieces.shared-cell", "pieces.no-state", "pieces.outside", "pieces.in-gap",
                           "pieces.no-cell", "pieces.no-container", "pieces.empty-cells"}) {
    INFO(code);
    CHECK(std::find(codes.begin(), codes.end(), code) != codes.end());
  }
  CHECK(field.whole + field.broken + field.missing == field.laid);
}

TEST_CASE("fragments count their piece once, and a missing fragment makes it incomplete") {
  FieldAccount field = field_of(1, 1);
  field.pieces[0].condition = "broken";
  field.pieces[0].parts = 3;
  field.pieces[0].fragments.resize(3);
  count(field);
  CHECK(field.laid == 1);
  CHECK(field.broken == 1);
  FieldAccount lost = field_of(1, 1);
  lost.pieces[0].incomplete = true;
  count(lost);
  CHECK(lost.broken == 1);
}

static void check_random_histories(int rounds) {
  const unsigned seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto& states = Registry::standard().choices("piece-state");
  REQUIRE(states.size() + 1 == kPieceStates);
  for (int round = 0; round < rounds; ++round) {
    FieldAccount field = field_of(2, 3);
    for (int move = 0; move < 10; ++move) {
      PieceLine& line = field.pieces[random() % field.pieces.size()];
      const std::string next = states[random() % states.size()];
      const PieceState from = piece_state_from_word(line.state);
      if (refusal(from, piece_state_from_word(next))) continue;
      // Nothing returns from where nothing can.
      REQUIRE_FALSE(
          (from == PieceState::discarded || from == PieceState::sampled || from == PieceState::reused));
      line.state = next;
      line.container.reset();
      if (next == "in container") line.container = RecordInfo{{}, Kind::container, "K-1", ""};
      FieldAccount books = field;
      count(books);
      REQUIRE(books.whole + books.broken + books.missing == books.laid);
      REQUIRE(states_summed(books) == books.laid);
      REQUIRE(books.mismatches.empty());
    }
  }
}

TEST_CASE("random histories of moves: only possible ones are taken, and the books balance after each") {
  check_random_histories(1000);
}

TEST_CASE("many random histories of moves keep the books balanced", "[.long]") {
  check_random_histories(10000);
}

TEST_CASE("impossible moves are refused with the reason") {
  CHECK(refusal(PieceState::in_container, PieceState::lost) == std::nullopt);
  CHECK(refusal(PieceState::in_container, PieceState::in_container) == std::nullopt);
  CHECK(refusal(PieceState::in_place, PieceState::in_place) == "is in place already");
  CHECK(refusal(PieceState::in_place, PieceState::discarded)->find("take it down first") !=
        std::string::npos);
  CHECK(refusal(PieceState::lost, PieceState::in_place)->find("found again") != std::string::npos);
  CHECK(refusal(PieceState::discarded, PieceState::on_bench)->find("no longer there") != std::string::npos);
  CHECK(refusal(PieceState::on_bench, PieceState::missing_at_survey)->find("lost by us") !=
        std::string::npos);
}

// Decoded by zbar, a reader of its own.
TEST_CASE("a QR code scans back to its text") {
  for (const std::string text : {"K-07", "https://example.org/fairlead/N-203.14", "100% of [N-1] #7"}) {
    const QrModules modules = qr_modules(text);
    const unsigned side = static_cast<unsigned>(modules.side + 8) * 4;
    std::string grey(side * side, '\xFF');
    for (unsigned y = 0; y < side; ++y)
      for (unsigned x = 0; x < side; ++x) {
        const int mx = static_cast<int>(x / 4) - 4, my = static_cast<int>(y / 4) - 4;
        if (mx < 0 || my < 0 || mx >= modules.side || my >= modules.side) continue;
        if (modules.dark[static_cast<std::size_t>(my * modules.side + mx)] != 0) grey[y * side + x] = '\0';
      }
    zbar::ImageScanner scanner;
    zbar::Image image(side, side, "Y800", grey.data(), grey.size());
    REQUIRE(scanner.scan(image) == 1);
    CHECK(image.symbol_begin()->get_data() == text);
  }
  CHECK_THROWS_AS(qr_modules(std::string(3000, 'x')), Error);
  CHECK_THROWS_AS(qr_modules("caf\xC3\xA9"), Error);
}

TEST_CASE("100,000 pieces are counted, and a map of 2,000 is drawn") {
  FieldAccount field = field_of(250, 400);
  count(field);
  CHECK(field.laid == 100000);
  CHECK(field.mismatches.empty());
  FieldAccount wall = field_of(40, 50);
  count(wall);
  std::ostringstream out;
  write_map(wall, {}, out);
  CHECK(out.str().find("2000 laid = 2000 whole + 0 broken + 0 missing") != std::string::npos);
}

TEST_CASE("a large map is read by letters and edges, and a part of it by numbers") {
  FieldAccount wall = field_of(40, 50);
  wall.pieces[0].condition = "broken";
  count(wall);
  const auto drawn = [&](Part rows, Part columns) {
    std::ostringstream out;
    MapOptions options;
    options.shows = MapShows::condition;
    options.rows = rows;
    options.columns = columns;
    write_map(wall, options, out);
    return out.str();
  };
  const std::string whole = drawn({}, {});
  CHECK(whole.find(">1234</text>") == std::string::npos);  // a number of a piece
  CHECK(whole.find(">40</text>") != std::string::npos);    // of the uppermost row
  CHECK(whole.find(">b</text>") != std::string::npos);
  CHECK(whole.find(">s</text>") == std::string::npos);  // what is sound stays blank
  const std::string part = drawn({1, 20}, {26, 50});
  CHECK(part.find(">26</text>") != std::string::npos);
  CHECK(part.find(">1000</text>") != std::string::npos);
  CHECK(part.find(">1001</text>") == std::string::npos);
  CHECK_THROWS_AS(drawn({21, 60}, {}), Error);
}
