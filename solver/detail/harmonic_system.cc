// SPDX-License-Identifier: GPL-3.0-or-later
// Assembly of several harmonics at once from K_0, K_1, K_2; solution and checks.
#include "solver/detail/harmonic_system.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {
namespace {

template <class T>
double product(const LaneArray<T> &a, const LaneArray<T> &b, std::size_t l) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += lane(a[i], l) * lane(b[i], l);
  return sum;
}

/// Where numbers of one cell go: position of each independent unknown's group-mates is looked up
/// once.
struct Target {
  int position;
  double factor;
};

}  // namespace

std::string place_of(const HarmonicLoad &load) {
  return "harmonic load '" + load.name + "' (n = " + std::to_string(load.n) + ")";
}

HarmonicSection::HarmonicSection(SectionMesh m, const std::map<Part, Material> &materials)
    : mesh(std::move(m)), cells(mesh.cells.size()) {
  for (std::size_t c = 0; c < cells.size(); ++c)
    cells[c] = harmonic_cell(mesh, static_cast<int>(c), materials.at(mesh.parts[c]));
}

bool alike(const HarmonicConstraints &a, const HarmonicConstraints &b, std::size_t n_unknowns) {
  if (a.n_free() != b.n_free() || a.adapter() != b.adapter()) return false;
  for (std::size_t i = 0; i < n_unknowns; ++i) {
    const auto &x = a.row(static_cast<int>(i)), &y = b.row(static_cast<int>(i));
    if (x.size != y.size || a.held(static_cast<int>(i)) != b.held(static_cast<int>(i)))
      return false;
    for (int k = 0; k < x.size; ++k)
      if (x.index[k] != y.index[k] || x.factor[k] != y.factor[k]) return false;
  }
  return true;
}

/// Everything that one pass of loads has, by nodal unknown.
template <class T>
struct HarmonicSystem<T>::Sides {
  std::vector<const HarmonicForces *> loads;  ///< of each lane, or none
  LaneArray<T> forces, given, u, internal;
  LaneArray<T> load, q, rest, correction;  ///< by position
  bool any_given = false;
};

template <class T>
HarmonicSystem<T>::HarmonicSystem(const HarmonicSection &section,
                                  const std::vector<const HarmonicTask *> &tasks)
    : section_(section), tasks_(tasks), relations_(*tasks.front()->constraints) {
  for (std::size_t l = 0; l < n_lanes_of<T>; ++l) {  // lanes to spare repeat the first harmonic
    const int n = tasks_[l < tasks_.size() ? l : 0]->n;
    lane(n_, l) = n;
    lane(factor_of_theta_, l) = theta_factor(n);
  }
  if (relations_.n_free() == 0) return;
  factor_ = std::make_unique<LaneCholesky<T>>(plan());
  assemble();
  try {
    factor_->factor();
  } catch (const NotPositiveDefinite &e) {
    throw Error("supports: pivot ratio " + std::to_string(e.pivot_ratio) +
                " of the stiffness matrix: a motion is hardly resisted; hold more of the body");
  }
}

/// Unknowns of one node belong together; the adapter's motions form the last group.
template <class T>
std::vector<int> HarmonicSystem<T>::groups() const {
  std::vector<int> group(relations_.n_free(), -1);
  const std::array<int, 2> adapter = relations_.adapter();
  int count = 0;
  for (std::size_t node = 0; node < section_.mesh.nodes.size(); ++node) {
    bool used = false;
    for (int c = 0; c < 3; ++c) {
      const auto &row = relations_.row(static_cast<int>(3 * node) + c);
      if (row.size == 0 || group[row.index[0]] >= 0 || row.index[0] == adapter[0] ||
          row.index[0] == adapter[1])
        continue;
      group[row.index[0]] = count;
      used = true;
    }
    count += used;
  }
  for (int &g : group)
    if (g < 0) g = count;
  return group;
}

template <class T>
LanePlan HarmonicSystem<T>::plan() const {
  const std::vector<int> group = groups();
  std::vector<std::vector<int>> cliques;
  for (const auto &nodes : section_.mesh.cells) {
    cliques.emplace_back();
    for (const int node : nodes)
      for (int c = 0; c < 3; ++c) {
        const auto &row = relations_.row(3 * node + c);
        for (int k = 0; k < row.size; ++k) cliques.back().push_back(group[row.index[k]]);
      }
    std::sort(cliques.back().begin(), cliques.back().end());
    cliques.back().erase(std::unique(cliques.back().begin(), cliques.back().end()),
                         cliques.back().end());
  }
  const std::array<int, 2> adapter = relations_.adapter();
  const int last = std::max(adapter[0], adapter[1]);
  return lane_plan(group, cliques, last < 0 ? -1 : group[last]);
}

