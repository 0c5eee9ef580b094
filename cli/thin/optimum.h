// SPDX-License-Identifier: GPL-3.0-or-later
// Smallest value of a function under bounds, linear limits and limits of its own; few evaluations.
#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace felloe {

/// What may change. Best scaled so that all variables are of one size.
struct Variable {
  std::string name;
  double start = 0, low = 0, high = 0;
};

/// Sum of coefficient times variable, at most `largest`.
struct LinearLimit {
  std::vector<std::pair<int, double>> terms;
  double largest = 0;
};

/// One point: the objective and limits that must not exceed zero; both of size about 1.
struct Evaluation {
  double objective = 0;
  std::vector<double> limits;
  std::vector<double> gradient;                        ///< of the objective, when asked for
  std::vector<std::vector<double>> limit_gradients{};  ///< [limit][variable], when asked for
};

struct OptimumProblem {
  std::vector<Variable> variables;
  std::vector<LinearLimit> linear;
  std::size_t n_limits = 0;
  /// `gradients` false: the caller needs none; true may follow for the same point.
  std::function<Evaluation(const std::vector<double> &x, bool gradients)> evaluate;
};

struct OptimumRules {
  int max_evaluations = 60;       ///< distinct points
  double first_move = 0.3;        ///< most that a step may change a variable, relative to its range
  double step_tolerance = 1e-3;   ///< change of the variables, relative to their range, at the end
  double limit_tolerance = 1e-3;  ///< by which a limit may be exceeded at the end
};

/// One evaluated point, in order.
struct OptimumStep {
  std::vector<double> x;
  double objective = 0;
  double worst_limit = 0;  ///< the largest of all limits, linear ones included
};

struct Optimum {
  std::vector<double> x;  ///< the best point found
  Evaluation at;          ///< there
  bool feasible = false;  ///< it keeps all limits
  std::string ended;      ///< why the search stopped, for people
  std::vector<OptimumStep> steps;
};

/// A point is evaluated once without gradients, and once more with them when the search goes on
/// from there. Throws Error when a variable's bounds exclude each other; errors of evaluate() pass
/// through. NLopt's SLSQP solves the steps (D. Kraft, ACM Trans. Math. Softw. 20 (1994) 262). On
/// the limits themselves it would jump to the bounds at first, and not find back.
Optimum smallest(const OptimumProblem &, const OptimumRules &);

}  // namespace felloe
