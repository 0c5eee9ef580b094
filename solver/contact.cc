// SPDX-License-Identifier: GPL-3.0-or-later
// From finite elements to the condensed contact problem and back.
#include "solver/contact.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "mesher/error.h"
#include "solver/detail/condensed_contact.h"
#include "solver/detail/nodal_frame.h"

namespace felloe {
namespace {

using detail::Axes;
using detail::Six;
using PointForces = std::vector<std::pair<int, Vec3>>;

Traction along_axis(double value) {
  return [value](const Vec3 &, const Vec3 &) { return Vec3{0, 0, value}; };
}

/// Direction of the outward normal along the axis.
double side_of(const Mesh &mesh, const std::string &face) {
  double area = 0, across = 0;
  LoadCase probe;
  probe.tractions = {{face, [&](const Vec3 &, const Vec3 &n) {
                        area += 1;
                        across += n[2];
                        return Vec3{};
                      }}};
  nodal_forces(mesh, probe);
  if (!(std::abs(across) > 0.999 * area))
    throw Error("contact: surface '" + face +
                "' is not flat and perpendicular to the axis: the adapter is a plane there");
  return across > 0 ? 1 : -1;
}

PointForces forces_at_nodes(const Mesh &mesh, const LoadCase &load) {
  const std::vector<Vec3> all = nodal_forces(mesh, load);
  PointForces some;
  for (std::size_t n = 0; n < all.size(); ++n)
    if (all[n] != Vec3{}) some.emplace_back(static_cast<int>(n), all[n]);
  return some;
}

Six wrench(const Mesh &mesh, const PointForces &forces) {
  Resultant sum;
  for (const auto &[n, f] : forces) {
    sum.force = add(sum.force, f);
    sum.moment = add(sum.moment, cross(mesh.nodes[n], f));
  }
  const auto &[f, m] = sum;
  return {f[0], f[1], f[2], m[0], m[1], m[2]};
}

}  // namespace

struct ContactModel::Impl {
  const Mesh &mesh;
  HubContact contact;
  Supports supports;
  std::vector<int> nodes, turned, place;  ///< place: of each mesh node in nodes, or -1
  std::vector<double> areas;
  double face_area = 0;
  std::vector<Axes> axes;  ///< of each face node
  std::vector<std::string> load_names;
  std::vector<LoadCase> at_nodes;  ///< the loads, everything as point forces
  std::vector<PointForces> pulls;  ///< unit force of each bolt
  detail::CondensedBody body;
  std::vector<detail::CondensedLoad> loads;

  explicit Impl(const Mesh &m) : mesh(m) {}

  void find_face();
  void find_pulls();
  void condense(const ElasticModel &, const std::vector<LoadCase> &);
  std::vector<int> first_sector() const;
  std::vector<LoadCase> unit_motions(const std::vector<int> &of_nodes) const;
  void put_columns(const std::vector<int> &of_nodes, const NodeResponses *);
  std::vector<double> components(const std::vector<Vec3> &) const;
  std::vector<double> travel(const NodeResponses &, const std::vector<int> &asked) const;