template <class T>
void HarmonicSystem<T>::assemble() {
  const LanePlan &plan = factor_->plan();
  T *values = factor_->values();
  const T n = n_ * factor_of_theta_, n2 = n_ * n, one = factor_of_theta_;
  for (std::size_t c = 0; c < section_.cells.size(); ++c) {
    const HarmonicCell &cell = section_.cells[c];
    // independent unknowns of the cell; their places in each other's columns, found once
    std::vector<int> positions;
    std::array<std::array<Target, 2>, n_local> targets{};
    std::array<int, n_local> n_targets{};
    for (int i = 0; i < n_local; ++i) {
      const auto &row = relations_.row(3 * section_.mesh.cells[c][i / 3] + i % 3);
      n_targets[i] = row.size;
      for (int k = 0; k < row.size; ++k) {
        const int position = plan.place[row.index[k]];
        auto at = std::find(positions.begin(), positions.end(), position);
        targets[i][k] = {static_cast<int>(at - positions.begin()), row.factor[k]};
        if (at == positions.end()) positions.push_back(position);
      }
    }
    const std::size_t m = positions.size();
    std::vector<long> entry(m * m, -1);
    for (std::size_t a = 0; a < m; ++a)
      for (std::size_t b = 0; b < m; ++b)
        if (positions[a] >= positions[b]) entry[a * m + b] = plan.entry(positions[a], positions[b]);
    for (int i = 0; i < 9; ++i)
      for (int j = 0; j < 9; ++j) {
        const HarmonicCell::Pair &p = cell.pairs[9 * i + j];
        const T block[9] = {one * p.uu + n2 * p.shear, n * p.uv, one * p.uw, n * p.vu,
                            one * p.vv + n2 * p.hoop,  n * p.vw, one * p.wu, n * p.wv,
                            one * p.ww + n2 * p.shear};
        for (int rc = 0; rc < 9; ++rc) {
          const int row = 3 * i + rc / 3, column = 3 * j + rc % 3;
          for (int a = 0; a < n_targets[row]; ++a)
            for (int b = 0; b < n_targets[column]; ++b) {
              const Target &x = targets[row][a], &y = targets[column][b];
              const long at = entry[x.position * m + y.position];
              if (at >= 0) values[at] += x.factor * y.factor * block[rc];
            }
        }
      }
  }
}

/// f = K u of the whole section, without constraints.
template <class T>
void HarmonicSystem<T>::multiply(const LaneArray<T> &u, LaneArray<T> &f) const {
  const T n = n_, n2 = n_ * n_;
  for (std::size_t i = 0; i < f.size(); ++i) f[i] = T{};
  for (std::size_t c = 0; c < section_.cells.size(); ++c) {
    const auto &nodes = section_.mesh.cells[c];
    for (int i = 0; i < 9; ++i) {
      T fu{}, fv{}, fw{};
      for (int j = 0; j < 9; ++j) {
        const HarmonicCell::Pair &p = section_.cells[c].pairs[9 * i + j];
        const T *at = u.data() + 3L * nodes[j];
        fu += (p.uu + n2 * p.shear) * at[0] + n * (p.uv * at[1]) + p.uw * at[2];
        fv += n * (p.vu * at[0] + p.vw * at[2]) + (p.vv + n2 * p.hoop) * at[1];
        fw += p.wu * at[0] + n * (p.wv * at[1]) + (p.ww + n2 * p.shear) * at[2];
      }
      T *to = f.data() + 3L * nodes[i];
      to[0] += factor_of_theta_ * fu;
      to[1] += factor_of_theta_ * fv;
      to[2] += factor_of_theta_ * fw;
    }
  }
}

/// u += T q.
template <class T>
void HarmonicSystem<T>::expand(const LaneArray<T> &q, LaneArray<T> &u) const {
  const std::vector<int> &place = factor_->plan().place;
  for (std::size_t i = 0; i < u.size(); ++i) {
    const auto &row = relations_.row(static_cast<int>(i));
    for (int k = 0; k < row.size; ++k) u[i] += row.factor[k] * q[place[row.index[k]]];
  }
}

