// SPDX-License-Identifier: GPL-3.0-or-later
// The body as one matrix and one factor.
#include <algorithm>
#include <utility>

#include "solver/detail/body.h"
#include "solver/detail/partial_cholesky.h"
#include "solver/detail/sparse_cholesky.h"
#include "solver/detail/sparse_reduction.h"

namespace felloe::detail {
namespace {

class WholeResponses : public NodalResponses {
 public:
  WholeResponses(const ConstraintMap &map, std::vector<double> q) : map_(map), q_(std::move(q)) {}
  void put(int load, NodalResponse &response) const override {
    const int n = map_.n_reduced();
    const double *of_load = q_.data() + 1L * load * n;
    expand(map_, of_load, response.displacement);
    std::copy(of_load + map_.n_masters, of_load + n, response.motion.begin());
  }

 private:
  const ConstraintMap &map_;
  const std::vector<double> q_;
};

class WholeFactor : public FactoredBody {
 public:
  WholeFactor(const BlockMatrix &k, const ConstraintMap &map)
      : map_(map), factor_(reduced(map, k), map.group) {}

  std::unique_ptr<NodalResponses> solve(const std::vector<NodalLoad> &loads) const override {
    const int n = map_.n_reduced(), n_loads = static_cast<int>(loads.size());
    std::vector<double> right_hand_sides(1L * n * n_loads, 0.0);
    for (int l = 0; l < n_loads; ++l) {
      double *r = right_hand_sides.data() + 1L * l * n;
      reduce(map_, loads[l].force, [r](int unknown, double force) { r[unknown] += force; });
      for (int m = 0; m < map_.n_motions; ++m) r[map_.n_masters + m] += loads[l].on_adapter[m];
    }
    return std::make_unique<WholeResponses>(map_, factor_.solve(right_hand_sides, n_loads));
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
  void multiply(const std::vector<const std::vector<double> *> &u,
                std::vector<std::vector<double>> &products) const override {
    for (std::size_t l = 0; l < u.size(); ++l) products[l] = detail::multiply(stiffness_, *u[l]);
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
