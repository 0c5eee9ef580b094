// SPDX-License-Identifier: GPL-3.0-or-later
// Finds the mirror planes of a mesh by its nodes and checks them cell by cell.
#include "solver/detail/wedge_mesh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>

#include "solver/detail/sector_mesh.h"

namespace felloe::detail {
namespace {

constexpr double same_place = 1e-6;  ///< [mm]; nodes of a wheel are farther apart than 0.01 mm

/// Nodes by their place, in a grid of cubes.
class NodeFinder {
 public:
  explicit NodeFinder(const std::vector<Vec3> &nodes) : nodes_(nodes) {
    cube_.reserve(2 * nodes.size());
    for (std::size_t n = 0; n < nodes.size(); ++n)
      cube_.emplace(key(index(nodes[n], 0), index(nodes[n], 1), index(nodes[n], 2)),
                    static_cast<int>(n));
  }

  /// The nodes at a place: several where parts touch without being joined.
  void at(const Vec3 &x, std::vector<int> &found) const {
    found.clear();
    std::array<std::array<long, 2>, 3> reach;
    for (int i = 0; i < 3; ++i)
      reach[i] = {index({x[0] - same_place, x[1] - same_place, x[2] - same_place}, i),
                  index({x[0] + same_place, x[1] + same_place, x[2] + same_place}, i)};
    for (long a = reach[0][0]; a <= reach[0][1]; ++a)
      for (long b = reach[1][0]; b <= reach[1][1]; ++b)
        for (long c = reach[2][0]; c <= reach[2][1]; ++c) {
          const auto [first, last] = cube_.equal_range(key(a, b, c));
          for (auto it = first; it != last; ++it)
            if (norm(subtract(nodes_[it->second], x)) < same_place) found.push_back(it->second);
        }
  }

 private:
  static constexpr double width = 0.02;  ///< [mm]
  static long index(const Vec3 &x, int i) { return static_cast<long>(std::floor(x[i] / width)); }
  static std::uint64_t key(long a, long b, long c) {
    return static_cast<std::uint64_t>(a + (1L << 20)) |
           static_cast<std::uint64_t>(b + (1L << 20)) << 21 |
           static_cast<std::uint64_t>(c + (1L << 20)) << 42;
  }
  const std::vector<Vec3> &nodes_;
  std::unordered_multimap<std::uint64_t, int> cube_;
};

Vec3 mirrored(const Vec3 &x, double angle) {
  const double c = std::cos(2 * angle), s = std::sin(2 * angle);
  return {c * x[0] + s * x[1], s * x[0] - c * x[1], x[2]};
}

Vec3 turned(const Vec3 &x, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * x[0] - s * x[1], s * x[0] + c * x[1], x[2]};
}

/// Angle from `reference` on, within half a turn to either side; half a turn itself is -pi.
double angle_from(double reference, const Vec3 &x) {
  const double a = std::remainder(std::atan2(x[1], x[0]) - reference, 2 * pi);
  return (pi - a) * std::hypot(x[0], x[1]) < same_place ? a - 2 * pi : a;
}

Vec3 centre(const Mesh &mesh, int cell) { return mesh.nodes[mesh.cells[cell][13]]; }

/// Planes worth a trial: a mirror plane without cells astride runs through corner nodes of every
/// circle. Taken from the node nearest to the axis and those turned from it.
std::vector<double> candidates(const Mesh &mesh, double sector) {
  int inner = 0;
  const auto radius = [&](int n) { return std::hypot(mesh.nodes[n][0], mesh.nodes[n][1]); };
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (radius(n) < radius(inner) - same_place) inner = static_cast<int>(n);
  std::vector<double> angles;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (std::abs(radius(n) - radius(inner)) < same_place &&
        std::abs(mesh.nodes[n][2] - mesh.nodes[inner][2]) < same_place) {
      const double a = angle_from(0, mesh.nodes[n]);
      if (a > -1e-9 && a < sector - 1e-9) angles.push_back(a);
    }
  std::sort(angles.begin(), angles.end());
  return angles;
}

/// A hundred nodes have images.
bool is_likely(const Mesh &mesh, const NodeFinder &finder, double angle) {
  std::vector<int> found;
  for (std::size_t i = 0; i < 100; ++i) {
    finder.at(mirrored(mesh.nodes[i * mesh.nodes.size() / 100], angle), found);
    if (found.empty()) return false;
  }
  return true;
}

/// Cells between the angles -width and 0 from the plane; empty when one stands astride of a border.
std::vector<int> cells_between(const Mesh &mesh, double plane, double width) {
  std::vector<int> cells;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const double a = angle_from(plane, centre(mesh, static_cast<int>(c)));
    if (!(a > -width && a < 0)) continue;
    for (const int n : mesh.cells[c]) {
      const double b = angle_from(plane, mesh.nodes[n]);
      const double r = std::hypot(mesh.nodes[n][0], mesh.nodes[n][1]);
      if ((b + width) * r < -same_place || b * r > same_place) return {};
    }
    cells.push_back(static_cast<int>(c));
  }
  return cells;
}

