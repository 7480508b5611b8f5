#include "plugins/finishes/align.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/colour_difference.hpp"
#include "core/base/error.hpp"

namespace lathbook::finishes {

namespace {

class Grid {
public:
  Grid(std::size_t rows, std::size_t columns) : columns_(columns), cells_(rows * columns, 0.0) {}
  double& operator()(std::size_t i, std::size_t j) { return cells_[i * columns_ + j]; }
  double operator()(std::size_t i, std::size_t j) const { return cells_[i * columns_ + j]; }

private:
  std::size_t columns_;
  std::vector<double> cells_;
};

// State (i, j): i coats of the reference and j of the other are used up. At j = 0 the other has not begun.
class Aligner {
public:
  Aligner(const std::vector<ComparedCoat>& reference, const std::vector<ComparedCoat>& other,
          const AlignFigures& figures)
      : figures_(figures),
        n_(reference.size()),
        m_(other.size()),
        match_(n_, m_),
        rest_(n_ + 1, m_ + 1),
        come_(n_ + 1, m_ + 1),
        alone_(n_ + 1, m_ + 1) {
    const double both = 1 - figures.skipped - figures.extra;
    for (std::size_t i = 0; i < n_; ++i)
      for (std::size_t j = 0; j < m_; ++j) match_(i, j) = both * likelihood(reference[i], other[j], figures);
  }

  Alignment run() {
    sum_backward();
    sum_forward();
    sum_unmatched();
    Alignment out;
    starts(out);
    best(out);
    return out;
  }

private:
  double ending(std::size_t i) const { return i == n_ ? 1 : figures_.top_lost; }

  // rest_(i, j): weight of all ways on from a state in which the other has begun.
  void sum_backward() {
    for (std::size_t i = n_ + 1; i-- > 0;)
      for (std::size_t j = m_ + 1; j-- > 0;) {
        double weight = j == m_ ? ending(i) : 0;
        if (i < n_ && j < m_) weight += match_(i, j) * rest_(i + 1, j + 1);
        if (i < n_) weight += figures_.skipped * rest_(i + 1, j);
        if (j < m_) weight += figures_.extra * rest_(i, j + 1);
        rest_(i, j) = weight;
      }
  }

  // Weight with which the other's first coat comes straight after i coats of the reference: from every k <= i
  // at which it can have been put in, the coats between skipped.
  double before_first(std::size_t i) const {
    double weight = 0, skipped = 1;
    for (std::size_t k = i + 1; k-- > 0; skipped *= figures_.first_skipped) weight += skipped;
    return weight;
  }

  double from_start(std::size_t i) const {
    double weight = figures_.extra * rest_(i, 1);
    if (i < n_) weight += match_(i, 0) * rest_(i + 1, 1);
    return weight;
  }

  // come_(i, j), j > 0: weight of all ways to a state.
  void sum_forward() {
    for (std::size_t j = 1; j <= m_; ++j)
      for (std::size_t i = 0; i <= n_; ++i) {
        const auto origin = [&](std::size_t at) { return j == 1 ? before_first(at) : come_(at, j - 1); };
        double weight = figures_.extra * origin(i);
        if (i > 0) weight += match_(i - 1, j - 1) * (origin(i - 1) + (i == 1 && j > 1 ? 1 : 0));
        if (i > 0) weight += figures_.skipped * come_(i - 1, j);
        come_(i, j) = weight;
      }
  }

  void starts(Alignment& out) {
    out.after.assign(n_ + 1, 0);
    for (std::size_t k = 0; k <= n_; ++k) {
      double skipped = 1;
      for (std::size_t i = k; i <= n_; ++i, skipped *= figures_.first_skipped) {
        const double none = figures_.extra * alone_(i, 1);
        out.after[k] += skipped * std::max(0.0, from_start(i) - none);
        out.unlike += skipped * none;
      }
    }
    for (std::size_t j = 1; j < m_; ++j) out.reference_later += match_(0, j) * rest_(1, j + 1);
    total_ = out.unlike + out.reference_later;
    for (const double weight : out.after) total_ += weight;
    for (double& weight : out.after) weight /= total_;
    out.unlike /= total_;
    out.reference_later /= total_;
    out.k = static_cast<std::size_t>(
        std::distance(out.after.begin(), std::max_element(out.after.begin(), out.after.end())));
  }

  // alone_(i, j), j > 0: weight of the ways on from a state that match nothing.
  void sum_unmatched() {
    for (std::size_t i = n_ + 1; i-- > 0;)
      for (std::size_t j = m_; j > 0; --j) {
        double weight = j == m_ ? ending(i) : figures_.extra * alone_(i, j + 1);
        if (i < n_) weight += figures_.skipped * alone_(i + 1, j);
        alone_(i, j) = weight;
      }
  }

