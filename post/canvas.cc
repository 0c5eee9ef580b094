// SPDX-License-Identifier: GPL-3.0-or-later
// One picture: a scene in parallel projection with flat drawing round it, turned into a PNG.
#include "post/detail/canvas.h"

#include <vtkActor.h>
#include <vtkCamera.h>
#include <vtkImageData.h>
#include <vtkLight.h>
#include <vtkLookupTable.h>
#include <vtkMapper.h>
#include <vtkPNGWriter.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRenderWindow.h>
#include <vtkRenderer.h>
#include <vtkUnsignedCharArray.h>

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace felloe::detail {
namespace {

/// Rendered pixels per pixel of the picture, both ways: smooth edges and letters with every
/// graphics driver, software ones included.
constexpr int supersampling = 2;

Vec3 unit(const Vec3 &v) { return scale(1 / norm(v), v); }

Vec3 upright(const Vec3 &up, const Vec3 &towards_eye) {
  return unit(subtract(up, scale(dot(up, towards_eye), towards_eye)));
}

/// Mean of every supersampling x supersampling pixels.
vtkNew<vtkImageData> shrunk(vtkUnsignedCharArray &rendered, int width, int height) {
  vtkNew<vtkImageData> image;
  image->SetDimensions(width, height, 1);
  image->AllocateScalars(VTK_UNSIGNED_CHAR, 3);
  auto *out = static_cast<unsigned char *>(image->GetScalarPointer());
  const unsigned char *const in = rendered.GetPointer(0);
  const int row = 3 * supersampling * width;
  constexpr int n = supersampling * supersampling;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const unsigned char *const corner = in + supersampling * (y * row + 3 * x);
      for (int c = 0; c < 3; ++c) {
        int sum = n / 2;
        for (int j = 0; j < supersampling; ++j)
          for (int i = 0; i < supersampling; ++i) sum += corner[j * row + 3 * i + c];
        *out++ = static_cast<unsigned char>(sum / n);
      }
    }
  return image;
}

/// The scale, and beyond its end one more quarter of one colour, into which all larger values fall.
vtkNew<vtkLookupTable> colour_table(double maximum) {
  constexpr int within = 400, beyond = 100;
  vtkNew<vtkLookupTable> table;
  table->SetNumberOfTableValues(within + beyond);
  table->SetTableRange(0, maximum * (within + beyond) / within);
  for (int i = 0; i < within + beyond; ++i) {
    const Rgb c = i < within ? scale_colour((i + 0.5) / within) : beyond_scale;
    table->SetTableValue(i, c[0], c[1], c[2], 1);
  }
  return table;
}

}  // namespace

Pixel Projection::pixel(const Vec3 &x) const {
  const Vec3 d = subtract(x, focus);
  return {scene_left + scene_width / 2 + pixels_per_mm * dot(d, right()),
          scene_bottom + scene_height / 2 + pixels_per_mm * dot(d, up)};
}

bool Projection::inside(const Vec3 &x) const {
  const auto p = pixel(x);
  return p[0] > scene_left && p[0] < scene_left + scene_width && p[1] > scene_bottom &&
         p[1] < scene_bottom + scene_height;
}

Projection fitted(const std::vector<Vec3> &points, const Vec3 &towards_eye, const Vec3 &up,
                  double filled) {
  Projection p;
  p.towards_eye = unit(towards_eye);
  p.up = upright(up, p.towards_eye);
  const std::array<Vec3, 3> axes{p.right(), p.up, p.towards_eye};
  constexpr double huge = std::numeric_limits<double>::max();
  Vec3 low{huge, huge, huge}, high{-huge, -huge, -huge};
  for (const Vec3 &x : points)
    for (int a = 0; a < 3; ++a) {
      low[a] = std::min(low[a], dot(x, axes[a]));
      high[a] = std::max(high[a], dot(x, axes[a]));
    }
  for (int a = 0; a < 3; ++a) p.focus = add(p.focus, scale((low[a] + high[a]) / 2, axes[a]));
  p.pixels_per_mm = filled * std::min(scene_width / std::max(high[0] - low[0], 1e-9),
                                      scene_height / std::max(high[1] - low[1], 1e-9));
  return p;
}

Projection close_up(const Vec3 &focus, const Vec3 &towards_eye, const Vec3 &up,
                    double half_height) {
  const Vec3 direction = unit(towards_eye);
  return {focus, direction, upright(up, direction), scene_height / (2 * half_height)};
}

