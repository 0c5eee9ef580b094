// SPDX-License-Identifier: GPL-3.0-or-later
// NLopt asks for objective and limits one after the other; here every point is evaluated once.
#include "cli/thin/optimum.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <nlopt.hpp>

#include "mesher/error.h"

namespace felloe {
namespace {

double excess(const LinearLimit &limit, const std::vector<double> &x) {
  double sum = -limit.largest;
  for (const auto &[i, factor] : limit.terms) sum += factor * x[i];
  return sum;
}

/// Remembers the latest point and every step; stops the search when the points are used up.
class Points {
 public:
  Points(const OptimumProblem &problem, const OptimumRules &rules)
      : problem_(problem), rules_(rules) {}

  /// In the scaled variables of the search: 0 at the lower bound, 1 at the upper one.
  const Evaluation &at(const std::vector<double> &scaled, bool gradients) {
    const std::vector<double> x = plain(scaled);
    if (x != x_) {
      if (static_cast<int>(steps.size()) >= rules_.max_evaluations) throw nlopt::forced_stop();
      now_ = {};
      x_ = x;
      now_ = problem_.evaluate(x, gradients);
      has_gradients_ = gradients;
      keep();
    } else if (gradients && !has_gradients_) {
      now_ = problem_.evaluate(x, true);
      has_gradients_ = true;
    }
    return now_;
  }

  std::vector<double> plain(const std::vector<double> &scaled) const {
    std::vector<double> x;
    for (std::size_t i = 0; i < scaled.size(); ++i)
      x.push_back(problem_.variables[i].low + range(i) * scaled[i]);
    return x;
  }
  /// A variable that may not move keeps a range of 1 so that nothing divides by zero.
  double range(std::size_t i) const {
    const double r = problem_.variables[i].high - problem_.variables[i].low;
    return r > 0 ? r : 1;
  }

  Optimum best;
  std::vector<OptimumStep> steps;
  std::exception_ptr failure;  ///< of evaluate(); NLopt would replace it by one of its own

 private:
  void keep() {
    double worst = now_.limits.empty() ? -std::numeric_limits<double>::max()
                                       : *std::max_element(now_.limits.begin(), now_.limits.end());
    for (const LinearLimit &limit : problem_.linear) worst = std::max(worst, excess(limit, x_));
    steps.push_back({x_, now_.objective, worst});
    const bool feasible = worst <= rules_.limit_tolerance;
    const bool better = best.x.empty() || (feasible && !best.feasible) ||
                        (feasible == best.feasible &&
                         (feasible ? now_.objective < best.at.objective : worst < best_worst_));
    if (!better) return;
    best.x = x_;
    best.at = now_;
    best.at.gradient.clear();
    best.at.limit_gradients.clear();
    best.feasible = feasible;
    best_worst_ = worst;
  }

  const OptimumProblem &problem_;
  const OptimumRules &rules_;
  std::vector<double> x_;
  Evaluation now_;
  bool has_gradients_ = false;
  double best_worst_ = 0;
};

const Evaluation &evaluated(Points &points, const std::vector<double> &scaled, bool gradients) {
  try {
    return points.at(scaled, gradients);
  } catch (const nlopt::forced_stop &) {
    throw;
  } catch (...) {
    points.failure = std::current_exception();
    throw nlopt::forced_stop();
  }
}

double objective(const std::vector<double> &scaled, std::vector<double> &gradient, void *data) {
  Points &points = *static_cast<Points *>(data);
  const Evaluation &e = evaluated(points, scaled, !gradient.empty());
  for (std::size_t i = 0; i < gradient.size(); ++i) gradient[i] = e.gradient[i] * points.range(i);
  return e.objective;
}

struct LimitsAsked {
  Points *points;
  const OptimumProblem *problem;
};

/// The problem's own limits, then the linear ones.
void all_limits(unsigned, double *result, unsigned n, const double *x, double *gradient,
                void *data) {
  const auto &asked = *static_cast<LimitsAsked *>(data);
  const std::vector<double> scaled(x, x + n);
  const Evaluation &e = evaluated(*asked.points, scaled, gradient != nullptr);
  std::copy(e.limits.begin(), e.limits.end(), result);
  const std::vector<double> plain = asked.points->plain(scaled);
  const std::size_t n_own = e.limits.size();
  for (std::size_t k = 0; k < asked.problem->linear.size(); ++k)
    result[n_own + k] = excess(asked.problem->linear[k], plain);
  if (!gradient) return;
  for (std::size_t k = 0; k < n_own; ++k)
    for (unsigned i = 0; i < n; ++i)
      gradient[k * n + i] = e.limit_gradients[k][i] * asked.points->range(i);
  for (std::size_t k = 0; k < asked.problem->linear.size(); ++k) {
    std::fill_n(gradient + (n_own + k) * n, n, 0.0);
    for (const auto &[i, factor] : asked.problem->linear[k].terms)
      gradient[(n_own + k) * n + i] += factor * asked.points->range(i);
  }
}

void check(const OptimumProblem &problem) {
  for (const Variable &v : problem.variables)
    if (!(v.low <= v.high) || !std::isfinite(v.start))
      throw Error(v.name + ": starts at " + std::to_string(v.start) + " between " +
                  std::to_string(v.low) + " and " + std::to_string(v.high) +
                  ": these bounds exclude each other; widen them");
}

}  // namespace

Optimum smallest(const OptimumProblem &problem, const OptimumRules &rules) {
  check(problem);
  const std::size_t n = problem.variables.size();
  Points points(problem, rules);
  std::vector<double> scaled, low(n, 0.0), high;
  for (std::size_t i = 0; i < n; ++i) {
    const Variable &v = problem.variables[i];
    high.push_back(v.high > v.low ? 1 : 0);
    scaled.push_back(std::clamp((v.start - v.low) / points.range(i), 0.0, high.back()));
  }
  nlopt::opt search(nlopt::LD_SLSQP, static_cast<unsigned>(n));
  search.set_lower_bounds(low);
  search.set_upper_bounds(high);
  search.set_min_objective(objective, &points);
  LimitsAsked asked{&points, &problem};
  const std::size_t n_limits = problem.n_limits + problem.linear.size();
  if (n_limits > 0)
    search.add_inequality_mconstraint(all_limits, &asked,
                                      std::vector<double>(n_limits, 0.1 * rules.limit_tolerance));
  search.set_xtol_abs(rules.step_tolerance);
  search.set_ftol_rel(0.1 * rules.step_tolerance);
  double value = 0;
  std::string ended;
  try {
    const nlopt::result code = search.optimize(scaled, value);
    ended =
        code == nlopt::FTOL_REACHED ? "the objective stands still" : "the variables stand still";
  } catch (const nlopt::roundoff_limited &) {
    ended = "no further step is possible";
  } catch (const nlopt::forced_stop &) {
    ended = "all " + std::to_string(rules.max_evaluations) + " evaluations are used up";
  } catch (const std::runtime_error &) {
    ended = "no further step was found";  // SLSQP: limits that contradict each other at one point
  }
  if (points.failure) std::rethrow_exception(points.failure);
  if (points.steps.empty()) throw Error("optimum: not one point could be evaluated");
  Optimum result = std::move(points.best);
  result.ended = ended;
  result.steps = std::move(points.steps);
  return result;
}

}  // namespace felloe