  // The single way of most weight, from the top down; ties go to matches, then to coats of the reference.
  void best(Alignment& out) {
    Grid way(n_ + 1, m_ + 1);
    for (std::size_t i = n_ + 1; i-- > 0;)
      for (std::size_t j = m_ + 1; j-- > 0;) way(i, j) = best_of(way, i, j);
    std::size_t i = 0, j = 0;
    double most = -1;
    for (std::size_t k = 0; k <= n_; ++k) offer(first_weight(way, k, 0), k, 0, most, i, j);
    for (std::size_t other = 1; other < m_; ++other)
      offer(match_(0, other) * way(1, other + 1), 0, other, most, i, j);
    while (i < n_ || j < m_) {
      const double matched = i < n_ && j < m_ ? match_(i, j) * way(i + 1, j + 1) : -1;
      const double skipped = i < n_ && j > 0 ? figures_.skipped * way(i + 1, j) : -1;
      const double extra = j < m_ ? figures_.extra * way(i, j + 1) : -1;
      if (j == m_ && ending(i) > skipped) break;
      if (matched >= skipped && matched >= extra) {
        out.best.push_back({i, j, pair_probability(i, j)});
        ++i, ++j;
      } else if (skipped >= extra) {
        ++i;
      } else {
        ++j;
      }
    }
  }

  double best_of(const Grid& way, std::size_t i, std::size_t j) const {
    double weight = j == m_ ? ending(i) : 0;
    if (i < n_ && j < m_) weight = std::max(weight, match_(i, j) * way(i + 1, j + 1));
    if (i < n_) weight = std::max(weight, figures_.skipped * way(i + 1, j));
    if (j < m_) weight = std::max(weight, figures_.extra * way(i, j + 1));
    return weight;
  }

  double first_weight(const Grid& way, std::size_t i, std::size_t j) const {
    double weight = figures_.extra * way(i, j + 1);
    if (i < n_) weight = std::max(weight, match_(i, j) * way(i + 1, j + 1));
    return weight;
  }

  static void offer(double weight, std::size_t i, std::size_t j, double& most, std::size_t& at_i,
                    std::size_t& at_j) {
    if (weight <= most) return;
    most = weight;
    at_i = i;
    at_j = j;
  }

  double pair_probability(std::size_t i, std::size_t j) const {
    const double come = j == 0 ? before_first(i) : come_(i, j) + (i == 0 ? 1 : 0);
    return std::min(1.0, come * match_(i, j) * rest_(i + 1, j + 1) / total_);
  }

  const AlignFigures& figures_;
  std::size_t n_, m_;
  Grid match_, rest_, come_, alone_;
  double total_ = 1;
};

double pigment_factor(const ComparedCoat& a, const ComparedCoat& b) {
  if (a.pigments.empty() || b.pigments.empty()) return 1;
  const bool shared = std::any_of(a.pigments.begin(), a.pigments.end(), [&](const std::string& one) {
    return std::find(b.pigments.begin(), b.pigments.end(), one) != b.pigments.end();
  });
  return shared ? 1.5 : 0.4;
}

}  // namespace

Apart apart(const ComparedCoat& a, const ComparedCoat& b, const AlignFigures& figures) {
  const double spread = std::max(a.spread, b.spread);
  const bool both_measured = a.measured && b.measured;
  if (a.colour && b.colour && !both_measured)
    return {godlove(*a.colour, *b.colour), figures.sigma * spread, figures.broad, true};
  const double sigma = both_measured ? figures.sigma_measured : figures.sigma_mixed;
  return {ciede2000(a.lab, b.lab), sigma * spread, figures.broad_measured, false};
}

// The ratio of two Rayleigh densities, so that perfect agreement counts most.
double likelihood(const ComparedCoat& a, const ComparedCoat& b, const AlignFigures& figures) {
  const Apart found = apart(a, b, figures);
  const double ratio = found.broad / found.sigma;
  const double narrow = 1 / (found.sigma * found.sigma), wide = 1 / (found.broad * found.broad);
  const double exponent = -found.difference * found.difference / 2 * (narrow - wide);
  double factor = ratio * ratio * std::exp(exponent) * pigment_factor(a, b);
  if (a.dirt_below && b.dirt_below) factor *= 1.5;
  if (a.dirt_below != b.dirt_below) factor *= 0.9;
  return factor;
}

std::optional<Alignment> align(const std::vector<ComparedCoat>& reference,
                               const std::vector<ComparedCoat>& other, const AlignFigures& figures) {
  if (reference.empty() || other.empty()) return std::nullopt;
  if (reference.size() > kMostCoats || other.size() > kMostCoats)
    fail(ErrorKind::invalid, "a sequence has more than " + std::to_string(kMostCoats) +
                                 " coats to compare; split it into the generations it belongs to");
  return Aligner(reference, other, figures).run();
}

}  // namespace lathbook::finishes