/// T^T f and the adapter's loads.
template <class T>
LaneArray<T> HarmonicSystem<T>::reduced(const LaneArray<T> &forces, const Sides &s) const {
  const std::vector<int> &place = factor_->plan().place;
  LaneArray<T> q(relations_.n_free());
  for (std::size_t i = 0; i < forces.size(); ++i) {
    const auto &row = relations_.row(static_cast<int>(i));
    for (int k = 0; k < row.size; ++k) q[place[row.index[k]]] += row.factor[k] * forces[i];
  }
  const std::array<int, 2> adapter = relations_.adapter();
  for (std::size_t l = 0; l < s.loads.size(); ++l) {
    if (!s.loads[l]) continue;
    const HarmonicLoad &load = *s.loads[l]->load;
    if (adapter[0] >= 0) lane(q[place[adapter[0]]], l) += load.adapter_force;
    if (adapter[1] >= 0) lane(q[place[adapter[1]]], l) += load.adapter_moment;
  }
  return q;
}

template <class T>
typename HarmonicSystem<T>::Sides HarmonicSystem<T>::sides(std::size_t pass) const {
  const std::size_t size = 3 * section_.mesh.nodes.size();
  Sides s;
  s.forces = s.given = s.u = s.internal = LaneArray<T>(size);
  s.loads.resize(tasks_.size());
  for (std::size_t l = 0; l < tasks_.size(); ++l) {
    if (pass >= tasks_[l]->loads.size()) continue;
    s.loads[l] = &tasks_[l]->loads[pass];
    const auto given = tasks_[l]->constraints->given(s.loads[l]->load->interference);
    for (std::size_t i = 0; i < size; ++i) {
      lane(s.forces[i], l) = s.loads[l]->forces[i];
      lane(s.given[i], l) = given[i];
      s.any_given = s.any_given || given[i] != 0;
    }
  }
  s.u = s.given;
  if (s.any_given) multiply(s.u, s.internal);
  return s;
}

/// What q leaves unbalanced; u and K u on the way.
template <class T>
LaneArray<T> HarmonicSystem<T>::remainder(Sides &s) const {
  s.u = s.given;
  expand(s.q, s.u);
  multiply(s.u, s.internal);
  LaneArray<T> left = s.forces;
  for (std::size_t i = 0; i < left.size(); ++i) left[i] -= s.internal[i];
  return reduced(left, s);
}

/// Solves for the named array of all sides in one go through the factor.
template <class T>
void HarmonicSystem<T>::solve(std::vector<Sides> &all, LaneArray<T> Sides::*what) const {
  const std::size_t n = relations_.n_free(), m = all.size();
  LaneArray<T> x(n * m);
  for (std::size_t s = 0; s < m; ++s)
    for (std::size_t i = 0; i < n; ++i) x[i * m + s] = (all[s].*what)[i];
  factor_->solve(x.data(), static_cast<int>(m));
  for (std::size_t s = 0; s < m; ++s)
    for (std::size_t i = 0; i < n; ++i) (all[s].*what)[i] = x[i * m + s];
}

template <class T>
std::vector<std::vector<HarmonicSolution>> HarmonicSystem<T>::solve() const {
  std::size_t passes = 0;
  for (const HarmonicTask *task : tasks_) passes = std::max(passes, task->loads.size());
  std::vector<Sides> all;
  for (std::size_t pass = 0; pass < passes; ++pass) all.push_back(sides(pass));
  if (factor_) {
    for (Sides &s : all) {
      LaneArray<T> left = s.forces;
      for (std::size_t i = 0; i < left.size(); ++i) left[i] -= s.internal[i];
      s.load = s.q = reduced(left, s);
    }
    solve(all, &Sides::q);
    // one step of refinement; the size of that step is the error of the solution before it
    for (Sides &s : all) s.correction = s.rest = remainder(s);
    solve(all, &Sides::correction);
    for (Sides &s : all) {
      for (std::size_t i = 0; i < s.q.size(); ++i) s.q[i] += s.correction[i];
      remainder(s);
    }
  }
  std::vector<std::vector<HarmonicSolution>> solutions(tasks_.size());
  for (std::size_t l = 0; l < tasks_.size(); ++l)
    for (std::size_t pass = 0; pass < tasks_[l]->loads.size(); ++pass)
      solutions[l].push_back(in_context(place_of(*tasks_[l]->loads[pass].load),
                                        [&] { return checked(l, all[pass]); }));
  return solutions;
}

