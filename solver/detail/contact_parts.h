// SPDX-License-Identifier: GPL-3.0-or-later
// What a ContactModel keeps: the face, the bolts, the condensed body.
#pragma once
#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "solver/contact.h"
#include "solver/detail/condensed_contact.h"
#include "solver/detail/contact_tableau.h"
#include "solver/detail/narrowed_contact.h"
#include "solver/detail/nodal_frame.h"

namespace felloe {

using PointForces = std::vector<std::pair<int, Vec3>>;

struct ContactModel::Impl {
  const Mesh &mesh;
  HubContact contact;
  Supports supports;
  std::vector<int> nodes, turned, place;  ///< place: of each mesh node in nodes, or -1
  std::vector<double> areas;
  double face_area = 0;
  std::vector<detail::Axes> axes;  ///< of each face node
  std::vector<std::string> load_names;
  std::vector<LoadCase> at_nodes;  ///< the loads, everything as point forces
  std::vector<PointForces> pulls;  ///< unit force of each bolt
  std::vector<int> first_axis;     ///< of each node: 0, or 2 when only its normal takes part
  detail::CondensedBody body;
  std::vector<detail::CondensedLoad> loads;
  mutable std::unique_ptr<detail::NarrowedContact> narrowed;  ///< of the latest sticking nodes
  mutable std::unique_ptr<detail::ContactTableau> tableau;    ///< about the latest state before
  mutable std::vector<bool> tableau_closed;

  explicit Impl(const Mesh &m) : mesh(m) {}

  void find_face(const ElasticModel &);
  bool may_stick(int i) const { return first_axis[i] == 0; }
  void hold_face();
  void find_pulls();
  void condense(const ElasticModel &, const std::vector<LoadCase> &);
  std::vector<int> first_sector() const;
  std::vector<double> components(const std::vector<Vec3> &) const;
  std::vector<double> travel(const NodeResponses &, const std::vector<int> &asked) const;

  detail::CondensedLoad sum_of_loads(const std::vector<double> &factors) const;
  detail::ContactSet start_of_clamping(const std::vector<double> &factors) const;
  const detail::NarrowedContact &narrowed_to(const std::vector<bool> &sticks) const;
  ContactState state(const std::vector<double> &factors, const detail::CondensedState &) const;
  ContactState state(const std::vector<double> &factors, const std::vector<detail::BoltLaw> &,
                     detail::ContactSet start) const;
  bool rubs() const { return std::isfinite(contact.friction_coefficient); }
  ContactState rubbed(const ContactState &about, const std::vector<double> &factors,
                      const std::vector<detail::BoltLaw> &, const ContactState &start) const;
  const detail::ContactTableau &tableau_about(const ContactState &before) const;
  std::vector<detail::BoltLaw> laws_about(const ContactState &before) const;
};

}  // namespace felloe
