// Times the order of taking down against Boost.Graph's topological sort of the same graph, the books of
// 100,000 pieces, and both through the real program on an archive of that size.
//
// bench_pieces              all figures; the archive takes a minute or two to make
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/topological_sort.hpp>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "plugins/pieces/account.hpp"
#include "plugins/takedown/order.hpp"

using namespace lathbook;
namespace fs = std::filesystem;

namespace {

constexpr int kRows = 250, kColumns = 400;

double seconds(const auto& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Loose tile: each stands on the two below it; rows of things and of relations shuffled.
std::vector<takedown::Hindrance> wall(std::mt19937_64& random) {
  std::vector<std::uint32_t> number(static_cast<std::size_t>(kRows) * kColumns);
  for (std::uint32_t i = 0; i < number.size(); ++i) number[i] = i;
  std::shuffle(number.begin(), number.end(), random);
  std::vector<takedown::Hindrance> hindrances;
  const auto at = [&](int row, int column) {
    return number[static_cast<std::size_t>(row * kColumns + column)];
  };
  for (int row = 1; row < kRows; ++row)
    for (int column = 0; column < kColumns; ++column) {
      hindrances.push_back({at(row, column), at(row - 1, column), 0, true});
      if (column > 0) hindrances.push_back({at(row, column), at(row - 1, column - 1), 0, true});
    }
  std::shuffle(hindrances.begin(), hindrances.end(), random);
  return hindrances;
}

void order_against_boost() {
  std::mt19937_64 random(20261125);
  const auto hindrances = wall(random);
  const std::size_t things = static_cast<std::size_t>(kRows) * kColumns;
  std::size_t steps = 0, sorted = 0;
  const double ours = seconds(
      [&] { steps = takedown::order_of(std::vector<takedown::Thing>(things), hindrances).steps.size(); });
  const double peer = seconds([&] {
    boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS> graph(things);
    for (const auto& one : hindrances) boost::add_edge(one.first, one.second, graph);
    std::vector<std::size_t> order;
    boost::topological_sort(graph, std::back_inserter(order));
    sorted = order.size();
  });
  std::printf("order of %zu pieces, %zu relations, with levels, alternatives and circles: %.3f s\n", things,
              hindrances.size(), ours);
  std::printf("  Boost.Graph topological_sort, the order alone: %.3f s; ratio %.2f%s\n", peer, ours / peer,
              steps == sorted ? "" : "  DIFFERENT LENGTHS");
}

void books() {
  FieldAccount field;
  field.rows = kRows;
  field.columns = kColumns;
  for (int row = 1; row <= kRows; ++row)
    for (int column = 1; column <= kColumns; ++column) {
      PieceLine line;
      line.record.code = "N-1." + std::to_string(field.pieces.size() + 1);
      line.row = row;
      line.column = column;
      line.state = column % 9 == 0 ? "missing at survey" : "in place";
      line.condition = column % 7 == 0 ? "broken" : "sound";
      field.pieces.push_back(std::move(line));
    }
  const double took = seconds([&] { pieces::count(field); });
  std::printf("books of %zu pieces: %.3f s (%zu = %zu + %zu + %zu)\n", field.pieces.size(), took, field.laid,
              field.whole, field.broken, field.missing);
}

int run(const std::string& command) {
  return std::system(command.c_str());
}

void through_the_program() {
  const fs::path folder = fs::temp_directory_path() / "lathbook-bench-pieces";
  fs::remove_all(folder);
  fs::create_directories(folder / "sheets");
  std::ofstream(folder / "sheets" / "sources.csv")
      << "code,source-type,title,source-date,class,confidence\n"
         "S-1,physical inspection,Survey,2026-05-01,physical,certain\n";
  std::ofstream(folder / "sheets" / "elements.csv")
      << "code,name,piece-map,source,class,confidence\nN-1,Field,field {rows=" << kRows
      << "; columns=" << kColumns << "},S-1,physical,certain\n";
  {
    std::ofstream pieces(folder / "sheets" / "pieces.csv");
    pieces << "code,piece-of,position,piece-state,piece-condition,bed-sound,source,class,confidence\n";
    int number = 0;
    for (int row = kRows; row >= 1; --row)
      for (int column = 1; column <= kColumns; ++column) {
        ++number;
        pieces << "N-1." << number << ",N-1,cell {field=N-1; row=" << row << "; column=" << column
               << "},in place {on=2026-05-01},sound {on=2026-05-01}," << (number % 3 == 0 ? "hollow" : "dull")
               << " {on=2026-05-01},S-1,physical,certain\n";
      }
  }
  const std::string state = "XDG_STATE_HOME=" + (folder / "state").string() +
                            " LATHBOOK_ARCHIVE=" + (folder / "archive").string() + " ";
  const std::string program = state + LATHBOOK_BUILD_DIR + "/bin/lathbook ";
  if (run(program + "begin " + (folder / "archive").string() + " > /dev/null") != 0 ||
      run(program + "take-in " + (folder / "sheets").string() + " > /dev/null") != 0) {
    std::printf("the archive could not be made: build lathbook and its plugins in this folder first\n");
    return;
  }
  const auto timed = [&](const std::string& command) {
    return seconds([&] {
      if (run(command + " > /dev/null") != 0) std::printf("failed: %s\n", command.c_str());
    });
  };
  std::string database;
  for (const auto& file : fs::directory_iterator(folder / "archive"))
    if (file.is_regular_file() && (database.empty() || file.file_size() > fs::file_size(database)))
      database = file.path().string();
  const double peer =
      timed("sqlite3 " + database +
            " 'select count(*), sum(length(content)), sum(length(header)), max(digest) from statement'");
  const double counts = timed(program + "print pieces N-1");
  const double order = timed(program + "print takedown N-1");
  std::printf(
      "through the program, %d pieces, 600,000 statements: counts %.2f s, order %.2f s; sqlite3 reading the "
      "same rows %.2f s; ratios %.1f and %.1f\n",
      kRows * kColumns, counts, order, peer, counts / peer, order / peer);
  fs::remove_all(folder);
}

}  // namespace

int main() {
  order_against_boost();
  books();
  through_the_program();
}
