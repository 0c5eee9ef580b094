// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/toe_points.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double tolerance = 1e-6;  // of parameters that the mesh reproduces exactly [mm]

long angle_key(const Vec3 &x) {
  const double a = std::atan2(x[1], x[0]);
  return std::lround((a < -1e-9 ? a + 2 * pi : std::max(a, 0.0)) * 1e7);
}

/// Three nodes of one cell on a line of equal angle, s ascending.
struct Row {
  double s[3];
  int node[3];
  bool operator<(const Row &other) const {
    return std::lexicographical_compare(node, node + 3, other.node, other.node + 3);
  }
};

/// Rows on the toe's face within `reach` of it [mm], by angle.
std::map<long, std::set<Row>> face_rows(const Mesh &mesh, const WeldToe &toe, double reach) {
  std::map<long, std::set<Row>> rows;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    if (mesh.parts[c] != toe.part) continue;
    std::map<long, std::set<std::pair<double, int>>> at_angle;
    for (const int n : mesh.cells[c]) {
      const SheetPoint &p = mesh.node_points[n];
      if (mesh.node_parts[n] != toe.part || std::abs(p.eta + 1) > 1e-9) continue;
      if (std::abs(p.s - toe.s) > reach + 10) break;
      at_angle[angle_key(mesh.nodes[n])].insert({p.s, n});
    }
    for (const auto &[angle, nodes] : at_angle) {
      if (nodes.size() != 3) continue;
      Row row{};
      int i = 0;
      for (const auto &[s, n] : nodes) row.s[i] = s, row.node[i++] = n;
      if (row.s[0] < row.s[1] && row.s[1] < row.s[2]) rows[angle].insert(row);
    }
  }
  return rows;
}

/// Nodes over the thickness by angle and eta, on a line of equal s.
std::map<long, std::map<double, int>> columns_at(const Mesh &mesh, Part part, double s) {
  std::map<long, std::map<double, int>> columns;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (mesh.node_parts[n] == part && std::abs(mesh.node_points[n].s - s) < tolerance)
      columns[angle_key(mesh.nodes[n])][mesh.node_points[n].eta] = static_cast<int>(n);
  return columns;
}

/// Length along the mid-line at which the face is `distance` away from the toe.
double along_face(const WeldToe &toe, double distance) {
  constexpr double step = 0.02;
  double s = toe.s, way = 0;
  Vec2 at = toe.sheet->section_point(s, -1);
  for (;;) {
    const double next = s + toe.away * step;
    if (next < 0 || next > toe.sheet->length()) return s + toe.away * (distance - way);
    const Vec2 there = toe.sheet->section_point(next, -1);
    const double length = std::hypot(there[0] - at[0], there[1] - at[1]);
    if (way + length >= distance) return s + toe.away * step * (distance - way) / length;
    way += length;
    s = next;
    at = there;
  }
}

std::string in_mm(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g mm", x);
  return text;
}

class Reader {
 public:
  Reader(const Mesh &mesh, const WeldToe &toe, const ToeReadOut &rule)
      : mesh_(mesh), toe_(toe), rule_(rule) {
    distances_ = read_out_distances(rule, toe.sheet->thickness().at(toe.s));
    weights_ = toe_weights(distances_);
    for (const double d : distances_)
      s_.push_back(rule.times_thickness ? toe.s + toe.away * d : along_face(toe, d));
  }

  std::vector<ToePoint> points() const {
    return rule_.over_thickness ? over_thickness() : on_face();
  }

 private:
  ToePoint started(long angle) const {
    const double theta = 1e-7 * static_cast<double>(angle);
    ToePoint p;
    p.toe = toe_.sheet->position(toe_.s, theta, -1);
    p.across = revolved(toe_.sheet->meridian().at(toe_.s).tangent, theta);
    return p;
  }

