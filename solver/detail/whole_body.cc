// SPDX-License-Identifier: GPL-3.0-or-later
// The body as one matrix and one factor.
#include <algorithm>

#include "solver/detail/body.h"
#include "solver/detail/parallel.h"
#include "solver/detail/partial_cholesky.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {
namespace {

class WholeFactor : public FactoredBody {
 public:
  WholeFactor(const BlockMatrix &k, const ConstraintMap &map)
      : map_(map), factor_(reduced(map, k), map.group) {}

  std::vector<NodalResponse> solve(const std::vector<NodalLoad> &loads) const override {
    const int n = map_.n_reduced(), n_loads = static_cast<int>(loads.size());
    std::vector<double> right_hand_sides;
    right_hand_sides.reserve(static_cast<std::size_t>(n) * n_loads);
    for (const NodalLoad &load : loads) {
      std::vector<double> r = reduced(map_, load.force);
      for (int m = 0; m < map_.n_motions; ++m) r[map_.n_masters + m] += load.on_adapter[m];
      right_hand_sides.insert(right_hand_sides.end(), r.begin(), r.end());
    }
    const std::vector<double> q = factor_.solve(right_hand_sides, n_loads);
    const std::vector<double> no_offset(map_.unknown.size(), 0.0);
    std::vector<NodalResponse> responses(n_loads);
    for (int l = 0; l < n_loads; ++l) {
      const double *of_load = q.data() + static_cast<long>(l) * n;
      responses[l].displacement = expanded(map_, of_load, no_offset);
      std::copy(of_load + map_.n_masters, of_load + n, responses[l].motion.begin());
    }
    return responses;
  }

  double entries() const override { return factor_.entries(); }

 private:
  const ConstraintMap &map_;
  SparseCholesky factor_;
};

class WholeBody : public Body {
 public:
  WholeBody(const BodyInput &in, const HexGeometry &geometry) {
    std::vector<double> volumes;
    stiffness_ = stiffness(in.mesh, geometry, in.of_cells, in.axes, in.frame, volumes);
    for (std::size_t c = 0; c < volumes.size(); ++c) part_volumes_[in.mesh.parts[c]] += volumes[c];
  }
  std::vector<std::vector<double>> multiply_all(
      const std::vector<const std::vector<double> *> &u) const override {
    std::vector<std::vector<double>> products(u.size());
    parallel_for(0, static_cast<int>(u.size()),
                 [&](int l) { products[l] = detail::multiply(stiffness_, *u[l]); });
    return products;
  }
  std::unique_ptr<FactoredBody> factored(const Supports &,
                                         const ConstraintMap &map) const override {
    return std::make_unique<WholeFactor>(stiffness_, map);
  }
  std::vector<double> condensed(const Supports &, const ConstraintMap &map,
                                const std::vector<long> &components) const override {
    std::vector<long> kept;
    for (const long u : components) kept.push_back(map.unknown[u]);
    const PartialCholesky factor(reduced(map, stiffness_), kept, map.group);
    const std::size_t n = kept.size();
    std::vector<std::size_t> at(map.n_reduced());
    for (std::size_t i = 0; i < n; ++i) at[factor.border()[i]] = i;
    std::vector<double> result(n * n);
    for (std::size_t j = 0; j < n; ++j)
      for (std::size_t i = 0; i < n; ++i)
        result[j * n + i] = factor.schur()[at[kept[j]] * n + at[kept[i]]];
    return result;
  }
  std::vector<double> node_stiffness() const override { return node_diagonals(stiffness_); }
  std::map<Part, double> part_volumes() const override { return part_volumes_; }

 private:
  BlockMatrix stiffness_;
  std::map<Part, double> part_volumes_;
};

}  // namespace

std::unique_ptr<Body> whole_body(const BodyInput &in, const HexGeometry &geometry) {
  return std::make_unique<WholeBody>(in, geometry);
}

}  // namespace felloe::detail