  ContactState state(const std::vector<double> &factors, const std::vector<detail::BoltLaw> &,
                     const ContactState *before, const ContactState *start) const;
};

void ContactModel::Impl::find_face() {
  const std::vector<int> face_nodes = surface_nodes(mesh, contact.face);
  nodes = face_nodes;
  if (!contact.touching_nodes.empty()) {
    nodes = line(mesh, contact.touching_nodes);
    std::sort(nodes.begin(), nodes.end());
    if (!std::includes(face_nodes.begin(), face_nodes.end(), nodes.begin(), nodes.end()))
      throw Error("contact: line '" + contact.touching_nodes + "' has nodes off the surface '" +
                  contact.face + "'; only nodes of the face can touch");
  }
  constexpr std::size_t most = 9000;
  const std::size_t n_components =
      nodes.size() * (contact.friction == FaceFriction::sticking ? 3 : 1);
  if (n_components > most)
    throw Error("contact: " + std::to_string(nodes.size()) + " nodes of surface '" + contact.face +
                "' make " + std::to_string(n_components) + " components, more than " +
                std::to_string(most) + ": name fewer touching nodes, or use a coarser mesh");
  place.assign(mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < nodes.size(); ++i) place[nodes[i]] = static_cast<int>(i);
  LoadCase even;
  even.tractions = {{contact.face, along_axis(1)}};
  const std::vector<Vec3> forces = nodal_forces(mesh, even);
  for (const int n : face_nodes) face_area += forces[n][2];
  const bool repeats = mesh.symmetry > 1 && mesh.turned.size() == mesh.nodes.size();
  for (const int n : nodes) {
    areas.push_back(forces[n][2]);
    axes.push_back(
        detail::axes_at(mesh.nodes[n], repeats ? NodalFrame::cylindrical : NodalFrame::cartesian));
    if (!repeats) continue;
    turned.push_back(place[mesh.turned[n]]);
    if (turned.back() < 0)
      throw Error("contact: surface '" + contact.face +
                  "' does not repeat itself as the mesh does; mesh it alike in every sector");
  }

  const bool sticks = contact.friction == FaceFriction::sticking;
  const std::string &held = contact.touching_nodes.empty() ? contact.face : contact.touching_nodes;
  supports.held.push_back({held, {sticks, sticks, true}, {}});
  body.n_nodes = static_cast<int>(nodes.size());
  body.per_node = sticks ? 3 : 1;
  body.side = side_of(mesh, contact.face);
  body.plane_free = contact.adapter_free;
  if (!sticks) body.plane_free[0] = body.plane_free[1] = body.plane_free[5] = false;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Vec3 &x = mesh.nodes[nodes[i]];
    body.gap.push_back(contact.initial_gap ? contact.initial_gap(x) : 0);
    for (int c = 3 - body.per_node; c < 3; ++c) {
      const Vec3 &e = axes[i][c], arm = cross(x, e);
      body.plane.push_back({e[0], e[1], e[2], arm[0], arm[1], arm[2]});
    }
  }
}

void ContactModel::Impl::find_pulls() {
  for (const ContactBolt &bolt : contact.bolts) {
    LoadCase even;
    even.tractions = {{bolt.seat, along_axis(1)}};
    PointForces pull = forces_at_nodes(mesh, even);
    const double area = wrench(mesh, pull)[2];
    if (!(area > 0)) throw Error("contact: bolt seat '" + bolt.seat + "' has no area");
    for (auto &[n, f] : pull) f = scale(body.side / area, f);
    body.bolt_pull.push_back(wrench(mesh, pull));
    pulls.push_back(std::move(pull));
  }
}

/// One position in nodes for each set of nodes that turn into each other.
std::vector<int> ContactModel::Impl::first_sector() const {
  std::vector<int> firsts;
  std::vector<bool> seen(nodes.size(), false);
  for (int i = 0; i < body.n_nodes; ++i) {
    if (seen[i]) continue;
    firsts.push_back(i);
    for (int j = i; !seen[j]; j = turned.empty() ? j : turned[j]) seen[j] = true;
  }
  return firsts;
}

std::vector<LoadCase> ContactModel::Impl::unit_motions(const std::vector<int> &of_nodes) const {
  std::vector<LoadCase> units;
  for (const int i : of_nodes)
    for (int c = 3 - body.per_node; c < 3; ++c) {
      LoadCase unit;
      unit.name = "face node " + std::to_string(nodes[i]);
      unit.held_motion = {{nodes[i], axes[i][c]}};
      units.push_back(std::move(unit));
    }
  return units;
}

/// Of vectors at the face nodes, along the components that take part.
std::vector<double> ContactModel::Impl::components(const std::vector<Vec3> &of_nodes) const {
  std::vector<double> all;
  for (int i = 0; i < body.n_nodes; ++i)
    for (int c = 3 - body.per_node; c < 3; ++c) all.push_back(dot(axes[i][c], of_nodes[i]));
  return all;
}

/// The responses fill their own columns, and turned, those of the other sectors.
void ContactModel::Impl::put_columns(const std::vector<int> &of_nodes, const NodeResponses *r) {
  const std::size_t n = body.n();
  const int per = body.per_node;
  std::vector<double> raw(n * n, 0.0);
  std::vector<int> row(body.n_nodes);
  for (const int first : of_nodes)
    for (int c = 0; c < per; ++c, ++r) {
      const std::vector<double> column = components(r->support_force);
      for (int i = 0; i < body.n_nodes; ++i) row[i] = i;
      int at = first;
      do {
        for (int i = 0; i < body.n_nodes; ++i)
          for (int d = 0; d < per; ++d)
            raw[(at * per + c) * n + row[i] * per + d] = column[i * per + d];
        if (turned.empty()) break;
        at = turned[at];
        for (int &i : row) i = turned[i];
      } while (at != first);
    }
  body.stiffness.resize(n * n);
  for (std::size_t j = 0; j < n; ++j)  // symmetric but for rounding
    for (std::size_t i = 0; i < n; ++i)
      body.stiffness[j * n + i] = 0.5 * (raw[j * n + i] + raw[i * n + j]);
}

