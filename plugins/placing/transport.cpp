#include "plugins/placing/transport.hpp"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/successive_shortest_path_nonnegative_weights.hpp>

namespace lathbook::placing {

namespace {

using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
using Edge = Traits::edge_descriptor;
using Graph = boost::adjacency_list<
    boost::vecS, boost::vecS, boost::directedS, boost::no_property,
    boost::property<boost::edge_capacity_t, std::int64_t,
                    boost::property<boost::edge_residual_capacity_t, std::int64_t,
                                    boost::property<boost::edge_reverse_t, Edge,
                                                    boost::property<boost::edge_weight_t, std::int64_t>>>>>;

Edge connect(Graph& graph, std::size_t from, std::size_t to, std::int64_t capacity, std::int64_t cost) {
  const Edge there = boost::add_edge(from, to, graph).first;
  const Edge back = boost::add_edge(to, from, graph).first;
  boost::put(boost::edge_capacity, graph, there, capacity);
  boost::put(boost::edge_capacity, graph, back, 0);
  boost::put(boost::edge_weight, graph, there, cost);
  boost::put(boost::edge_weight, graph, back, -cost);
  boost::put(boost::edge_reverse, graph, there, back);
  boost::put(boost::edge_reverse, graph, back, there);
  return there;
}

}  // namespace

std::vector<std::int64_t> cheapest(const std::vector<std::int64_t>& supplies,
                                   const std::vector<std::int64_t>& demands, const std::vector<Lane>& lanes) {
  const std::size_t source = supplies.size() + demands.size(), sink = source + 1;
  Graph graph(sink + 1);
  for (std::size_t i = 0; i < supplies.size(); ++i) connect(graph, source, i, supplies[i], 0);
  for (std::size_t i = 0; i < demands.size(); ++i) connect(graph, supplies.size() + i, sink, demands[i], 0);
  std::vector<Edge> edges;
  for (const Lane& lane : lanes)
    edges.push_back(connect(graph, lane.supply, supplies.size() + lane.demand, lane.capacity, lane.cost));
  boost::successive_shortest_path_nonnegative_weights(graph, source, sink);
  std::vector<std::int64_t> flow;
  for (const Edge& edge : edges)
    flow.push_back(boost::get(boost::edge_capacity, graph, edge) -
                   boost::get(boost::edge_residual_capacity, graph, edge));
  return flow;
}

}  // namespace lathbook::placing
