// Times the transitive reduction against networkx on the same orders and prints ratios; then a million
// things.
//
// bench_sequence            all figures
// Needs python3 with networkx for the comparison; says so when it is not there.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "plugins/sequence/order.hpp"
#include "plugins/sequence/reduction.hpp"

using namespace lathbook::sequence;

namespace {

double seconds(const auto& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Each later thing over some earlier one at most `reach` numbers below; no arc twice; rows shuffled.
std::vector<Arc> relations(std::mt19937_64& random, Node things, std::size_t count, Node reach) {
  std::vector<Arc> arcs;
  arcs.reserve(count + count / 8);
  while (arcs.size() < count) {
    const Node later = 1 + static_cast<Node>(random() % (things - 1));
    const Node down = 1 + static_cast<Node>(random() % std::min(later, reach));
    arcs.emplace_back(later, later - down);
    if (arcs.size() == count) {
      std::sort(arcs.begin(), arcs.end());
      arcs.erase(std::unique(arcs.begin(), arcs.end()), arcs.end());
    }
  }
  std::shuffle(arcs.begin(), arcs.end(), random);
  return arcs;
}

constexpr const char* kPeer = R"(
import sys, time
import networkx
graph = networkx.DiGraph([tuple(map(int, line.split())) for line in open(sys.argv[1])])
start = time.perf_counter()
reduced = networkx.transitive_reduction(graph)
print(time.perf_counter() - start)
for later, earlier in sorted(reduced.edges()):
    print(later, earlier)
)";

void against_networkx(const std::filesystem::path& folder, Node things, std::size_t count) {
  std::mt19937_64 random(things);
  const auto arcs = relations(random, things, count, things);
  {
    std::ofstream out(folder / "arcs.txt");
    for (const auto& [later, earlier] : arcs) out << later << ' ' << earlier << '\n';
    std::ofstream(folder / "peer.py") << kPeer;
  }
  const std::string command = "python3 '" + (folder / "peer.py").string() + "' '" +
                              (folder / "arcs.txt").string() + "' > '" + (folder / "reduced.txt").string() +
                              "' 2>/dev/null";
  if (std::system(command.c_str()) != 0) {
    std::printf("transitive reduction, %u things: networkx is not installed, not compared\n", things);
    return;
  }
  std::ifstream in(folder / "reduced.txt");
  double theirs = 0;
  in >> theirs;
  std::set<Arc> expected;
  for (Node later = 0, earlier = 0; in >> later >> earlier;) expected.insert({later, earlier});
  std::vector<bool> redundant;
  double ours = 1e9;
  for (int run = 0; run < 3; ++run)
    ours = std::min(ours, seconds([&] { redundant = redundant_arcs(things, arcs); }));
  std::set<Arc> kept;
  for (std::size_t at = 0; at < arcs.size(); ++at)
    if (!redundant[at]) kept.insert(arcs[at]);
  std::printf(
      "transitive reduction, %u things, %zu relations: %.4f s, networkx %.3f s, ratio %.0f x faster, %s "
      "result (%zu kept)\n",
      things, arcs.size(), ours, theirs, theirs / ours, kept == expected ? "equal" : "DIFFERENT",
      kept.size());
  if (kept != expected) std::exit(1);
}

void large(const char* what, Node things, std::size_t count, Node reach) {
  std::mt19937_64 random(5);
  const auto arcs = relations(random, things, count, reach);
  std::vector<bool> redundant;
  const double reduction = seconds([&] { redundant = redundant_arcs(things, arcs); });
  std::vector<Relation> said;
  said.reserve(arcs.size());
  for (const auto& [later, earlier] : arcs) said.push_back({later, earlier, true, true});
  Order order;
  const double whole = seconds([&] { order = order_of(Sameness(things, {}), said); });
  std::printf(
      "%s: %u things, %zu relations: reduction %.2f s (%zu redundant), loops, levels, chains and all %.2f "
      "s\n",
      what, things, arcs.size(), reduction,
      static_cast<std::size_t>(std::count(redundant.begin(), redundant.end(), true)), whole);
}

}  // namespace

int main() {
  const auto folder =
      std::filesystem::temp_directory_path() / ("bench_sequence-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directory(folder);
  against_networkx(folder, 1000, 3000);
  against_networkx(folder, 5000, 15000);
  against_networkx(folder, 10000, 30000);
  std::filesystem::remove_all(folder);
  large("rooms of 500", 1'000'000, 3'000'000, 500);
  large("one building", 1'000'000, 3'000'000, 1'000'000);
  return 0;
}
