// SPDX-License-Identifier: GPL-3.0-or-later
// Maximum likelihood for a line with scatter through values of which some are only known to be
// exceeded (run-outs).
#pragma once
#include <vector>

namespace felloe {

/// How y scatters round its line: normal (y = log life: lognormal lives), or smallest extreme value
/// (y = ln life: Weibull lives).
enum class LogDistribution { normal, smallest_extreme };

/// y_i = x_i . beta + scale e_i; of a run-out only y >= y_i is known.
struct CensoredSample {
  std::vector<std::vector<double>> x;  ///< one row an observation, columns as beta
  std::vector<double> y;
  std::vector<bool> run_out;
};

struct CensoredFit {
  LogDistribution distribution = LogDistribution::normal;
  std::vector<double> beta;
  double scale = 0;           ///< standard deviation of y (normal), 1 / Weibull shape (extreme)
  double log_likelihood = 0;  ///< of y, not of the life
  /// Of beta and scale, from the curvature of the log-likelihood at its top.
  std::vector<std::vector<double>> covariance;
};

/// log L = sum over failures ln(f(z) / scale) + sum over run-outs ln(1 - F(z)), z = (y - x beta) /
/// scale. Error when the sample cannot tell beta and scale: fewer failures than unknowns, a column
/// that the others repeat, failures without scatter.
/// Source: W. B. Nelson, Accelerated Testing (from memory). Test: CensoredFit.*
CensoredFit censored_fit(const CensoredSample &, LogDistribution);

struct Bounds {
  double low = 0, high = 0;
};

/// Where c . (beta, scale) lies with the given two-sided confidence: all values v for which the
/// best log-likelihood under c . (beta, scale) = v stays within chi2(1) / 2 of the top (likelihood
/// ratio). One of the coefficients of beta must not vanish. An end that the sample does not bound
/// is infinite.
Bounds likelihood_bounds(const CensoredSample &, const CensoredFit &, const std::vector<double> &c,
                         double confidence);

/// Standardised p quantile: z with F(z) = p.
double standard_quantile(LogDistribution, double p);

}  // namespace felloe
