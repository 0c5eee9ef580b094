// SPDX-License-Identifier: GPL-3.0-or-later
// From finite elements to the condensed contact problem and back.
#include "solver/contact.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <set>

#include "mesher/error.h"
#include "solver/detail/contact_parts.h"

namespace felloe {
namespace {

using detail::Six;

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

void ContactModel::Impl::find_face(const ElasticModel &model) {
  const std::vector<int> face_nodes = surface_nodes(mesh, contact.face);
  nodes = face_nodes;
  std::set<int> slides;
  if (!contact.touching_nodes.empty()) {
    nodes = line(mesh, contact.touching_nodes);
    if (!contact.sliding_nodes.empty()) {
      const std::vector<int> &more = line(mesh, contact.sliding_nodes);
      slides.insert(more.begin(), more.end());
      nodes.insert(nodes.end(), more.begin(), more.end());
    }
    std::sort(nodes.begin(), nodes.end());
    if (!std::includes(face_nodes.begin(), face_nodes.end(), nodes.begin(), nodes.end()))
      throw Error("contact: line '" + contact.touching_nodes + "' has nodes off the surface '" +
                  contact.face + "'; only nodes of the face can touch");
  }
  std::size_t n_components = 0;
  for (const int n : nodes) {
    first_axis.push_back(contact.friction == FaceFriction::sticking && !slides.count(n) ? 0 : 2);
    n_components += 3 - first_axis.back();
  }
  constexpr std::size_t most = 9000;
  if (n_components > most)
    throw Error("contact: " + std::to_string(nodes.size()) + " nodes of surface '" + contact.face +
                "' make " + std::to_string(n_components) + " components, more than " +
                std::to_string(most) + ": name fewer touching nodes, or use a coarser mesh");
  body.side = side_of(mesh, contact.face);
  place.assign(mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < nodes.size(); ++i) place[nodes[i]] = static_cast<int>(i);
  LoadCase even;
  even.tractions = {{contact.face, along_axis(1)}};
  const std::vector<Vec3> forces = nodal_forces(mesh, even);
  for (const int n : face_nodes) face_area += forces[n][2];
  const bool repeats = mesh.symmetry > 1 && mesh.turned.size() == mesh.nodes.size();
  for (const int n : nodes) {
    areas.push_back(forces[n][2]);
    axes.push_back(detail::axes_at(mesh.nodes[n], model.frame()));
    if (!repeats) continue;
    turned.push_back(place[mesh.turned[n]]);
    if (turned.back() < 0)
      throw Error("contact: surface '" + contact.face +
                  "' does not repeat itself as the mesh does; mesh it alike in every sector");
  }
}

/// The face on the adapter, held where the body is solved for given motions of the face.
void ContactModel::Impl::hold_face() {
  const bool sticks = contact.friction == FaceFriction::sticking;
  const std::string &held = contact.touching_nodes.empty() ? contact.face : contact.touching_nodes;
  supports.held.push_back({held, {sticks, sticks, true}, {}});
  if (!contact.sliding_nodes.empty())
    supports.held.push_back({contact.sliding_nodes, {false, false, true}, {}});
  body.n_nodes = static_cast<int>(nodes.size());
  body.plane_free = contact.adapter_free;
  if (!sticks) body.plane_free[0] = body.plane_free[1] = body.plane_free[5] = false;
  body.first = {0};
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Vec3 &x = mesh.nodes[nodes[i]];
    body.gap.push_back(contact.initial_gap ? contact.initial_gap(x) : 0);
    body.first.push_back(body.first.back() + 3 - first_axis[i]);
    for (int c = first_axis[i]; c < 3; ++c) {
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

/// Of vectors at the face nodes, along the components that take part.
std::vector<double> ContactModel::Impl::components(const std::vector<Vec3> &of_nodes) const {
  std::vector<double> all;
  for (int i = 0; i < body.n_nodes; ++i)
    for (int c = first_axis[i]; c < 3; ++c) all.push_back(dot(axes[i][c], of_nodes[i]));
  return all;
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
  std::vector<long> on_face;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    for (int c = first_axis[i]; c < 3; ++c) on_face.push_back(3L * nodes[i] + c);
  body.stiffness = model.condensed(supports, on_face);
  hold_face();
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

  std::vector<int> asked = nodes, position = place;
  for (const PointForces &pull : pulls)
    for (const auto &[n, f] : pull)
      if (position[n] < 0) {
        position[n] = static_cast<int>(asked.size());
        asked.push_back(n);
      }
  if (cases.empty()) return;
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
}

ContactModel::ContactModel(const Mesh &mesh, const ElasticModel &model, const Supports &supports,
                           const HubContact &contact, const std::vector<LoadCase> &loads)
    : impl_(std::make_unique<Impl>(mesh)) {
  assert(supports.adapter_surface.empty());
  assert(contact.friction_coefficient > 0);
  impl_->contact = contact;
  impl_->supports = supports;
  impl_->find_face(model);
  impl_->find_pulls();
  impl_->condense(model, loads);
}

ContactModel::~ContactModel() = default;
ContactModel::ContactModel(ContactModel &&) noexcept = default;

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
const HubContact &ContactModel::contact() const { return impl_->contact; }
int ContactModel::n_sectors() const { return impl_->turned.empty() ? 1 : impl_->mesh.symmetry; }

}  // namespace felloe
