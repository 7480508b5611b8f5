// Times the temporal network against Boost.Graph's Bellman-Ford on the same edges; prints ratios.
//
// bench_timeline            all figures, smallest of three runs each
// bench_timeline SIZE       only the bounds of SIZE elements, once, with the peak of memory
#include <sys/resource.h>

#include <algorithm>
#include <boost/graph/bellman_ford_shortest_paths.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <limits>
#include <random>
#include <vector>

#include "plugins/timeline/network.hpp"

using namespace lathbook::timeline;

namespace {

constexpr Tick kYear = Tick{365} << 22;
constexpr std::uint32_t kRoom = 500;     // elements in a room
constexpr std::uint32_t kCampaign = 25;  // elements in a campaign

// Seconds of processor time: everything here runs on one thread, and other work on the machine then
// disturbs the ratios less.
double seconds(const auto& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

// An invented house: every element has a true beginning and end; relations, dates and campaigns are drawn
// so that the truth satisfies them. Three relations an element; one in twelve elements is dated to some
// years; one in ten belongs to a campaign of four years at most; each has the horizon on both instants.
class House {
public:
  House(std::uint32_t elements, bool rooms, unsigned seed) : random_(seed), elements_(elements) {
    const std::uint32_t group = rooms ? kRoom : elements;
    first_ = elements_ * 2 + 1;
    campaigns_ = elements_ / (10 * kCampaign) + 1;
    begin_.resize(elements_);
    end_.resize(elements_);
    for (std::uint32_t at = 0; at < elements_; ++at) {
      begin_[at] = pick(1800 * kYear, 2000 * kYear);
      end_[at] = begin_[at] + pick(kYear, 80 * kYear);
      add(begin_of(at), kOrigin, -1700 * kYear, kHorizon, 0);
      add(kOrigin, begin_of(at), 2030 * kYear, kHorizon, 0);
      add(end_of(at), kOrigin, -1700 * kYear, kHorizon, 0);
      add(kOrigin, end_of(at), 2130 * kYear, kHorizon, 0);
      add(end_of(at), begin_of(at), -1, kStructural, 0);
    }
    for (std::uint32_t at = 0; at < elements_; ++at) {
      for (int k = 0; k < 3; ++k) relate(at, at / group * group, group);
      if (pick(0, 11) == 0) date(at);
    }
    for (std::uint32_t at = 0; at < campaigns_; ++at) campaign(at, group);
    std::shuffle(rows_.begin(), rows_.end(), random_);
  }

  std::uint32_t variables() const { return first_ + 2 * campaigns_; }
  std::size_t rows() const { return rows_.size(); }
  const std::vector<Constraint>& constraints() const { return rows_; }

private:
  Tick pick(Tick low, Tick high) { return std::uniform_int_distribution<Tick>(low, high)(random_); }
  static Var begin_of(std::uint32_t element) { return 2 * element + 1; }
  static Var end_of(std::uint32_t element) { return 2 * element + 2; }
  void add(Var from, Var to, Tick weight, Cause cause, std::uint8_t level) {
    rows_.push_back({from, to, weight, cause, level});
  }
  std::uint8_t level() { return static_cast<std::uint8_t>(pick(1, 10) <= 7 ? 1 : pick(2, 3)); }

  // The later of two covers the earlier, which was still there when it was covered.
  void relate(std::uint32_t one, std::uint32_t base, std::uint32_t group) {
    const std::uint32_t size = std::min(group, elements_ - base);
    auto other = base + static_cast<std::uint32_t>(pick(0, size - 1));
    if (begin_[one] == begin_[other]) return;
    if (begin_[one] < begin_[other]) std::swap(one, other);
    const std::uint8_t sure = level();
    ++cause_;
    add(begin_of(one), begin_of(other), -1, cause_, sure);
    if (end_[other] > begin_[one]) add(end_of(other), begin_of(one), -1, cause_, sure);
  }

  void date(std::uint32_t at) {
    const Tick margin = pick(0, 10) * kYear;
    ++cause_;
    add(kOrigin, begin_of(at), begin_[at] + margin, cause_, 1);
    add(begin_of(at), kOrigin, margin - begin_[at], cause_, 1);
  }

  // The members are those of one room or house that truly fall into the four years after the first.
  void campaign(std::uint32_t number, std::uint32_t group) {
    const Var start = first_ + 2 * number, end = start + 1;
    const auto lead = static_cast<std::uint32_t>(pick(0, elements_ - 1));
    const Tick since = begin_[lead];
    add(start, end, 4 * kYear, ++cause_, 1);
    add(end, start, -1, kStructural, 0);
    const std::uint32_t base = lead / group * group, size = std::min(group, elements_ - base);
    std::uint32_t members = 0;
    for (std::uint32_t step = 0; step < size && members < kCampaign; ++step) {
      const std::uint32_t at = base + (lead - base + step) % size;
      if (begin_[at] < since || begin_[at] >= since + 4 * kYear) continue;
      ++members;
      const std::uint8_t sure = level();
      ++cause_;
      add(begin_of(at), start, 0, cause_, sure);
      add(end, begin_of(at), -1, cause_, sure);
    }
  }

  std::mt19937_64 random_;
  std::uint32_t elements_;
  std::uint32_t campaigns_ = 0;
  Var first_ = 0;
  Cause cause_ = 0;
  std::vector<Tick> begin_, end_;
  std::vector<Constraint> rows_;
};

struct Weight {
  Tick weight;
};
using Peer = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, Weight>;

// Earliest and latest by Boost.Graph: the graph and its reverse, distances only.
std::vector<Tick> peer_distances(const std::vector<Constraint>& rows, std::uint32_t variables, bool turned) {
  std::vector<std::pair<Var, Var>> edges;
  std::vector<Weight> weights;
  edges.reserve(rows.size());
  weights.reserve(rows.size());
  for (const Constraint& row : rows) {
    edges.emplace_back(turned ? row.to : row.from, turned ? row.from : row.to);
    weights.push_back({row.weight});
  }
  const Peer graph(boost::edges_are_unsorted_multi_pass, edges.begin(), edges.end(), weights.begin(),
                   variables);
  std::vector<Tick> distance(variables, std::numeric_limits<Tick>::max() / 2);
  distance[0] = 0;
  boost::bellman_ford_shortest_paths(graph, static_cast<int>(variables),
                                     boost::weight_map(boost::get(&Weight::weight, graph))
                                         .distance_map(distance.data())
                                         .distance_compare(std::less<>()));
  return distance;
}

bool agree(const Solution& solution, const std::vector<Tick>& latest, const std::vector<Tick>& earliest) {
  const auto shown = [](Tick distance) { return distance > kUnbounded / 4 ? kUnbounded : distance; };
  for (Var var = 1; var < latest.size(); ++var)
    if (solution.bounds(var, kPossible) != Bounds{-shown(earliest[var]), shown(latest[var])}) return false;
  return true;
}

// Reads every reason of the most inclusive level: how many links they have in all.
std::size_t read_reasons(const Solution& solution, std::uint32_t variables) {
  std::size_t links = 0;
  for (Var var = 1; var < variables; ++var)
    links += solution.reason(var, Side::earliest, kPossible).size() +
             solution.reason(var, Side::latest, kPossible).size();
  return links;
}

Network network_of(const std::vector<Constraint>& rows, std::uint32_t variables, bool all_certain) {
  Network network;
  network.add_variables(variables - 1);
  network.reserve(rows.size());
  for (Constraint row : rows) {
    if (all_certain && row.level != 0) row.level = kCertain;
    network.add_constraint(row);
  }
  return network;
}

// The peer's own task is one level: all constraints, both directions; ours keeps the reasons besides.
// Three nested levels, as the program uses them, are timed too. Returns the time of three levels.
double compare(const char* name, const std::vector<Constraint>& rows, std::uint32_t variables, double reach,
               bool at_least) {
  const Network same = network_of(rows, variables, true), nested = network_of(rows, variables, false);
  Options one;
  one.max_level = kCertain;
  std::vector<Tick> latest, earliest;
  double peer = 1e9, level = 1e9, levels = 1e9, reading = 1e9;
  std::size_t links = 0;
  bool equal = true;
  for (int run = 0; run < 3; ++run) {
    peer = std::min(peer, seconds([&] {
                      latest = peer_distances(rows, variables, false);
                      earliest = peer_distances(rows, variables, true);
                    }));
    level = std::min(level, seconds([&] { solve(same, one); }));
    levels = std::min(levels, seconds([&] { solve(nested); }));
    const Solution solution = solve(nested);
    equal = equal && solution.conflicts().empty() && agree(solution, latest, earliest);
    reading = std::min(reading, seconds([&] { links = read_reasons(solution, variables); }));
  }
  const double ratio = at_least ? peer / level : level / peer;
  std::printf(
      "%s: %zu edges, %u variables; results equal: %s\n"
      "  Boost.Graph both ways %.3f s; ours with reasons kept %.3f s: %s %.2f x, reach %s %.1f x\n"
      "  ours at three nested levels %.3f s (%.2f x the peer); reading out all %zu links of all reasons %.3f "
      "s\n",
      name, rows.size(), variables, equal ? "yes" : "NO", peer, level, at_least ? "faster by" : "ours / peer",
      ratio, at_least ? ">=" : "<=", reach, levels, levels / peer, links, reading);
  std::fflush(stdout);
  if (!equal) std::exit(1);
  return levels;
}

// What would be without one statement: twenty statements left out one after another, each by solving again
// what it touches, against solving everything anew. In rooms of their own, and where all hangs together.
void one_left_out(bool rooms) {
  const House house(100'000, rooms, 1);
  const Network network = network_of(house.constraints(), house.variables(), false);
  const Solution whole = solve(network);
  std::mt19937 random(9);
  double again = 0, anew = 0;
  bool equal = true;
  constexpr int count = 20;
  for (int run = 0; run < count; ++run) {
    Options options;
    options.leave_out = {1 + static_cast<Cause>(random() % (network.causes() - 1))};
    std::vector<Bounds> one, other;
    again += seconds([&] {
      const Solution solution = solve_again(whole, options);
      one.push_back(solution.bounds(1, kPossible));
      for (Var var = 2; var < network.variables(); var += 97) one.push_back(solution.bounds(var, kPossible));
    });
    anew += seconds([&] {
      const Solution solution = solve(network, options);
      other.push_back(solution.bounds(1, kPossible));
      for (Var var = 2; var < network.variables(); var += 97)
        other.push_back(solution.bounds(var, kPossible));
    });
    equal = equal && one == other;
  }
  std::printf(
      "one statement left out of 100,000 elements %s: only what it touches %.4f s, everything anew %.4f s, "
      "%.1f "
      "x faster; results equal: %s\n",
      rooms ? "as dated rooms of 500" : "as one dated building", again / count, anew / count, anew / again,
      equal ? "yes" : "NO");
  std::fflush(stdout);
  if (!equal) std::exit(1);
}

// One-way: each link only 'after the one before'. Two-way: and 'at most a year after it'.
void chain(bool two_way) {
  constexpr std::uint32_t count = 10'000;
  std::vector<Constraint> rows;
  for (Var var = 1; var < count; ++var) rows.push_back({var + 1, var, -1, var, kCertain});
  for (Var var = 1; var < count && two_way; ++var) rows.push_back({var, var + 1, kYear, var, kCertain});
  rows.push_back({1, kOrigin, -1800 * kYear, count, kCertain});
  rows.push_back({kOrigin, 1, 1801 * kYear, count, kCertain});
  // Shuffled numbers as well as shuffled rows: the peer walks vertices in order.
  std::mt19937 random(7);
  std::vector<Var> name(count + 1);
  for (Var var = 0; var <= count; ++var) name[var] = var;
  std::shuffle(name.begin() + 1, name.end(), random);
  for (Constraint& row : rows) {
    row.from = name[row.from];
    row.to = name[row.to];
  }
  std::shuffle(rows.begin(), rows.end(), random);
  compare(two_way ? "shuffled two-way chain of 10,000 dated at one end"
                  : "shuffled chain of 10,000 dated at one end",
          rows, count + 1, 50, true);
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

Network building(std::uint32_t elements, bool rooms) {
  const House house(elements, rooms, 1);
  return network_of(house.constraints(), house.variables(), false);
}

}  // namespace

int main(int count, char** words) {
  if (count > 1) {
    const Network network = building(static_cast<std::uint32_t>(std::strtoul(words[1], nullptr, 10)), false);
    const double before = peak_megabytes();
    const double time = seconds([&] { solve(network); });
    std::printf(
        "%s elements as one building: %.3f s; peak %.0f MB (%.0f MB before solving, input included)\n",
        words[1], time, peak_megabytes(), before);
    return 0;
  }
  double small[2] = {0, 0};
  for (const bool rooms : {true, false}) {
    const House house(100'000, rooms, 1);
    small[rooms ? 0 : 1] =
        compare(rooms ? "100,000 elements as dated rooms of 500" : "100,000 elements as one dated building",
                house.constraints(), house.variables(), 1.5, false);
  }
  for (const bool rooms : {true, false}) one_left_out(rooms);
  chain(false);
  chain(true);
  for (const bool rooms : {true, false}) {
    const Network network = building(1'000'000, rooms);
    double time = 1e9;
    for (int run = 0; run < 3; ++run) time = std::min(time, seconds([&] { solve(network); }));
    std::printf(
        "1,000,000 elements %s, three levels: %zu edges, %u variables\n  %.3f s, reach < 5 s; "
        "%.1f x the 100,000 case, reach <= 20 x; peak so far %.0f MB, reach < 2048 MB\n",
        rooms ? "as dated rooms of 500" : "as one dated building", network.constraints().size(),
        network.variables(), time, time / small[rooms ? 0 : 1], peak_megabytes());
    std::fflush(stdout);
  }
  return 0;
}
