// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a wheel: what each shows and what is written round it.
#include "post/detail/picture_views.h"

#include <fmt/format.h>
#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>

#include <algorithm>
#include <limits>

#include "post/detail/picture_frame.h"

namespace felloe::detail {
namespace {

template <class Points>
vtkNew<vtkPolyData> triangles_of(const Points &positions,
                                 const std::vector<std::array<int, 3>> &triangles,
                                 const std::vector<double> &values) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkDoubleArray> scalars;
  for (const Vec3 &x : positions) points->InsertNextPoint(x.data());
  for (const double value : values) scalars->InsertNextValue(value);
  vtkNew<vtkCellArray> cells;
  for (const auto &t : triangles) {
    const vtkIdType nodes[3] = {t[0], t[1], t[2]};
    cells->InsertNextCell(3, nodes);
  }
  vtkNew<vtkPolyData> out;
  out->SetPoints(points);
  out->SetPolys(cells);
  out->GetPointData()->SetScalars(scalars);
  return out;
}

vtkNew<vtkPolyData> lines_of(const std::vector<std::vector<Vec3>> &polylines) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  for (const auto &polyline : polylines) {
    cells->InsertNextCell(static_cast<int>(polyline.size()));
    for (const Vec3 &x : polyline) cells->InsertCellPoint(points->InsertNextPoint(x.data()));
  }
  vtkNew<vtkPolyData> out;
  out->SetPoints(points);
  out->SetLines(cells);
  return out;
}

/// Markers may lie this deep under the surface [mm]: hot spots come from nodes, the surface is made
/// of chords.
constexpr double clearance = 1;

/// Points of the section as they are drawn: z to the right, r upwards.
Vec3 drawn(const Vec2 &rz) { return {rz[1], rz[0], 0}; }

}  // namespace

std::string wheel_picture(const PictureContent &content, const Projection &projection,
                          const std::string &heading) {
  const Skin &skin = content.skin;
  const auto surface = triangles_of(skin.points, skin.triangles, skin.values);
  vtkNew<vtkFloatArray> normals;
  normals->SetNumberOfComponents(3);
  for (const Vec3 &n : skin.normals) normals->InsertNextTuple(n.data());
  surface->GetPointData()->SetNormals(normals);
  Canvas canvas(projection);
  canvas.surface(*surface, content.colour_maximum);
  const auto edges = lines_of(skin.sharp_edges);
  canvas.lines(*edges, 1.3, ink);

  std::vector<Shown> shown;
  for (const Marker &m : content.markers)
    shown.push_back({projection.pixel(m.position),
                     projection.inside(m.position) &&
                         visible(skin, m.position, projection.towards_eye, clearance)});
  draw_frame(canvas.overlay(), content, heading, shown, projection.pixels_per_mm);
  return canvas.png();
}

Vec3 best_direction(const Skin &skin, const Vec3 &marker) {
  double nearest = std::numeric_limits<double>::max();
  for (const Vec3 &x : skin.points) nearest = std::min(nearest, norm(subtract(x, marker)));
  Vec3 normal{};  // mean over the faces that meet at the marker
  for (std::size_t i = 0; i < skin.points.size(); ++i)
    if (norm(subtract(skin.points[i], marker)) < nearest + 0.5)
      normal = add(normal, skin.normals[i]);
  const Vec3 front = front_direction, back = back_direction;
  if (norm(normal) > 0) normal = scale(1 / norm(normal), normal);
  Vec3 best{};
  double best_score = -2;
  for (const Vec3 &base : {front, back, normal, add(normal, scale(1 / norm(front), front)),
                           add(normal, scale(1 / norm(back), back))}) {
    if (norm(base) < 1e-6) continue;
    const Vec3 direction = scale(1 / norm(base), base);
    // Along the axis one sees most of the neighbourhood; from the side the rim is in the way.
    const double score = dot(direction, normal) + 0.8 * std::abs(direction[2]);
    if (score > best_score && visible(skin, marker, direction, clearance)) {
      best = direction;
      best_score = score;
    }
  }
  return best;
}

std::string section_picture(const PictureContent &content, const SectionCut &cut, double theta) {
  std::vector<Vec3> points;
  for (const Vec2 &rz : cut.points) points.push_back(drawn(rz));
  const Projection projection = fitted(points, {0, 0, 1}, {0, 1, 0});
  Canvas canvas(projection);
  const auto surface = triangles_of(points, cut.triangles, cut.values);
  canvas.surface(*surface, content.colour_maximum);
  std::vector<std::vector<Vec3>> outline;
  for (const auto &piece : cut.outline) {
    const Vec3 a = drawn(piece[0]), b = drawn(piece[1]), along = subtract(b, a);
    if (norm(along) == 0) continue;
    // Half a pixel longer at both ends: without it short pieces leave gaps.
    const Vec3 more = scale(0.5 / projection.pixels_per_mm / norm(along), along);
    outline.push_back({subtract(a, more), add(b, more)});
  }
  const auto border = lines_of(outline);
  canvas.lines(*border, 1.6, ink);

  std::vector<Shown> shown;
  for (const Marker &m : content.markers) {
    const Vec3 &x = m.position;
    const double r = std::cos(theta) * x[0] + std::sin(theta) * x[1];
    const double off = std::cos(theta) * x[1] - std::sin(theta) * x[0];
    shown.push_back({projection.pixel(drawn({r, x[2]})), std::abs(off) < 1 && r > 0});
  }
  double degrees = theta * 180 / pi;
  if (degrees < 0) degrees += 360;
  draw_frame(canvas.overlay(), content,
             fmt::format("section at {:.1f} degrees, through the worst hot spot", degrees), shown,
             projection.pixels_per_mm);
  const double y = scene_bottom - 22;
  canvas.overlay().text(scene_width / 2 - 20, y, "< inboard", 20, faint_ink, Align::right);
  canvas.overlay().text(scene_width / 2 + 20, y, "outboard >", 20, faint_ink, Align::left);
  return canvas.png();
}

}  // namespace felloe::detail
