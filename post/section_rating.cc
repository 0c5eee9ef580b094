// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/section_rating.h"

#include <cmath>
#include <map>

namespace felloe {
namespace {

constexpr int vent_angles = 16;  // places on half an edge; the other half repeats them

template <class F>
HarmonicHistory combined(const HarmonicHistory &a, const HarmonicHistory &b,
                         const HarmonicHistory &c, const HarmonicHistory &d, const F &f) {
  return {f(a.mean, b.mean, c.mean, d.mean), f(a.cosine, b.cosine, c.cosine, d.cosine),
          f(a.sine, b.sine, c.sine, d.sine)};
}

template <class F>
SampledHistory combined(const SampledHistory &a, const SampledHistory &b, const SampledHistory &c,
                        const SampledHistory &d, const F &f) {
  SampledHistory all;
  for (std::size_t i = 0; i < a.states.size(); ++i)
    all.states.push_back(f(a.states[i], b.states[i], c.states[i], d.states[i]));
  return all;
}

/// What the section's nodes feel, by node; then the same with the vents' points behind them.
template <class Combine>
auto with_vents(const SectionPoints &points, int n_nodes, const Combine &at_node) {
  return [&points, n_nodes, at_node](int node) {
    if (node < n_nodes) return at_node(node);
    const SectionPoints::VentPoint &v = points.vents[node - n_nodes];
    const auto low0 = at_node(v.first[0]), low1 = at_node(v.second[0]);
    const auto high0 = at_node(v.first[1]), high1 = at_node(v.second[1]);
    const double bending = 2 * (1 + points.poissons_ratio) / (3 + points.poissons_ratio);
    const double c = std::cos(2 * v.alpha), s = std::sin(2 * v.alpha);
    const Vec3 t = v.tangent, round{0, 1, 0};
    const auto edge = [&](const Stress &a, double k) {
      const Vec3 on_round = traction(a, round);
      return (1 - k * c) * normal_stress(a, t) + (1 + k * c) * normal_stress(a, round) -
             2 * k * s * dot(on_round, t);
    };
    return combined(low0, low1, high0, high1,
                    [&](const Stress &a, const Stress &b, const Stress &d, const Stress &e) {
                      const Stress low = (1 - v.weight) * a + v.weight * b;
                      const Stress high = (1 - v.weight) * d + v.weight * e;
                      const double membrane = edge(0.5 * (low + high), 2);
                      const double bent = edge(0.5 * (high - low), bending);
                      return Stress{{membrane + v.side * bent, 0, 0, 0, 0, 0}};
                    });
  };
}

/// The stress at theta = 0 of amplitudes whose cosines are multiplied by c and sines by s.
Stress stress_at(const HarmonicStress &a, double c, double s) {
  return {{c * a.rr, c * a.tt, c * a.zz, s * a.rt, s * a.tz, c * a.zr}};
}

Stress sum_at(const std::vector<const HarmonicSolution *> &steady, int node) {
  Stress sum;
  for (const HarmonicSolution *s : steady) sum = sum + stress_at(s->stress[node], 1, 0);
  return sum;
}

/// Surface nodes of the disc next to a place, below and above it.
void find_neighbours(const SectionMesh &section, double s, SectionPoints::VentPoint &v) {
  for (int side = 0; side < 2; ++side) {
    std::map<double, int> along;
    for (std::size_t n = 0; n < section.nodes.size(); ++n)
      if (section.node_parts[n] == Part::disc &&
          std::abs(section.node_points[n].eta - (2 * side - 1)) < 1e-9)
        along[section.node_points[n].s] = static_cast<int>(n);
    auto above = along.upper_bound(s);
    if (above == along.end()) --above;
    if (above == along.begin()) ++above;
    const auto below = std::prev(above);
    v.first[side] = below->second;
    v.second[side] = above->second;
    v.weight = (s - below->first) / (above->first - below->first);
  }
}

}  // namespace

SectionPoints section_points(const WheelLayout &layout, const SectionMesh &section,
                             const Material &disc) {
  SectionPoints points;
  points.poissons_ratio = disc.poissons_ratio;
  Mesh &mesh = points.mesh;
  for (const Vec2 &x : section.nodes) mesh.nodes.push_back({x[0], 0, x[1]});
  mesh.node_parts = section.node_parts;
  mesh.node_points = section.node_points;
  mesh.parts = section.parts;
  for (const auto &cell : section.cells) {
    mesh.cells.emplace_back();
    for (int i = 0; i < 27; ++i) mesh.cells.back()[i] = cell[i % 9];
  }
  if (layout.vents.empty()) return points;
  const Hole &hole = layout.vents.front();
  SectionPoints::VentPoint vent;
  find_neighbours(section, hole.s, vent);
  vent.tangent = revolved(layout.disc.meridian().at(hole.s).tangent, 0);
  for (const int side : {-1, 1})
    for (int k = 0; k < vent_angles; ++k) {
      vent.side = side;
      vent.alpha = pi * k / vent_angles;
      points.vents.push_back(vent);
      const double s = hole.s + hole.radius * std::cos(vent.alpha);
      mesh.nodes.push_back(layout.disc.position(s, 0, side));
      mesh.node_parts.push_back(Part::disc);
      mesh.node_points.push_back({s, 1.0 * side});
    }
  return points;
}

std::vector<RatedPlace> section_places(const WheelLayout &layout, const SectionPoints &points,
                                       Held held, const ToeReadOut &read_out) {
  Mesh closed = points.mesh;  // the vents' points are no points of the sheet's faces
  const std::size_t n = closed.nodes.size() - points.vents.size();
  closed.nodes.resize(n);
  std::vector<RatedPlace> places = rated_places(layout, closed, held, read_out);
  if (points.vents.empty()) return places;
  RatedPlace vent{"vent edge", Part::disc, Surface::vent_edge, {}, {}, {}};
  for (std::size_t k = 0; k < points.vents.size(); ++k)
    vent.nodes.push_back(static_cast<int>(n + k));
  vent.notes.push_back("vent edge by the formula for one hole in a wide sheet");
  places.push_back(vent);
  return places;
}

TurnHistory section_bending_turn(const std::string &test, const SectionPoints &points,
                                 std::vector<const HarmonicSolution *> steady,
                                 const HarmonicSolution &moment, double scale) {
  TurnHistory turn;
  turn.test = test;
  turn.harmonic = with_vents(
      points, static_cast<int>(moment.stress.size()),
      [steady = std::move(steady), &moment, scale](int node) {
        // the load at phi is met at -phi: cos(0 - phi), sin(0 - phi)
        return HarmonicHistory{sum_at(steady, node), scale * stress_at(moment.stress[node], 1, 0),
                               scale * stress_at(moment.stress[node], 0, -1)};
      });
  return turn;
}

TurnHistory section_rolling_turn(const std::string &test, const SectionPoints &points,
                                 std::vector<const HarmonicSolution *> steady,
                                 std::vector<const HarmonicSolution *> harmonics, double scale,
                                 int positions) {
  TurnHistory turn;
  turn.test = test;
  std::vector<double> cosine, sine;
  for (int k = 0; k < positions; ++k) {
    cosine.push_back(std::cos(2 * pi * k / positions));
    sine.push_back(std::sin(2 * pi * k / positions));
  }
  const int n_nodes = static_cast<int>(harmonics.front()->stress.size());
  turn.sampled =
      with_vents(points, n_nodes,
                 [steady = std::move(steady), harmonics = std::move(harmonics), scale, positions,
                  cosine, sine](int node) {
                   SampledHistory history;
                   history.states.assign(positions, sum_at(steady, node));
                   for (const HarmonicSolution *h : harmonics) {
                     const HarmonicStress &a = h->stress[node];
                     for (int k = 0; k < positions; ++k) {
                       const long turned = static_cast<long>(h->n) * k % positions;
                       history.states[k] =
                           history.states[k] + scale * stress_at(a, cosine[turned], -sine[turned]);
                     }
                   }
                   return history;
                 });
  return turn;
}

}  // namespace felloe