/// Where each node of the wedge comes to by the mirror, cell by cell, so that parts that touch
/// without being joined are not mixed up. Empty when a cell has no equal image.
std::vector<int> images(const Mesh &mesh, const std::vector<int> &cells, double plane,
                        const NodeFinder &finder) {
  std::vector<int> cell_of_centre(mesh.nodes.size(), -1), image(mesh.nodes.size(), -1), found;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    cell_of_centre[mesh.cells[c][13]] = static_cast<int>(c);
  for (const int c : cells) {
    finder.at(mirrored(centre(mesh, c), plane), found);
    const int other = found.size() == 1 ? cell_of_centre[found[0]] : -1;
    if (other < 0 || mesh.parts[other] != mesh.parts[c]) return {};
    const auto &nodes = mesh.cells[other];
    for (const int n : mesh.cells[c]) {
      const Vec3 x = mirrored(mesh.nodes[n], plane);
      const auto at = std::find_if(nodes.begin(), nodes.end(), [&](int m) {
        return norm(subtract(mesh.nodes[m], x)) < same_place;
      });
      if (at == nodes.end() || (image[n] >= 0 && image[n] != *at)) return {};
      image[n] = *at;
    }
  }
  return image;
}

bool pairs_have_images(const Mesh &mesh, const std::vector<int> &image) {
  std::vector<int> rim_of(mesh.nodes.size(), -1);
  for (const PressFitPair &p : mesh.press_fit) rim_of[p.disc_node] = p.rim_node;
  return std::all_of(mesh.press_fit.begin(), mesh.press_fit.end(), [&](const PressFitPair &p) {
    const int disc = image[p.disc_node], rim = image[p.rim_node];
    return disc < 0 || rim < 0 || rim_of[disc] == rim;
  });
}

/// The piece with its maps for one plane; empty when the plane is none.
std::optional<WedgeMesh> wedge_at(const Mesh &mesh, const std::vector<int> &turned_node,
                                  int n_sectors, double plane, const NodeFinder &finder) {
  const double width = pi / n_sectors;
  WedgeMesh wedge;
  wedge.angle = plane;
  wedge.cells = cells_between(mesh, plane, width);
  if (wedge.cells.size() * 2 * n_sectors != mesh.cells.size()) return std::nullopt;
  const std::vector<int> image = images(mesh, wedge.cells, plane, finder);
  if (image.empty() || !pairs_have_images(mesh, image)) return std::nullopt;
  Piece cut = cut_out(mesh, wedge.cells);
  std::vector<int> reflected;
  for (const int n : cut.nodes) reflected.push_back(image[n]);
  for (int k = 0; k < n_sectors; ++k) {
    wedge.whole.push_back(cut.nodes);
    wedge.whole.push_back(reflected);
    for (int &n : cut.nodes) n = turned_node[n];
    for (int &n : reflected) n = turned_node[n];
  }
  wedge.piece = std::move(cut.mesh);
  for (std::size_t n = 0; n < wedge.piece.nodes.size(); ++n) {
    Vec3 &x = wedge.piece.nodes[n];
    x = turned(x, -plane);
    const double r = std::hypot(x[0], x[1]), a = angle_from(0, x);
    const int node = static_cast<int>(n);
    if (std::abs(a) * r < same_place) {
      if (wedge.whole[0][n] != wedge.whole[1][n]) return std::nullopt;
      wedge.mirror.push_back(node);
    } else if (std::abs(a + width) * r < same_place) {
      if (wedge.whole[1][n] != wedge.whole[2 % wedge.whole.size()][n]) return std::nullopt;
      wedge.cut.push_back(node);
    }
  }
  return wedge;
}

}  // namespace

std::optional<WedgeMesh> wedge_mesh(const Mesh &mesh) {
  const int n_sectors = sector_count(mesh.symmetry);
  if (n_sectors > 1 && mesh.turned.size() != mesh.nodes.size()) return std::nullopt;
  for (const Vec3 &x : mesh.nodes)
    if (std::hypot(x[0], x[1]) < same_place) return std::nullopt;  // no angle on the axis
  const std::vector<int> turned_node = turned_by_sector(mesh, n_sectors);
  const NodeFinder finder(mesh.nodes);
  for (const double plane : candidates(mesh, 2 * pi / n_sectors))
    if (is_likely(mesh, finder, plane)) {
      auto wedge = wedge_at(mesh, turned_node, n_sectors, plane, finder);
      if (wedge) return wedge;
    }
  return std::nullopt;
}

}  // namespace felloe::detail
