// SPDX-License-Identifier: GPL-3.0-or-later
// What all pictures are made of: triangles, lines and texts for VTK.
#include <fmt/format.h>
#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>

#include "post/detail/picture_frame.h"
#include "post/detail/picture_views.h"

namespace felloe::detail {

vtkNew<vtkPolyData> triangles_of(const std::vector<Vec3> &positions,
                                 const std::vector<std::array<int, 3>> &triangles,
                                 const std::vector<double> &values,
                                 const std::vector<Vec3> &directions) {
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
  if (directions.empty()) return out;
  vtkNew<vtkFloatArray> normals;
  normals->SetNumberOfComponents(3);
  for (const Vec3 &n : directions) normals->InsertNextTuple(n.data());
  out->GetPointData()->SetNormals(normals);
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

std::vector<std::vector<Vec3>> outline_of(const SectionCut &cut, double pixels_per_mm,
                                          double sign) {
  std::vector<std::vector<Vec3>> outline;
  for (const auto &piece : cut.outline) {
    const Vec3 a = drawn(piece[0], sign), b = drawn(piece[1], sign), along = subtract(b, a);
    if (norm(along) == 0) continue;
    const Vec3 more = scale(0.5 / pixels_per_mm / norm(along), along);
    outline.push_back({subtract(a, more), add(b, more)});
  }
  return outline;
}

void draw_sides(Overlay &overlay) {
  const double y = 40, middle = scene_left + scene_width / 2;
  overlay.text(middle - 24, y, "\xE2\x86\x90 inboard", 20, faint_ink, Align::right);
  overlay.text(middle + 24, y, "outboard \xE2\x86\x92", 20, faint_ink);
}

std::map<std::string, std::string> file_texts(const std::string &description, double pixels_per_mm,
                                              double colour_maximum) {
  return {{"Description", description},
          {"pixels per mm", fmt::format("{:.9g}", pixels_per_mm)},
          {"scale bar mm", fmt::format("{:g}", scale_bar_mm(pixels_per_mm))},
          {"colour maximum", fmt::format("{:g}", colour_maximum)}};
}

}  // namespace felloe::detail
