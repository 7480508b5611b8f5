// Whether draws can be trusted, and what they say.
#pragma once

#include <cstddef>
#include <vector>

namespace lathbook::chances {

/// Draws of one quantity: one row a chain, all of one length (at least 8).
using Draws = std::vector<std::vector<double>>;

/// The greater of split R-hat on ranks and on folded ranks; 1 where nothing varies.
/// A. Vehtari, A. Gelman, D. Simpson, B. Carpenter, P.-C. Bürkner, 'Rank-normalization, folding, and
/// localization: an improved R-hat for assessing convergence of MCMC', Bayesian Analysis 16, 2021, 667-718.
double split_r_hat(const Draws& draws);

/// Effective number of independent draws: of the ranks (bulk), or of the values as they are, as the error of
/// their mean wants. Split chains, initial monotone sequence (C. Geyer, Statistical Science 7, 1992,
/// 473-483). Correlations are followed over 400 draws at most; a chain slower than that has fewer than it
/// says, and few as it says. 0 where nothing varies.
double effective_draws(const Draws& draws, bool of_ranks);

/// Narrowest stretch that holds this share of the draws (R. Hyndman, 'Computing and graphing highest density
/// regions', The American Statistician 50, 1996, 120-126). The body drawn from is convex and evenly filled,
/// so every date has one hump and one stretch is enough.
struct Stretch {
  double low = 0;
  double high = 0;
};
Stretch narrowest(const Draws& draws, double share);

/// The value below which this share of the draws lies.
double quantile(const Draws& draws, double share);

}  // namespace lathbook::chances
