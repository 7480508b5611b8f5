// The reduction against published figures, exact counts, the definition, and networkx.
#include "plugins/sequence/reduction.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iostream>
#include <sstream>

#include "tests/sequence/graphs.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
using sequence::Arc;
using sequence::Node;
using test::arcs_of;
using test::reduced;
using test::text_of;

TEST_CASE("the drawn relations of a published diagram are all needed") {
  // E. C. Harris, 'Principles of Archaeological Stratigraphy', 2nd edition 1989, figure 12.
  const std::string figure = "1>2 1>3 1>4 2>5 3>5 4>5 5>6 6>7 6>8 7>9 8>9";
  CHECK(text_of(reduced(9, arcs_of(figure))) == figure);
  CHECK(test::closure(9, arcs_of(figure)).size() == 32);
  CHECK(text_of(reduced(9, arcs_of(figure + " 1>5 5>9 1>9 2>6"))) == figure);
  CHECK(text_of(reduced(3, arcs_of("1>2 2>3 1>3"))) == "1>2 2>3");
}

TEST_CASE("divisors of 60 keep the steps by one prime") {
  // Exact: 60 = 2*2*3*5 has 12 divisors, 42 pairs where one properly divides the other, 20 steps by a prime.
  std::vector<Node> divisors;
  for (Node number = 1; number <= 60; ++number)
    if (60 % number == 0) divisors.push_back(number);
  std::vector<Arc> arcs;
  for (Node a = 0; a < divisors.size(); ++a)
    for (Node b = 0; b < a; ++b)
      if (divisors[a] % divisors[b] == 0) arcs.emplace_back(a, b);
  CHECK(arcs.size() == 42);
  CHECK(reduced(static_cast<Node>(divisors.size()), arcs).size() == 20);
}

TEST_CASE("sets under inclusion keep the steps by one member") {
  // Exact: of n members 3^n - 2^n pairs of a set and a proper part of it, n * 2^(n-1) steps by one member.
  for (const auto& [members, pairs, steps] :
       std::vector<std::array<std::size_t, 3>>{{3, 19, 12}, {4, 65, 32}, {5, 211, 80}}) {
    std::vector<Arc> arcs;
    const Node sets = Node{1} << members;
    for (Node a = 0; a < sets; ++a)
      for (Node b = 0; b < sets; ++b)
        if (a != b && (a & b) == b) arcs.emplace_back(a, b);
    CHECK(arcs.size() == pairs);
    CHECK(reduced(sets, arcs).size() == steps);
  }
}

TEST_CASE("every pair of a straight line comes down to its steps; three over three keeps all") {
  std::vector<Arc> line;
  for (Node a = 0; a < 600; ++a)
    for (Node b = 0; b < a; ++b) line.emplace_back(a, b);
  CHECK(reduced(600, line).size() == 599);
  CHECK(text_of(reduced(6, arcs_of("4>1 4>2 4>3 5>1 5>2 5>3 6>1 6>2 6>3"))).size() == 9 * 4 - 1);
}

TEST_CASE("the reduction agrees with the definition on random orders") {
  const std::uint32_t seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 1000; ++round) {
    const Node nodes = 2 + static_cast<Node>(random() % 30);
    const auto arcs = test::random_order(random, nodes, random() % (4 * nodes));
    const auto kept = reduced(nodes, arcs);
    REQUIRE(kept == test::slowly_reduced(nodes, arcs));
    REQUIRE(test::closure(nodes, kept) == test::closure(nodes, arcs));
  }
}

TEST_CASE("what searches leave is settled by bits, with the same answer") {
  // Dense enough for the searches to run over their budget, and more ends than one sweep holds.
  std::mt19937 random(7);
  const auto arcs = test::random_order(random, 800, 9000);
  CHECK(reduced(800, arcs) == test::slowly_reduced(800, arcs));
}

namespace {

constexpr const char* kPeer = R"(
import sys
try:
    import networkx
except ImportError:
    sys.exit(77)
arcs = [tuple(map(int, line.split())) for line in open(sys.argv[1])]
for later, earlier in sorted(networkx.transitive_reduction(networkx.DiGraph(arcs)).edges()):
    print(later, earlier)
)";

}  // namespace

TEST_CASE("networkx finds the same reduction") {
  // networkx.algorithms.dag.transitive_reduction (A. Hagberg, D. Schult, P. Swart, 'Exploring network
  // structure, dynamics, and function using NetworkX', Proc. 7th Python in Science Conference, 2008, 11-15).
  const test::TempFolder folder;
  std::ofstream(folder.path() / "peer.py") << kPeer;
  std::mt19937 random(11);
  const auto arcs = test::random_order(random, 2000, 6000);
  {
    std::ofstream out(folder.path() / "arcs.txt");
    for (const auto& [later, earlier] : arcs) out << later << ' ' << earlier << '\n';
  }
  const test::Ran ran =
      test::run({"python3", (folder.path() / "peer.py").string(), (folder.path() / "arcs.txt").string()});
  if (ran.code == 77 || ran.code == 127) {
    WARN("skipped: python3-networkx is not installed");
    return;
  }
  REQUIRE(ran.code == 0);
  std::vector<Arc> theirs;
  std::istringstream in(ran.out);
  for (Node later = 0, earlier = 0; in >> later >> earlier;) theirs.emplace_back(later, earlier);
  CHECK(theirs.size() > 4000);
  CHECK(reduced(2000, arcs) == theirs);
}