std::vector<double> ContactModel::Impl::travel(const NodeResponses &r,
                                               const std::vector<int> &position) const {
  std::vector<double> all;
  for (const PointForces &pull : pulls) {
    double sum = 0;
    for (const auto &[n, f] : pull) sum += dot(f, r.displacement[position[n]]);
    all.push_back(sum);
  }
  return all;
}

void ContactModel::Impl::condense(const ElasticModel &model, const std::vector<LoadCase> &given) {
  const std::vector<int> firsts = first_sector();
  std::vector<LoadCase> cases;
  for (const LoadCase &load : given) {
    LoadCase c;
    c.name = load.name;
    c.interference = load.interference;
    c.held_motion = load.held_motion;
    c.point_forces = forces_at_nodes(mesh, load);
    at_nodes.push_back(c);
    cases.push_back(std::move(c));
  }
  for (std::size_t k = 0; k < pulls.size(); ++k) {
    cases.emplace_back();
    cases.back().name = "force of bolt " + std::to_string(k + 1);
    cases.back().point_forces = pulls[k];
  }
  for (LoadCase &unit : unit_motions(firsts)) cases.push_back(std::move(unit));

  std::vector<int> asked = nodes, position = place;
  for (const PointForces &pull : pulls)
    for (const auto &[n, f] : pull)
      if (position[n] < 0) {
        position[n] = static_cast<int>(asked.size());
        asked.push_back(n);
      }
  std::vector<NodeResponses> responses = model.solve_at(supports, cases, asked);
  for (NodeResponses &r : responses) r.support_force.resize(nodes.size());
  const NodeResponses *r = responses.data();
  for (const LoadCase &load : given) {
    const auto &[f, m] = load.adapter;
    loads.push_back(
        {components(r->support_force), travel(*r, position), {f[0], f[1], f[2], m[0], m[1], m[2]}});
    for (const int i : {0, 1, 5})
      if (contact.friction == FaceFriction::none && contact.adapter_free[i] &&
          loads.back().on_plane[i] != 0)
        throw Error("contact: load '" + load.name +
                    "': acts in the plane of the face: without friction nothing carries it; let "
                    "the face stick");
    ++r;
  }
  for (std::size_t k = 0; k < pulls.size(); ++k, ++r) {
    body.bolt_reaction.push_back(components(r->support_force));
    body.bolt_give.push_back(travel(*r, position));
  }
  put_columns(firsts, r);
}

ContactState ContactModel::Impl::state(const std::vector<double> &factors,
                                       const std::vector<detail::BoltLaw> &laws,
                                       const ContactState *before,
                                       const ContactState *start) const {
  assert(factors.size() == loads.size() || factors.empty());
  detail::CondensedLoad sum{
      std::vector<double>(body.n(), 0.0), std::vector<double>(body.n_bolts(), 0.0), {}};
  for (std::size_t l = 0; l < factors.size(); ++l) {
    for (int i = 0; i < body.n(); ++i) sum.reaction[i] += factors[l] * loads[l].reaction[i];
    for (int k = 0; k < body.n_bolts(); ++k) sum.travel[k] += factors[l] * loads[l].travel[k];
    for (int m = 0; m < 6; ++m) sum.on_plane[m] += factors[l] * loads[l].on_plane[m];
  }
  const bool may_stick = contact.friction == FaceFriction::sticking;
  detail::ContactSet set{std::vector<bool>(body.n_nodes, true),
                         std::vector<bool>(body.n_nodes, may_stick),
                         std::vector<bool>(body.n_bolts(), true)};
  if (before) set.sticks = before->sticks;
  if (start) set.closed = start->closed;
  const detail::CondensedState found = detail::solved_contact(body, sum, laws, std::move(set));

  ContactState s;
  s.factors = factors;
  s.closed = found.set.closed;
  s.sticks = found.set.sticks;
  s.bolt_force = found.bolt_force;
  s.bolt_elongation = found.elongation;
  s.adapter_motion = found.motion;
  s.complementarity_error = detail::complementarity_error(body, found);
  s.steps = found.n_solves;
  double pressed = 0;
  for (int i = 0; i < body.n_nodes; ++i) {
    Vec3 force{}, motion{};
    for (int c = 0; c < body.per_node; ++c) {
      const int k = i * body.per_node + c;
      double u = found.relative[k];
      for (int m = 0; m < 6; ++m) u += body.plane[k][m] * found.motion[m];
      const Vec3 &e = axes[i][3 - body.per_node + c];
      force = add(force, scale(found.force[k], e));
      motion = add(motion, scale(u, e));
      if (c < body.per_node - 1) continue;
      s.pressure.push_back(-body.side * found.force[k] / areas[i]);
      s.gap.push_back(body.gap[i] - body.side * found.relative[k]);
    }
    s.face_force.push_back(force);
    s.face_motion.push_back(motion);
    if (s.closed[i]) pressed += areas[i];
  }
  s.open_share = std::max(0.0, 1 - pressed / face_area);
  if (s.open_share < 1e-12) s.open_share = 0;
  return s;
}

