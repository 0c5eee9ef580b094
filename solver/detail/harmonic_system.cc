// SPDX-License-Identifier: GPL-3.0-or-later
// The assembled equations of one harmonic with their factor, and the checks of every solution.
#include "solver/detail/harmonic_system.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"

namespace felloe::detail {
namespace {

double product(const std::vector<double> &a, const std::vector<double> &b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

/// Calls f(i, j, k_ij) for every entry of T^T K T that the cell contributes.
template <class F>
void for_each_entry(const std::array<int, 9> &nodes, const CellMatrix &k,
                    const HarmonicConstraints &constraints, F &&f) {
  for (int i = 0; i < n_local; ++i) {
    const auto &row = constraints.row(3 * nodes[i / 3] + i % 3);
    for (int j = 0; j < n_local; ++j) {
      const auto &column = constraints.row(3 * nodes[j / 3] + j % 3);
      for (int a = 0; a < row.size; ++a)
        for (int b = 0; b < column.size; ++b)
          if (row.index[a] >= column.index[b])
            f(row.index[a], column.index[b], row.factor[a] * column.factor[b] * k[n_local * i + j]);
    }
  }
}

}  // namespace

std::vector<CellMatrix> cell_matrices(const SectionMesh &mesh,
                                      const std::map<Part, Material> &materials, int n) {
  std::vector<CellMatrix> cells(mesh.cells.size());
  for (std::size_t c = 0; c < cells.size(); ++c)
    cells[c] = cell_stiffness(mesh, int(c), materials.at(mesh.parts[c]), n);
  return cells;
}

std::vector<double> multiply(const SectionMesh &mesh, const std::vector<CellMatrix> &cells,
                             const std::vector<double> &u) {
  std::vector<double> f(u.size(), 0.);
  for (std::size_t c = 0; c < cells.size(); ++c) {
    std::array<double, n_local> local;
    for (int i = 0; i < n_local; ++i) local[i] = u[3 * mesh.cells[c][i / 3] + i % 3];
    for (int i = 0; i < n_local; ++i) {
      double sum = 0;
      for (int j = 0; j < n_local; ++j) sum += cells[c][n_local * i + j] * local[j];
      f[3 * mesh.cells[c][i / 3] + i % 3] += sum;
    }
  }
  return f;
}

HarmonicSystem::HarmonicSystem(const SectionMesh &mesh, const std::map<Part, Material> &materials,
                               const HarmonicSupports &supports, int n, bool torsion)
    : mesh_(mesh), n_(n), constraints_(mesh, supports, n, torsion) {
  constraints_.check_no_rigid_motion_left();
  cells_ = cell_matrices(mesh, materials, n);
  if (constraints_.n_free() == 0) return;
  try {
    factor_ = std::make_unique<SparseCholesky>(assembled(), groups());
  } catch (const NotPositiveDefinite &e) {
    throw Error("supports: pivot ratio " + std::to_string(e.pivot_ratio) +
                " of the stiffness matrix: a motion is hardly resisted; hold more of the body");
  }
}

/// Unknowns of one node belong together; the adapter's motions form a group of their own.
std::vector<int> HarmonicSystem::groups() const {
  std::vector<int> group(constraints_.n_free(), -1);
  int count = 0;
  for (int node = 0; node < int(mesh_.nodes.size()); ++node) {
    bool used = false;
    for (int c = 0; c < 3; ++c) {
      const auto &row = constraints_.row(3 * node + c);
      if (row.size == 0 || group[row.index[0]] >= 0 || row.index[0] == constraints_.adapter()[0] ||
          row.index[0] == constraints_.adapter()[1])
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

SymmetricMatrix HarmonicSystem::assembled() const {
  std::vector<std::vector<int>> pattern(constraints_.n_free());
  for (std::size_t c = 0; c < cells_.size(); ++c)
    for_each_entry(mesh_.cells[c], cells_[c], constraints_,
                   [&](int i, int j, double) { pattern[j].push_back(i); });
  SymmetricMatrix matrix;
  matrix.column_start = {0};
  for (auto &column : pattern) {
    std::sort(column.begin(), column.end());
    column.erase(std::unique(column.begin(), column.end()), column.end());
    matrix.row.insert(matrix.row.end(), column.begin(), column.end());
    matrix.column_start.push_back(long(matrix.row.size()));
  }
  matrix.value.assign(matrix.row.size(), 0.);
  for (std::size_t c = 0; c < cells_.size(); ++c)
    for_each_entry(mesh_.cells[c], cells_[c], constraints_, [&](int i, int j, double k) {
      const auto first = matrix.row.begin() + matrix.column_start[j];
      const auto last = matrix.row.begin() + matrix.column_start[j + 1];
      matrix.value[std::lower_bound(first, last, i) - matrix.row.begin()] += k;
    });
  return matrix;
}

HarmonicSolution HarmonicSystem::solve(const HarmonicLoad &load,
                                       const std::vector<double> &forces) const {
  const std::vector<double> given = constraints_.given(load.interference);
  std::vector<double> right = forces;
  const std::vector<double> from_given = multiply(mesh_, cells_, given);
  for (std::size_t i = 0; i < right.size(); ++i) right[i] -= from_given[i];
  std::vector<double> reduced = constraints_.reduced(right);
  const std::array<int, 2> adapter = constraints_.adapter();
  if (adapter[0] >= 0) reduced[adapter[0]] += load.adapter_force;
  if (adapter[1] >= 0) reduced[adapter[1]] += load.adapter_moment;

  // What the solution q leaves unbalanced.
  const auto remainder = [&](const std::vector<double> &q) {
    std::vector<double> full = multiply(mesh_, cells_, constraints_.expanded(q, load.interference));
    for (std::size_t i = 0; i < full.size(); ++i) full[i] = forces[i] - full[i];
    std::vector<double> rest = constraints_.reduced(full);
    if (adapter[0] >= 0) rest[adapter[0]] += load.adapter_force;
    if (adapter[1] >= 0) rest[adapter[1]] += load.adapter_moment;
    return rest;
  };
  std::vector<double> q, rest, correction;
  if (factor_) {
    q = factor_->solve(reduced, 1);
    correction = factor_->solve(remainder(q), 1);
    for (std::size_t i = 0; i < q.size(); ++i) q[i] += correction[i];
    rest = remainder(q);
    correction = factor_->solve(rest, 1);
  }
  const std::vector<double> u = constraints_.expanded(q, load.interference);
  const std::vector<double> internal = multiply(mesh_, cells_, u);

  HarmonicSolution solution;
  solution.name = load.name;
  solution.n = n_;
  solution.displacement.resize(mesh_.nodes.size());
  for (std::size_t i = 0; i < u.size(); ++i) solution.displacement[i / 3][i % 3] = u[i];
  if (adapter[0] >= 0) solution.adapter_motion = q[adapter[0]];
  if (adapter[1] >= 0) solution.adapter_rotation = q[adapter[1]];
  solution.strain_energy = product(u, internal) / 2;

  // Residual in the energy norm: sqrt(r K^-1 r / u K u). The plain norm of r would, on thin plates,
  // show the rounding of K u (stiff in membrane, soft in bending) and not the error.
  const double size = product(reduced, q) + 2 * solution.strain_energy;
  solution.residual = size > 0 ? std::sqrt(std::abs(product(rest, correction)) / size) : 0;
  if (!(solution.residual <= 1e-6))
    throw Error("relative residual " + std::to_string(solution.residual) +
                ": above 1e-6; the supports hold the body too weakly or the mesh is degenerate");
  check_balance(solution, load, forces, internal);
  return solution;
}

/// Applied loads plus reactions of the held unknowns do no work in the rigid motions: axial force
/// and moment for n = 0, lateral force and tilting moment for n = 1.
void HarmonicSystem::check_balance(HarmonicSolution &solution, const HarmonicLoad &load,
                                   const std::vector<double> &forces,
                                   const std::vector<double> &internal) const {
  // Forces and work that each unknown alone would cause: what rounding is measured against.
  double size_of_work = 0, size_of_forces = 0;
  for (std::size_t c = 0; c < cells_.size(); ++c)
    for (int i = 0; i < n_local; ++i) {
      const double diagonal = cells_[c][(n_local + 1) * i];
      const double u = solution.displacement[mesh_.cells[c][i / 3]][i % 3];
      size_of_work += diagonal * u * u;
      size_of_forces += diagonal * std::abs(u);
    }
  if (solution.strain_energy < -1e-12 * size_of_work)
    throw Error("strain energy " + std::to_string(solution.strain_energy) +
                " N mm: negative; the material or the mesh is wrong");
  if (n_ >= 2) return;
  double length = 0;
  for (const Vec2 &x : mesh_.nodes) length = std::max({length, x[0], std::abs(x[1])});
  const double adapter_load[2] = {load.adapter_force, load.adapter_moment};
  for (int motion = 0; motion < 2; ++motion) {
    const double unit = motion ? length : 1;
    double applied = 0, reaction = 0, sum_of_sizes = 0;
    for (std::size_t i = 0; i < forces.size(); ++i) {
      const double lever = rigid_motion(n_, motion, mesh_.nodes[i / 3])[i % 3] / unit;
      applied += forces[i] * lever;
      if (constraints_.held(int(i))) reaction += (internal[i] - forces[i]) * lever;
      sum_of_sizes += std::abs(internal[i]);
    }
    if (constraints_.adapter()[motion] >= 0) applied += adapter_load[motion] / unit;
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

}  // namespace felloe::detail
