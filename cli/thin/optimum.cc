// SPDX-License-Identifier: GPL-3.0-or-later
// A sequence of convex approximations, each made from one evaluated point and solved by NLopt.
//
// Thickness acts on stress roughly as 1 / t or 1 / t^2. A limit that falls with a variable is
// therefore linear in its reciprocal, one that rises is linear in the variable itself: convex
// (Fleury and Braibant, Int. J. Numer. Meth. Eng. 23 (1986) 409). Steps keep within move bounds
// that shrink when the point found is no better.
#include "cli/thin/optimum.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <nlopt.hpp>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Price of exceeding a limit by 1, over the objective's size of 1: above any multiplier met.
constexpr double price = 10;

/// Value and gradient around a point, put together for one step.
class Approximation {
 public:
  Approximation(const OptimumProblem &problem, const std::vector<double> &x, const Evaluation &e)
      : problem_(problem), x0_(x), at_(e) {}

  /// The last unknown is the excess that all limits are allowed, so that there always is a
  /// solution.
  double objective(const std::vector<double> &x, std::vector<double> &gradient) const {
    const std::size_t n = x0_.size();
    double value = at_.objective;
    for (std::size_t i = 0; i < n; ++i) {
      value += at_.gradient[i] * (x[i] - x0_[i]);
      if (!gradient.empty()) gradient[i] = at_.gradient[i];
    }
    if (x.size() == n) return value;
    if (!gradient.empty()) gradient[n] = price;
    return value + price * x[n];
  }

  void limits(const double *x, std::size_t width, double *result, double *gradient) const {
    const std::size_t n = x0_.size();
    const double allowed = width > n ? x[n] : 0;
    for (std::size_t k = 0; k < at_.limits.size(); ++k) {
      result[k] = at_.limits[k] - allowed;
      for (std::size_t i = 0; i < n; ++i) {
        const double g = at_.limit_gradients[k][i];
        // distance from where the reciprocal would grow without bound
        const double pole = problem_.variables[i].low > 0 ? 0 : 2 * problem_.variables[i].low - 1;
        const double from = x0_[i] - pole, to = x[i] - pole;
        result[k] += g < 0 ? g * from * (1 - from / to) : g * (to - from);
        if (gradient) gradient[k * width + i] = g < 0 ? g * from * from / (to * to) : g;
      }
      if (gradient && width > n) gradient[k * width + n] = -1;
    }
    for (std::size_t l = 0; l < problem_.linear.size(); ++l) {
      const LinearLimit &limit = problem_.linear[l];
      const std::size_t k = at_.limits.size() + l;
      result[k] = -limit.largest - allowed;
      if (gradient) std::fill_n(gradient + k * width, n, 0.0);
      for (const auto &[i, factor] : limit.terms) {
        result[k] += factor * x[i];
        if (gradient) gradient[k * width + i] += factor;
      }
      if (gradient && width > n) gradient[k * width + n] = -1;
    }
  }

  /// The best point within `move` of each variable's range.
  std::vector<double> best(double move) const {
    const std::size_t n = x0_.size(), n_limits = at_.limits.size() + problem_.linear.size();
    std::vector<double> low, high, x = x0_;
    for (std::size_t i = 0; i < n; ++i) {
      const Variable &v = problem_.variables[i];
      low.push_back(std::max(v.low, x0_[i] - move * (v.high - v.low)));
      high.push_back(std::min(v.high, x0_[i] + move * (v.high - v.low)));
    }
    std::vector<double> now(n_limits);
    limits(x.data(), n, now.data(), nullptr);
    const double excess = now.empty() ? 0 : *std::max_element(now.begin(), now.end());
    if (excess > 1e-6) {
      x.push_back(excess);
      low.push_back(0);
      high.push_back(2 * excess);
    }
    nlopt::opt search(nlopt::LD_SLSQP, static_cast<unsigned>(x.size()));
    search.set_lower_bounds(low);
    search.set_upper_bounds(high);
    search.set_min_objective(
        [](const std::vector<double> &at, std::vector<double> &gradient, void *self) {
          return static_cast<const Approximation *>(self)->objective(at, gradient);
        },
        const_cast<Approximation *>(this));
    if (n_limits > 0)
      search.add_inequality_mconstraint(
          [](unsigned, double *result, unsigned width, const double *at, double *gradient,
             void *self) {
            static_cast<const Approximation *>(self)->limits(at, width, result, gradient);
          },
          const_cast<Approximation *>(this), std::vector<double>(n_limits, 1e-9));
    search.set_xtol_rel(1e-9);
    search.set_maxeval(1000);
    // a stalled line search starts afresh from where it stood
    for (int start = 0; start < 20; ++start) {
      const std::vector<double> before = x;
      double value = 0;
      try {
        search.optimize(x, value);
      } catch (const nlopt::roundoff_limited &) {  // as good as it gets
      } catch (const std::runtime_error &) {       // the same, in SLSQP's words
      }
      double moved = 0;
      for (std::size_t i = 0; i < n; ++i) moved = std::max(moved, std::abs(x[i] - before[i]));
      if (moved < 1e-8) break;
    }
    x.resize(n);
    for (std::size_t i = 0; i < n; ++i) x[i] = std::clamp(x[i], low[i], high[i]);
    return x;
  }

