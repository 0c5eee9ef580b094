// SPDX-License-Identifier: GPL-3.0-or-later
// The outer surface of a mesh as fine triangles for pictures, and whether a point can be seen.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// Triangles on the curved faces; points of neighbouring faces are not shared, so that edges stay
/// sharp.
struct Skin {
  std::vector<Vec3> points;   ///< [mm]
  std::vector<Vec3> normals;  ///< unit, out of the material; from the quadratic faces
  std::vector<double> values;
  std::vector<std::array<int, 3>> triangles;   ///< anticlockwise seen from outside
  std::vector<std::vector<Vec3>> sharp_edges;  ///< polylines along the folds of the surface
};

/// Faces that belong to one cell only.
std::vector<CellFace> boundary_faces(const Mesh &);

/// Splits every one of the faces into divisions x divisions x 2 triangles by its quadratic shape
/// functions. Neighbours whose normals differ by more than `fold` [rad] meet in a sharp edge.
Skin skin(const Mesh &, const std::vector<CellFace> &faces, const std::vector<double> &nodal_values,
          int divisions, double fold);

/// True when the straight way from `point` in the direction `towards_eye` (unit) meets no triangle;
/// hits nearer than `clearance` [mm] are the surface that the point lies on and do not count.
bool visible(const Skin &, const Vec3 &point, const Vec3 &towards_eye, double clearance);

/// Values of the three quadratic shape functions with nodes at 0, 1/2, 1.
std::array<double, 3> quadratic_shape(double x);

}  // namespace felloe
