// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/load_sides.h"

#include <algorithm>
#include <atomic>
#include <mutex>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// A residual above this asks for a step of iterative refinement. Thin bodies end near 1e-9: there
/// the product K u itself cannot be rounded any better.
constexpr double refine_above = 1e-8;

/// Loads whose products K u are made together: their copies of a piece fill its vectors of eight.
constexpr int most_together = 4;

/// All loads on the way through the solve.
class Loads {
 public:
  Loads(const FactoredBody &factor, const ConstraintMap &map, const Body &body,
        const std::vector<LoadCase> &cases, const std::vector<LoadSides> &sides, double extent)
      : factor_(factor),
        map_(map),
        body_(body),
        cases_(cases),
        sides_(sides),
        extent_(extent),
        size_(cases.size()) {}

  void solve(const TakeSolved &);

 private:
  /// What one solve shall do for a load: what is left of it, on top of what moves already.
  struct Step {
    int load;
    NodalLoad rest;
    NodalResponse before;
  };

  Step first_step(int load);
  NodalLoad rest(int load, SparseVector force) const;
  /// Hands over what has come out; a load that is worth it comes back with what is left of it.
  std::vector<Step> solve(std::vector<Step>, bool is_last, const TakeSolved &) const;
  void finish(const Step &, const NodalResponse &, SolvedLoad &) const;

  const FactoredBody &factor_;
  const ConstraintMap &map_;
  const Body &body_;
  const std::vector<LoadCase> &cases_;
  const std::vector<LoadSides> &sides_;
  double extent_;
  std::vector<double> size_;  ///< of each load, with what its offsets call for
};

NodalLoad Loads::rest(int load, SparseVector force) const {
  const auto &[push, moment] = cases_[load].adapter;
  return {std::move(force), {push[0], push[1], push[2], moment[0], moment[1], moment[2]}};
}

Loads::Step Loads::first_step(int load) {
  const auto &[f, offset] = sides_[load];
  Step step{load, rest(load, f), {offset, {}}};
  if (!offset.empty()) {
    std::vector<double> left = body_.multiply(offset);
    for (double &v : left) v = -v;
    add_to(f, left.data());
    step.rest.force = non_zeros(left);
  }
  size_[load] = reduced_residual(map_, step.rest.force, cases_[load], extent_);
  return step;
}

void add(const std::vector<double> &more, std::vector<double> &to) {
  for (std::size_t i = 0; i < more.size(); ++i) to[i] += more[i];
}

/// The response on top of what was there before, and both sides of K u = f; K u is there already.
void Loads::finish(const Step &step, const NodalResponse &response, SolvedLoad &s) const {
  s.load.resize(s.internal.size());  // zero between two loads
  add_to(sides_[step.load].load, s.load.data());
  for (int m = 0; m < 6; ++m) s.motion[m] = step.before.motion[m] + response.motion[m];
  const double left = reduced_residual(map_, s.load, s.internal, cases_[step.load], extent_);
  s.residual = size_[step.load] > 0 ? left / size_[step.load] : left;
}

std::vector<Loads::Step> Loads::solve(std::vector<Step> steps, bool is_last,
                                      const TakeSolved &take) const {
  std::vector<NodalLoad> rests;
  for (Step &step : steps) rests.push_back(std::move(step.rest));
  const auto responses = factor_.solve(rests);
  rests.clear();
  std::vector<Step> again;
  std::mutex of_again;
  const int n = static_cast<int>(steps.size());
  const int together = std::clamp(n / n_threads(), 1, most_together);
  std::atomic<int> next{0};
  in_parallel([&](int) {
    std::vector<NodalResponse> response(together);
    std::vector<std::vector<double>> products(together);
    SolvedLoad solved;
    for (int first = next.fetch_add(together); first < n; first = next.fetch_add(together)) {
      const int count = std::min(together, n - first);
      std::vector<const std::vector<double> *> displacements;
      for (int k = 0; k < count; ++k) {
        responses->put(first + k, response[k]);
        add(steps[first + k].before.displacement, response[k].displacement);
        displacements.push_back(&response[k].displacement);
      }
      body_.multiply(displacements, products);
      for (int k = 0; k < count; ++k) {
        const Step &step = steps[first + k];
        solved.displacement.swap(response[k].displacement);
        solved.internal.swap(products[k]);
        finish(step, response[k], solved);
        if (is_last || solved.residual <= refine_above) {
          take(step.load, solved);
        } else {
          std::vector<double> left = solved.load;
          for (std::size_t i = 0; i < left.size(); ++i) left[i] -= solved.internal[i];
          const std::lock_guard lock(of_again);
          again.push_back(
              {step.load, rest(step.load, non_zeros(left)), {solved.displacement, solved.motion}});
        }
        clear(sides_[step.load].load, solved.load.data());
        solved.displacement.swap(response[k].displacement);
        solved.internal.swap(products[k]);
      }
    }
  });
  return again;
}

void Loads::solve(const TakeSolved &take) {
  std::vector<Step> steps(cases_.size());
  parallel_for(0, static_cast<int>(steps.size()), [&](int l) { steps[l] = first_step(l); });
  std::vector<Step> again = solve(std::move(steps), false, take);
  if (!again.empty()) solve(std::move(again), true, take);
}

}  // namespace

LoadSides sides_at_rest(const Mesh &mesh, const std::vector<Axes> &axes, const ConstraintMap &map,
                        const LoadCase &load) {
  LoadSides s;
  static thread_local std::vector<Vec3> forces;  // a thread has many loads
  nodal_forces(mesh, load, forces);
  for (std::size_t n = 0; n < forces.size(); ++n) {
    if (forces[n] == Vec3{}) continue;
    const Vec3 components = along(axes[n], forces[n]);
    for (int i = 0; i < 3; ++i)
      if (components[i] != 0) s.load.append(static_cast<int>(3 * n + i), components[i]);
  }
  if (!map.any_held_value && load.held_motion.empty() &&
      (load.interference == 0 || map.tie_shift.empty()))
    return s;
  s.offset = offsets(map, load.interference);
  for (const auto &[node, motion] : load.held_motion) {
    const Vec3 components = along(axes[node], motion);
    for (int i = 0; i < 3; ++i)
      if (map.unknown[3L * node + i] == ConstraintMap::held)
        s.offset[3L * node + i] += components[i];
  }
  return s;
}

void solve_sides(const FactoredBody &factor, const ConstraintMap &map, const Body &body,
                 const std::vector<LoadCase> &loads, const std::vector<LoadSides> &sides,
                 double extent, const TakeSolved &take) {
  Loads(factor, map, body, loads, sides, extent).solve(take);
}

}  // namespace felloe::detail