ContactModel::ContactModel(const Mesh &mesh, const ElasticModel &model, const Supports &supports,
                           const HubContact &contact, const std::vector<LoadCase> &loads)
    : impl_(std::make_unique<Impl>(mesh)) {
  assert(supports.adapter_surface.empty());
  impl_->contact = contact;
  impl_->supports = supports;
  impl_->find_face();
  impl_->find_pulls();
  impl_->condense(model, loads);
}

ContactModel::~ContactModel() = default;
ContactModel::ContactModel(ContactModel &&) noexcept = default;

ContactState ContactModel::clamped(const std::vector<double> &factors,
                                   const ContactState *start) const {
  std::vector<detail::BoltLaw> laws;
  for (const ContactBolt &b : impl_->contact.bolts) laws.push_back({b.preload, 0, 0});
  return impl_->state(factors, laws, nullptr, start);
}

ContactState ContactModel::loaded(const ContactState &before, const std::vector<double> &factors,
                                  const ContactState *start) const {
  std::vector<detail::BoltLaw> laws;
  for (std::size_t k = 0; k < impl_->contact.bolts.size(); ++k)
    laws.push_back(
        {before.bolt_force[k], impl_->contact.bolts[k].stiffness, before.bolt_elongation[k]});
  return impl_->state(factors, laws, &before, start ? start : &before);
}

LoadCase ContactModel::load_case(const ContactState &s, const std::string &name) const {
  LoadCase sum;
  sum.name = name;
  sum.kind = "contact";
  const auto add_forces = [&](double factor, const PointForces &forces) {
    for (const auto &[n, f] : forces) sum.point_forces.emplace_back(n, scale(factor, f));
  };
  for (std::size_t l = 0; l < s.factors.size(); ++l) {
    const LoadCase &load = impl_->at_nodes[l];
    add_forces(s.factors[l], load.point_forces);
    sum.interference += s.factors[l] * load.interference;
    for (const auto &[n, u] : load.held_motion)
      sum.held_motion.emplace_back(n, scale(s.factors[l], u));
  }
  for (std::size_t k = 0; k < impl_->pulls.size(); ++k)
    add_forces(s.bolt_force[k], impl_->pulls[k]);
  for (std::size_t i = 0; i < impl_->nodes.size(); ++i)
    sum.held_motion.emplace_back(impl_->nodes[i], s.face_motion[i]);
  return sum;
}

double ContactModel::smallest_gap_elsewhere(const ContactState &s, const Solution &solution) const {
  double least = std::numeric_limits<double>::infinity();
  const auto &a = s.adapter_motion;
  for (const int n : surface_nodes(impl_->mesh, impl_->contact.face)) {
    if (impl_->place[n] >= 0) continue;
    const Vec3 &x = impl_->mesh.nodes[n];
    const Vec3 plane = add({a[0], a[1], a[2]}, cross({a[3], a[4], a[5]}, x));
    const double before = impl_->contact.initial_gap ? impl_->contact.initial_gap(x) : 0;
    const double approach = impl_->body.side * (solution.displacement[n][2] - plane[2]);
    least = std::min(least, before - approach);
  }
  return least;
}

const Supports &ContactModel::supports() const { return impl_->supports; }
const std::vector<int> &ContactModel::nodes() const { return impl_->nodes; }
const std::vector<double> &ContactModel::areas() const { return impl_->areas; }
double ContactModel::face_area() const { return impl_->face_area; }
const std::vector<int> &ContactModel::turned() const { return impl_->turned; }
int ContactModel::n_sectors() const { return impl_->turned.empty() ? 1 : impl_->mesh.symmetry; }

}  // namespace felloe