Canvas::Canvas() : overlay_(*top_, supersampling) {
  window_->SetOffScreenRendering(1);
  window_->SetMultiSamples(0);
  window_->SetDPI(72);  // a point is a rendered pixel
  window_->SetSize(supersampling * picture_width, supersampling * picture_height);
  window_->SetNumberOfLayers(3);
  int layer = 0;
  for (vtkRenderer *renderer : {page_.Get(), scene_.Get(), top_.Get()}) {
    renderer->SetLayer(layer++);
    renderer->SetBackground(1, 1, 1);
    window_->AddRenderer(renderer);
  }
  scene_->SetViewport(scene_left / picture_width, scene_bottom / picture_height,
                      (scene_left + scene_width) / picture_width,
                      (scene_bottom + scene_height) / picture_height);
  vtkNew<vtkLight> light;
  light->SetLightTypeToCameraLight();
  light->SetPosition(-0.5, 0.6, 1);
  scene_->AddLight(light);
  scene_->GetActiveCamera()->ParallelProjectionOn();
  vtkMapper::SetResolveCoincidentTopologyToPolygonOffset();  // lines stay in front of surfaces
}

Canvas::~Canvas() = default;

void Canvas::start(const Projection &projection) {
  projection_ = projection;
  scene_->RemoveAllViewProps();
  top_->RemoveAllViewProps();
  overlay_.clear();
  vtkCamera *camera = scene_->GetActiveCamera();
  camera->SetFocalPoint(projection.focus.data());
  camera->SetPosition(add(projection.focus, scale(1000, projection.towards_eye)).data());
  camera->SetViewUp(projection.up.data());
  camera->SetParallelScale(scene_height / 2 / projection.pixels_per_mm);
}

void Canvas::surface(vtkActor &actor, vtkPolyData &triangles) {
  vtkProperty *look = actor.GetProperty();
  const bool shaded = triangles.GetPointData()->GetNormals() != nullptr;
  look->SetLighting(shaded);
  look->SetInterpolationToPhong();
  look->SetAmbient(shaded ? 0.62 : 1);  // without shading the colours are those of the scale
  look->SetDiffuse(shaded ? 0.43 : 0);
  look->SetSpecular(0);
  scene_->AddActor(&actor);
}

void Canvas::coloured(vtkPolyData &triangles, double maximum) {
  const auto table = colour_table(maximum);
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(&triangles);
  mapper->SetLookupTable(table);
  mapper->UseLookupTableScalarRangeOn();
  mapper->InterpolateScalarsBeforeMappingOn();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  surface(*actor, triangles);
}

void Canvas::plain(vtkPolyData &triangles, const Rgb &colour) {
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(&triangles);
  mapper->ScalarVisibilityOff();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
  surface(*actor, triangles);
}

void Canvas::lines(vtkPolyData &lines, double width, const Rgb &colour) {
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(&lines);
  mapper->ScalarVisibilityOff();
  vtkNew<vtkActor> actor;
  actor->SetMapper(mapper);
  actor->GetProperty()->SetLighting(false);
  actor->GetProperty()->SetLineWidth(static_cast<float>(supersampling * width));
  actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
  scene_->AddActor(actor);
}

std::string Canvas::png(const std::map<std::string, std::string> &texts) {
  overlay_.flush();
  scene_->ResetCameraClippingRange();
  window_->Render();
  const int width = supersampling * picture_width, height = supersampling * picture_height;
  window_->GetPixelData(0, 0, width - 1, height - 1, 0, rendered_);
  if (rendered_->GetNumberOfValues() != vtkIdType(3) * width * height)
    throw std::runtime_error("the graphics driver gave no picture");
  const auto image = shrunk(*rendered_, picture_width, picture_height);
  vtkNew<vtkPNGWriter> writer;
  writer->SetInputData(image);
  writer->SetCompressionLevel(4);  // 9 takes five times as long for a few percent
  for (const auto &[key, words] : texts) writer->AddText(key.c_str(), words.c_str());
  writer->WriteToMemoryOn();
  writer->Write();
  vtkUnsignedCharArray *bytes = writer->GetResult();
  if (bytes == nullptr || bytes->GetNumberOfValues() == 0)
    throw std::runtime_error("no PNG came out");
  return {reinterpret_cast<const char *>(bytes->GetPointer(0)),
          static_cast<std::size_t>(bytes->GetNumberOfValues())};
}

}  // namespace felloe::detail