  /// Of `factor` times the normal stress along the sheet at the node.
  Stress weight(int node, double factor) const {
    const Vec3 &x = mesh_.nodes[node];
    const double s = mesh_.node_points[node].s;
    return weight_of_normal_stress(
        revolved(toe_.sheet->meridian().at(s).tangent, std::atan2(x[1], x[0])), factor);
  }

  /// Adds `factor` times the stress at s, quadratic in its row; false when no row holds it.
  bool add(ToePoint &p, const std::set<Row> &rows, double s, double factor) const {
    for (const Row &row : rows) {
      if (s < row.s[0] - tolerance || s > row.s[2] + tolerance) continue;
      for (int i = 0; i < 3; ++i) {
        const int j = (i + 1) % 3, k = (i + 2) % 3;
        const double shape =
            (s - row.s[j]) * (s - row.s[k]) / ((row.s[i] - row.s[j]) * (row.s[i] - row.s[k]));
        if (std::abs(shape) > tolerance) p.add(row.node[i], weight(row.node[i], factor * shape));
      }
      return true;
    }
    return false;
  }

  std::vector<ToePoint> on_face() const {
    std::vector<ToePoint> all;
    double reached = distances_.back();
    for (const auto &[angle, rows] : face_rows(mesh_, toe_, 1.5 * distances_.back())) {
      ToePoint p = started(angle);
      std::size_t read = 0;
      while (read < s_.size() && add(p, rows, s_[read], weights_[read])) ++read;
      if (read == 0) continue;  // no row that runs away from the toe
      reached = std::min(reached, distances_[read - 1]);
      all.push_back(std::move(p));
    }
    if (all.empty() || reached < distances_.back()) too_short(all.empty() ? 0 : reached);
    return all;
  }

  std::vector<ToePoint> over_thickness() const {
    std::map<long, ToePoint> all;
    for (std::size_t i = 0; i < s_.size(); ++i)
      for (const auto &[angle, column] : columns_at(mesh_, toe_.part, s_[i])) {
        const std::size_t n = column.size();
        if (n < 3 || n % 2 == 0 || column.begin()->first > -1 + 1e-9 ||
            column.rbegin()->first < 1 - 1e-9)
          continue;
        if (i > 0 && all.count(angle) == 0) continue;
        ToePoint &p = all.emplace(angle, started(angle)).first->second;
        std::size_t k = 0;
        for (const auto &[eta, node] : column) {
          // Simpson's rule for membrane + bending at the face: 1 + 6 (1/2 - depth / t)
          const double simpson = (k == 0 || k == n - 1 ? 1.0 : k % 2 ? 4.0 : 2.0) / (3.0 * (n - 1));
          p.add(node, weight(node, weights_[i] * simpson * (1 - 3 * eta)));
          ++k;
        }
      }
    if (all.empty())
      throw Error("read-out '" + rule_.name +
                  "': the mesh has no lines of nodes over the thickness in front of the toe; take "
                  "'linear'");
    std::vector<ToePoint> points;
    for (auto &[angle, p] : all) points.push_back(std::move(p));
    return points;
  }

  [[noreturn]] void too_short(double reached) const {
    std::string fits;
    for (const ToeReadOut &row : toe_read_outs())
      if (read_out_distances(row, toe_.sheet->thickness().at(toe_.s)).back() <= reached)
        fits += (fits.empty() ? "'" : ", '") + row.name + "'";
    throw Error("read-out '" + rule_.name + "' reads " + in_mm(distances_.back()) +
                " in front of the toe, where the sheet has no rows of cells any more; take " +
                (fits.empty() ? "'linear'" : fits));
  }

  const Mesh &mesh_;
  const WeldToe &toe_;
  const ToeReadOut &rule_;
  std::vector<double> distances_, weights_, s_;
};

}  // namespace

std::vector<ToePoint> toe_points(const Mesh &mesh, const WeldToe &toe, const ToeReadOut &rule) {
  return Reader(mesh, toe, rule).points();
}

}  // namespace felloe
