// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/thin_model.h"

#include <algorithm>
#include <set>
#include "cli/test_turns.h"

#include "cli/thin/moved_chart.h"
#include "cli/thin/shape_change.h"
#include "mesher/error.h"
#include "mesher/sweep.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

const Mesh &mesh_of(const MeshedWheel &w, int family) {
  return family == pressed ? w.before.mesh : w.mesh;
}

bool moves(const Mesh &a, const Mesh &b, const std::vector<int> &nodes) {
  return std::any_of(nodes.begin(), nodes.end(),
                     [&](int n) { return norm(subtract(a.nodes[n], b.nodes[n])) > 1e-10; });
}

}  // namespace

struct ThinModel::Impl {
  Case input;
  double least_share = 0.5;
  MeshSize size;
  WheelOf wheel_of;
  std::map<Part, Material> materials;
  WheelLayout first;
  ChartMesh chart;

  // the latest design
  std::vector<double> x;
  MeshedWheel wheel;
  std::vector<RigLoads> loads;
  std::vector<std::unique_ptr<ElasticModel>> models;
  std::vector<std::vector<Solution>> solved;     ///< of each family, on its own mesh
  std::vector<std::vector<Solution>> on_welded;  ///< stresses of all on the welded mesh
  std::vector<PlaceStress> places;
  std::vector<PlacePoints> points;
  bool has_gradients = false;
  int n_solved = 0;
  long dofs = 0;

  MeshedWheel meshed(const std::vector<double> &) const;
  void solve(const std::vector<double> &);
  void add_gradients(double relative_step);
  std::pair<MeshedWheel, MeshedWheel> both_ways(std::size_t variable, double &step) const;
  ForceChange force_change(int family, const MeshedWheel &up, const MeshedWheel &down) const;
  std::vector<int> nodes_that_count() const;
  std::vector<double> rated(const MeshedWheel &, const std::vector<std::vector<Solution>> &) const;
};

MeshedWheel ThinModel::Impl::meshed(const std::vector<double> &at) const {
  MeshedWheel w;
  w.layout = layout(wheel_of(at));
  w.mesh = sweep(w.layout, moved_chart(chart, first, w.layout), size);
  if (input.press_fit.interference_mm > 0) w.before = before_welding(w.mesh);
  return w;
}

void ThinModel::Impl::solve(const std::vector<double> &at) {
  x.clear();
  models.clear();
  wheel = meshed(at);
  if (mesh_quality(wheel.mesh).min_scaled_jacobian < 0.2)
    throw Error("thin: the mesh is too distorted; start nearer to the result");
  dofs = 3 * static_cast<long>(wheel.mesh.nodes.size());
  loads = rig_loads(input, wheel, thin_rolling_positions);
  models.resize(n_rig_families);
  solved.assign(n_rig_families, {});
  for (int f = 0; f < n_rig_families; ++f) {
    if (loads[f].loads.empty()) continue;
    models[f] =
        std::make_unique<ElasticModel>(mesh_of(wheel, f), materials, NodalFrame::cylindrical);
    models[f]->keep_factor();
    solved[f] = models[f]->solve(loads[f].supports, loads[f].loads);
  }
  on_welded = solved;
  for (Solution &s : on_welded[pressed]) {
    std::vector<Stress> stress;
    for (const int n : wheel.before.node) stress.push_back(n >= 0 ? s.stress[n] : Stress{});
    s.stress = std::move(stress);
  }
  places = place_stresses(input, wheel, on_welded, points);
  x = at;
  has_gradients = false;
  ++n_solved;
}

/// Both neighbours on the very same mesh; where one more circle appears in between, a smaller step.
std::pair<MeshedWheel, MeshedWheel> ThinModel::Impl::both_ways(std::size_t i, double &step) const {
  for (int trial = 0; trial < 4; ++trial, step *= 0.4) {
    std::vector<double> more = x, less = x;
    more[i] += step;
    less[i] -= step;
    std::pair<MeshedWheel, MeshedWheel> p{meshed(more), meshed(less)};
    if (p.first.mesh.cells == wheel.mesh.cells && p.second.mesh.cells == wheel.mesh.cells) return p;
  }
  throw Error("thin: variable " + std::to_string(i + 1) +
              ": the rim's mesh changes with every small step; start from another thickness");
}

/// Only the families with the hub held have forces on the wheel itself.
ForceChange ThinModel::Impl::force_change(int family, const MeshedWheel &up,
                                          const MeshedWheel &down) const {
  ForceChange change;
  if (family != hub_held) return change;
  std::set<int> loaded;
  for (const LoadCase &load : loads[family].loads)
    for (const auto &[name, traction] : load.tractions)
      for (const int n : surface_nodes(wheel.mesh, name)) loaded.insert(n);
  if (!moves(up.mesh, down.mesh, {loaded.begin(), loaded.end()})) return change;
  for (const auto &[w, forces] : {std::pair(&up, &change.up), std::pair(&down, &change.down)}) {
    const std::vector<RigLoads> moved = rig_loads(input, *w, thin_rolling_positions);
    for (const LoadCase &load : moved[family].loads) forces->push_back(nodal_forces(w->mesh, load));
  }
  return change;
}

/// Nodes whose stress the points of places with gradients feel during a turn.
std::vector<int> ThinModel::Impl::nodes_that_count() const {
  const auto backward = backward_turns(wheel.mesh);
  std::set<int> all;
  for (std::size_t p = 0; p < places.size(); ++p) {
    if (places[p].share() < least_share) continue;
    const bool rolls = input.tests[places[p].test_number].kind == RigTestKind::radial;
    std::vector<int> own = points[p].place.nodes;
    for (const ToePoint &toe : points[p].place.toe_points)
      own.insert(own.end(), toe.nodes.begin(), toe.nodes.end());
    for (const int n : own)
      for (std::size_t k = 0; k < (rolls ? backward.size() : 1); ++k) all.insert(backward[k][n]);
  }
  return {all.begin(), all.end()};
}

