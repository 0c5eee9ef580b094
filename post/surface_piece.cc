// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/surface_piece.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "post/skin.h"

namespace felloe {
namespace {

constexpr double fold = 35 * pi / 180;  // between neighbouring faces, as in the pictures

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool repeats(const Mesh &mesh, const std::vector<const std::vector<double> *> &fields) {
  if (mesh.symmetry < 2 || mesh.turned.empty()) return false;
  for (const auto *field : fields)
    for (std::size_t i = 0; i < field->size(); ++i)
      if (!same((*field)[i], (*field)[mesh.turned[i]])) return false;
  return true;
}

using Corners = std::array<int, 4>;

Corners corners(const std::array<int, 9> &n) {
  Corners c{n[0], n[2], n[6], n[8]};
  std::sort(c.begin(), c.end());
  return c;
}

/// Angle of the middle of the face, from 0 to 2 pi; a hair below the x axis counts as 0.
double angle(const Mesh &mesh, const CellFace &face) {
  const Vec3 &middle = mesh.nodes[face_nodes(mesh, face)[4]];
  const double theta = std::atan2(middle[1], middle[0]);
  return theta < -1e-6 ? theta + 2 * pi : theta;
}

/// Of all faces that are turned images of each other the one with the smallest angle: by following
/// nodes, not by cutting at an angle, which round-off would make ambiguous on the cut.
std::vector<CellFace> one_sector(const Mesh &mesh, const std::vector<CellFace> &faces) {
  std::map<Corners, std::size_t> by_corners;
  for (std::size_t f = 0; f < faces.size(); ++f)
    by_corners[corners(face_nodes(mesh, faces[f]))] = f;
  std::vector<CellFace> sector;
  std::vector<bool> done(faces.size(), false);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    std::size_t best = f;
    for (std::size_t image = f; !done[image];) {
      done[image] = true;
      if (angle(mesh, faces[image]) < angle(mesh, faces[best])) best = image;
      auto nodes = face_nodes(mesh, faces[image]);
      for (int &n : nodes) n = mesh.turned[n];
      image = by_corners.at(corners(nodes));
      if (image == f) sector.push_back(faces[best]);
    }
  }
  return sector;
}

/// Gathers the points of a surface: one a node and side of a sharp edge.
class Points {
 public:
  explicit Points(SurfacePiece &piece) : piece_(piece) {}

  int at(int node, const Vec3 &normal) {
    std::vector<int> &sides = of_node_[node];
    for (const int point : sides)
      if (dot(piece_.normals[point], normal) > std::cos(fold)) return point;
    sides.push_back(static_cast<int>(piece_.nodes.size()));
    piece_.nodes.push_back(node);
    piece_.normals.push_back(normal);
    return sides.back();
  }

 private:
  SurfacePiece &piece_;
  std::map<int, std::vector<int>> of_node_;
};

/// Triangles between the wanted nodes of a face: its corners, any nodes in the middle of edges, and
/// with one of these the node in the middle of the face, so that neighbours meet without gaps.
void add_triangles(SurfacePiece &piece, const std::array<int, 9> &point,
                   const std::array<bool, 9> &wanted) {
  std::vector<int> border;
  for (const int k : {0, 1, 2, 5, 8, 7, 6, 3})  // anticlockwise
    if (wanted[k]) border.push_back(point[k]);
  if (wanted[4]) {
    for (std::size_t i = 0; i < border.size(); ++i)
      piece.triangles.push_back({point[4], border[i], border[(i + 1) % border.size()]});
  } else {
    piece.triangles.push_back({border[0], border[1], border[2]});
    piece.triangles.push_back({border[0], border[2], border[3]});
  }
}

bool is_corner(int k) { return k == 0 || k == 2 || k == 6 || k == 8; }

std::size_t count_nodes(const Mesh &mesh, const std::vector<CellFace> &faces) {
  std::vector<bool> seen(mesh.nodes.size(), false);
  for (const CellFace &face : faces)
    for (const int n : face_nodes(mesh, face)) seen[n] = true;
  return static_cast<std::size_t>(std::count(seen.begin(), seen.end(), true));
}

/// The nodes and all their turned images.
std::vector<bool> with_images(const Mesh &mesh, const std::vector<int> &nodes, int sectors) {
  std::vector<bool> marked(mesh.nodes.size(), false);
  for (int node : nodes)
    for (int s = 0; s < sectors; ++s) {
      marked[node] = true;
      if (sectors > 1) node = mesh.turned[node];
    }
  return marked;
}

}  // namespace

SurfacePiece surface_piece(const Mesh &mesh, const std::vector<const std::vector<double> *> &fields,
                           const std::vector<int> &needed, std::size_t most_points) {
  SurfacePiece piece;
  const auto all_faces = boundary_faces(mesh);
  for (const auto &line : skin(mesh, all_faces, {}, 2, fold).sharp_edges)
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
      piece.sharp_edges.push_back({line[i], line[i + 1]});

  piece.sectors = repeats(mesh, fields) ? mesh.symmetry : 1;
  const auto faces = piece.sectors > 1 ? one_sector(mesh, all_faces) : all_faces;
  const bool all_nodes = count_nodes(mesh, faces) <= most_points;
  const std::vector<bool> always = with_images(mesh, needed, piece.sectors);
  const Skin exact = skin(mesh, faces, {}, 2, fold);  // nine points a face, in the order of nodes
  Points points(piece);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    const auto nodes = face_nodes(mesh, faces[f]);
    std::array<bool, 9> wanted{};
    for (int k = 0; k < 9; ++k) wanted[k] = all_nodes || is_corner(k) || always[nodes[k]];
    wanted[4] = wanted[1] || wanted[3] || wanted[4] || wanted[5] || wanted[7];
    std::array<int, 9> point{};
    for (int k = 0; k < 9; ++k)
      if (wanted[k]) point[k] = points.at(nodes[k], exact.normals[9 * f + k]);
    add_triangles(piece, point, wanted);
    piece.middles.resize(piece.triangles.size(), nodes[4]);
  }
  return piece;
}

}  // namespace felloe