template <class T>
HarmonicSolution HarmonicSystem<T>::checked(std::size_t l, const Sides &s) const {
  HarmonicSolution solution;
  solution.name = s.loads[l]->load->name;
  solution.n = tasks_[l]->n;
  solution.displacement.resize(section_.mesh.nodes.size());
  for (std::size_t i = 0; i < s.u.size(); ++i)
    solution.displacement[i / 3][i % 3] = lane(s.u[i], l);
  const std::array<int, 2> adapter = relations_.adapter();
  if (adapter[0] >= 0) solution.adapter_motion = lane(s.q[factor_->plan().place[adapter[0]]], l);
  if (adapter[1] >= 0) solution.adapter_rotation = lane(s.q[factor_->plan().place[adapter[1]]], l);
  solution.strain_energy = product(s.u, s.internal, l) / 2;

  // Residual before the last refinement, in the energy norm: sqrt(r K^-1 r / u K u). The plain norm
  // of r would, on thin plates, show the rounding of K u (stiff in membrane, soft in bending) and
  // not the error.
  const double size = product(s.load, s.q, l) + 2 * solution.strain_energy;
  solution.residual = size > 0 ? std::sqrt(std::abs(product(s.rest, s.correction, l)) / size) : 0;
  if (!(solution.residual <= 1e-6))
    throw Error("relative residual " + std::to_string(solution.residual) +
                ": above 1e-6; the supports hold the body too weakly or the mesh is degenerate");
  check_balance(solution, l, s);
  return solution;
}

/// Applied loads plus reactions of the held unknowns do no work in the rigid motions: axial force
/// and moment for n = 0, lateral force and tilting moment for n = 1.
template <class T>
void HarmonicSystem<T>::check_balance(HarmonicSolution &solution, std::size_t l,
                                      const Sides &s) const {
  const SectionMesh &mesh = section_.mesh;
  const int n = solution.n;
  // Forces and work that each unknown alone would cause: what rounding is measured against.
  double size_of_work = 0, size_of_forces = 0;
  for (std::size_t c = 0; c < section_.cells.size(); ++c)
    for (int i = 0; i < 9; ++i) {
      const HarmonicCell::Pair &p = section_.cells[c].pairs[10 * i];
      const double diagonal[3] = {p.uu + n * n * p.shear, p.vv + n * n * p.hoop,
                                  p.ww + n * n * p.shear};
      for (int k = 0; k < 3; ++k) {
        const double u = solution.displacement[mesh.cells[c][i]][k];
        size_of_work += theta_factor(n) * diagonal[k] * u * u;
        size_of_forces += theta_factor(n) * diagonal[k] * std::abs(u);
      }
    }
  if (solution.strain_energy < -1e-12 * size_of_work)
    throw Error("strain energy " + std::to_string(solution.strain_energy) +
                " N mm: negative; the material or the mesh is wrong");
  if (n >= 2) return;
  double length = 0;
  for (const Vec2 &x : mesh.nodes) length = std::max({length, x[0], std::abs(x[1])});
  const HarmonicLoad &load = *s.loads[l]->load;
  const double adapter_load[2] = {load.adapter_force, load.adapter_moment};
  for (int motion = 0; motion < 2; ++motion) {
    const double unit = motion ? length : 1;
    double applied = 0, reaction = 0, sum_of_sizes = 0;
    for (std::size_t i = 0; i < s.u.size(); ++i) {
      const double lever = rigid_motion(n, motion, mesh.nodes[i / 3])[i % 3] / unit;
      const double force = lane(s.forces[i], l), internal = lane(s.internal[i], l);
      applied += force * lever;
      if (relations_.held(static_cast<int>(i))) reaction += (internal - force) * lever;
      sum_of_sizes += std::abs(internal);
    }
    if (relations_.adapter()[motion] >= 0) applied += adapter_load[motion] / unit;
    const double size = std::max(
        {std::abs(applied), std::abs(reaction), 1e-3 * sum_of_sizes, 1e-9 * size_of_forces});
    if (size > 0)
      solution.balance_error =
          std::max(solution.balance_error, std::abs(applied + reaction) / size);
  }
  if (!(solution.balance_error <= 1e-6))
    throw Error("balance of applied loads and reactions: off by a factor " +
                std::to_string(solution.balance_error) + " of the load: above 1e-6");
}

template class HarmonicSystem<Lanes>;
template class HarmonicSystem<double>;

}  // namespace felloe::detail