/// Weighted stress of every place with gradients; the others stay zero.
std::vector<double> ThinModel::Impl::rated(const MeshedWheel &w,
                                           const std::vector<std::vector<Solution>> &states) const {
  const RatingRules rules = rating_rules(input);
  std::vector<TurnHistory> turns;
  for (const RigTest &test : input.tests) turns.push_back(rig_turn(input, test, w.mesh, states));
  std::vector<double> sums(places.size(), 0.0);
  for (std::size_t p = 0; p < places.size(); ++p) {
    if (places[p].share() < least_share) continue;
    const std::vector<double> s =
        point_stresses(points[p].place, turns[places[p].test_number], rules);
    for (std::size_t k = 0; k < s.size(); ++k) sums[p] += points[p].weight[k] * s[k];
  }
  return sums;
}

void ThinModel::Impl::add_gradients(double relative_step) {
  const std::size_t n = x.size();
  std::vector<double> step(n);
  std::vector<std::pair<MeshedWheel, MeshedWheel>> moved(n);
  std::vector<std::vector<LoadCase>> pseudo(n_rig_families);
  std::vector<std::vector<std::vector<LoadCase>>> of_variable(n);
  parallel_for(0, static_cast<int>(n), [&](int i) {
    step[i] = relative_step * x[i];
    moved[i] = both_ways(i, step[i]);
    const auto &[up, down] = moved[i];
    for (int f = 0; f < n_rig_families; ++f)
      of_variable[i].push_back(loads_of_change({&mesh_of(up, f), &mesh_of(down, f), step[i]},
                                               force_change(f, up, down), loads[f].supports,
                                               materials, solved[f]));
  });
  // the same nodes on the welded mesh and on the one before welding
  std::vector<int> wanted = nodes_that_count(), before;
  std::vector<std::unique_ptr<StressAtNodes>> at(n_rig_families);
  std::vector<std::vector<NodeResponses>> response(n_rig_families);
  for (int f = 0; f < n_rig_families; ++f) {
    if (solved[f].empty()) continue;
    std::vector<int> own = wanted;
    if (f == pressed)
      for (int &node : own) node = wheel.before.node[node];
    at[f] = std::make_unique<StressAtNodes>(mesh_of(wheel, f), own);
    for (std::size_t i = 0; i < n; ++i)
      std::move(of_variable[i][f].begin(), of_variable[i][f].end(), std::back_inserter(pseudo[f]));
    response[f] = models[f]->solve_more(pseudo[f], at[f]->around());
  }
  for (PlaceStress &p : places) p.gradient.assign(p.share() < least_share ? 0 : n, 0.0);
  parallel_for(0, static_cast<int>(n), [&](int i) {
    std::vector<double> rated_at[2];
    for (int way = 0; way < 2; ++way) {
      const MeshedWheel &w = way == 0 ? moved[i].first : moved[i].second;
      const double h = way == 0 ? step[i] : -step[i];
      std::vector<std::vector<Solution>> states(n_rig_families);
      for (int f = 0; f < n_rig_families; ++f) {
        const std::size_t n_loads = solved[f].size();
        if (n_loads == 0) continue;
        std::vector<std::vector<Vec3>> u(n_loads);
        const std::vector<int> &around = at[f]->around();
        for (std::size_t l = 0; l < n_loads; ++l)
          for (std::size_t k = 0; k < around.size(); ++k)
            u[l].push_back(add(solved[f][l].displacement[around[k]],
                               scale(h, response[f][i * n_loads + l].displacement[k])));
        const auto stresses = at[f]->stresses(mesh_of(w, f), materials, u);
        states[f].resize(n_loads);
        for (std::size_t l = 0; l < n_loads; ++l) {
          states[f][l].stress.resize(wheel.mesh.nodes.size());
          for (std::size_t k = 0; k < wanted.size(); ++k)
            states[f][l].stress[wanted[k]] = stresses[l][k];
        }
      }
      rated_at[way] = rated(w, states);
    }
    for (std::size_t p = 0; p < places.size(); ++p)
      if (!places[p].gradient.empty())
        places[p].gradient[i] = (rated_at[0][p] - rated_at[1][p]) / (2 * step[i]);
  });
  has_gradients = true;
}

ThinModel::ThinModel(const Case &input, const MeshSize &size, WheelOf wheel_of,
                     const std::vector<double> &x0)
    : impl_(std::make_unique<Impl>()) {
  impl_->input = input;
  impl_->size = size;
  impl_->wheel_of = std::move(wheel_of);
  impl_->materials = {{Part::disc, input.disc_material},
                      {Part::rim, input.rim_material},
                      {Part::weld, input.weld_material}};
  impl_->first = layout(impl_->wheel_of(x0));
  impl_->chart = chart_mesh(impl_->first, size);
}

ThinModel::~ThinModel() = default;

const std::vector<PlaceStress> &ThinModel::at(const std::vector<double> &x, bool gradients,
                                              double step) {
  if (x != impl_->x) impl_->solve(x);
  if (gradients && !impl_->has_gradients) impl_->add_gradients(step);
  return impl_->places;
}

void ThinModel::gradients_from(double share) { impl_->least_share = share; }
int ThinModel::n_solved() const { return impl_->n_solved; }
long ThinModel::dofs() const { return impl_->dofs; }

}  // namespace felloe