 private:
  const OptimumProblem &problem_;
  const std::vector<double> &x0_;
  const Evaluation &at_;
};

double worst_limit(const OptimumProblem &problem, const std::vector<double> &x,
                   const Evaluation &e) {
  double worst = -std::numeric_limits<double>::max();
  for (const double limit : e.limits) worst = std::max(worst, limit);
  for (const LinearLimit &limit : problem.linear) {
    double sum = -limit.largest;
    for (const auto &[i, factor] : limit.terms) sum += factor * x[i];
    worst = std::max(worst, sum);
  }
  return worst;
}

std::vector<double> start_of(const OptimumProblem &problem) {
  std::vector<double> x;
  for (const Variable &v : problem.variables) {
    if (!(v.low <= v.high) || !std::isfinite(v.start))
      throw Error(v.name + ": starts at " + std::to_string(v.start) + " between " +
                  std::to_string(v.low) + " and " + std::to_string(v.high) +
                  ": these bounds exclude each other; widen them");
    x.push_back(std::clamp(v.start, v.low, v.high));
  }
  return x;
}

/// Largest change of a variable over its range.
double change(const OptimumProblem &problem, const std::vector<double> &a,
              const std::vector<double> &b) {
  double largest = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double range = problem.variables[i].high - problem.variables[i].low;
    if (range > 0) largest = std::max(largest, std::abs(a[i] - b[i]) / range);
  }
  return largest;
}

}  // namespace

Optimum smallest(const OptimumProblem &problem, const OptimumRules &rules) {
  Optimum o;
  o.x = start_of(problem);
  const auto merit = [&](const OptimumStep &s) {
    return s.objective + price * std::max(0.0, s.worst_limit);
  };
  const auto evaluated = [&](const std::vector<double> &x, bool gradients) {
    const Evaluation e = problem.evaluate(x, gradients);
    o.steps.push_back({x, e.objective, worst_limit(problem, x, e)});
    return e;
  };
  o.at = evaluated(o.x, true);
  OptimumStep here = o.steps.back();
  double move = rules.first_move;
  o.ended = "all " + std::to_string(rules.max_evaluations) + " evaluations are used up";
  while (static_cast<int>(o.steps.size()) < rules.max_evaluations) {
    const std::vector<double> x = Approximation(problem, o.x, o.at).best(move);
    const double step = change(problem, x, o.x);
    const bool keeps_limits = here.worst_limit <= rules.limit_tolerance;
    if (step < (keeps_limits ? 1 : 1e-3) * rules.step_tolerance) {
      o.ended = "the variables stand still";
      break;
    }
    Evaluation e = evaluated(x, false);
    if (merit(o.steps.back()) > merit(here) + 0.1 * rules.step_tolerance) {
      move = 0.4 * std::min(move, step);
      continue;
    }
    const bool settled =
        here.worst_limit <= rules.limit_tolerance &&
        o.steps.back().worst_limit <= rules.limit_tolerance &&
        std::abs(o.steps.back().objective - here.objective) < 0.1 * rules.step_tolerance;
    here = o.steps.back();
    o.x = x;
    if (settled) {
      o.at = std::move(e);
      o.ended = "the objective stands still";
      break;
    }
    o.at = problem.evaluate(x, true);  // the same point: no further step
    move = std::min(rules.first_move, 1.5 * move);
  }
  o.feasible = here.worst_limit <= rules.limit_tolerance;
  return o;
}

}  // namespace felloe
