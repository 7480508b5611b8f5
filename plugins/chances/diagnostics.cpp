// Ranks, folds, splits and sums.
#include "plugins/chances/diagnostics.hpp"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numeric>

namespace lathbook::chances {

namespace {

constexpr std::size_t kFurthest = 400;

std::vector<double> sorted(const Draws& draws) {
  std::vector<double> all;
  for (const auto& chain : draws) all.insert(all.end(), chain.begin(), chain.end());
  std::sort(all.begin(), all.end());
  return all;
}

Draws halves(const Draws& draws) {
  Draws split;
  for (const auto& chain : draws) {
    const auto half = static_cast<std::ptrdiff_t>(chain.size() / 2);
    split.emplace_back(chain.begin(), chain.begin() + half);
    split.emplace_back(chain.end() - half, chain.end());
  }
  return split;
}

// Normal scores of the ranks; equal values share their mean rank.
Draws by_rank(const Draws& draws) {
  const std::vector<double> all = sorted(draws);
  const auto count = static_cast<double>(all.size());
  Draws scores = draws;
  for (auto& chain : scores)
    for (double& value : chain) {
      const auto [low, high] = std::equal_range(all.begin(), all.end(), value);
      const double rank =
          (static_cast<double>(low - all.begin()) + static_cast<double>(high - all.begin()) + 1) / 2;
      value = std::sqrt(2.0) * boost::math::erf_inv(2 * (rank - 0.375) / (count + 0.25) - 1);
    }
  return scores;
}

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

struct Spread {
  double within = 0;
  double total = 0;  ///< estimate of the variance from within and between
};

Spread spread(const Draws& chains) {
  const auto length = static_cast<double>(chains.front().size());
  std::vector<double> means;
  Spread found;
  for (const auto& chain : chains) {
    const double middle = mean(chain);
    double sum = 0;
    for (const double value : chain) sum += (value - middle) * (value - middle);
    found.within += sum / (length - 1) / static_cast<double>(chains.size());
    means.push_back(middle);
  }
  const double middle = mean(means);
  double between = 0;
  for (const double one : means) between += (one - middle) * (one - middle);
  between /= static_cast<double>(chains.size() - 1);
  found.total = found.within * (length - 1) / length + between;
  return found;
}

double r_hat(const Draws& chains) {
  const Spread found = spread(chains);
  if (found.total <= 0) return 1;
  if (found.within <= 0) return INFINITY;
  return std::sqrt(found.total / found.within);
}

double correlation(const Draws& chains, const std::vector<double>& means, const Spread& found,
                   std::size_t lag) {
  double covariance = 0;
  for (std::size_t at = 0; at < chains.size(); ++at) {
    double sum = 0;
    for (std::size_t k = lag; k < chains[at].size(); ++k)
      sum += (chains[at][k] - means[at]) * (chains[at][k - lag] - means[at]);
    covariance += sum / static_cast<double>(chains[at].size()) / static_cast<double>(chains.size());
  }
  return 1 - (found.within - covariance) / found.total;
}

}  // namespace

double split_r_hat(const Draws& draws) {
  const double plain = r_hat(halves(by_rank(draws)));
  const double middle = quantile(draws, 0.5);
  Draws folded = draws;
  for (auto& chain : folded)
    for (double& value : chain) value = std::abs(value - middle);
  return std::max(plain, r_hat(halves(by_rank(folded))));
}

double effective_draws(const Draws& draws, bool of_ranks) {
  const Draws chains = halves(of_ranks ? by_rank(draws) : draws);
  const Spread found = spread(chains);
  if (found.total <= 0) return 0;
  std::vector<double> means;
  for (const auto& chain : chains) means.push_back(mean(chain));
  const std::size_t length = chains.front().size();
  const double count = static_cast<double>(length) * static_cast<double>(chains.size());
  double sum = 0, last = INFINITY;
  for (std::size_t lag = 0; lag + 1 < std::min(length, kFurthest); lag += 2) {
    const double pair = (lag == 0 ? 1.0 : correlation(chains, means, found, lag)) +
                        correlation(chains, means, found, lag + 1);
    if (pair < 0) break;
    last = std::min(last, pair);
    sum += last;
  }
  const double time = std::max(2 * sum - 1, 1 / std::log10(count));
  return count / time;
}

Stretch narrowest(const Draws& draws, double share) {
  const std::vector<double> all = sorted(draws);
  const auto size = static_cast<std::size_t>(std::ceil(share * static_cast<double>(all.size())));
  Stretch best{all.front(), all.back()};
  for (std::size_t at = 0; at + size <= all.size(); ++at)
    if (all[at + size - 1] - all[at] < best.high - best.low) best = {all[at], all[at + size - 1]};
  return best;
}

double quantile(const Draws& draws, double share) {
  std::vector<double> all = sorted(draws);
  return all[std::min(all.size() - 1, static_cast<std::size_t>(share * static_cast<double>(all.size())))];
}

}  // namespace lathbook::chances
