// SPDX-License-Identifier: GPL-3.0-or-later
// Flat drawing on top of a scene, in pixels of the finished picture, origin below left.
#include <vtkActor2D.h>
#include <vtkCellArray.h>
#include <vtkNew.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper2D.h>
#include <vtkProperty2D.h>
#include <vtkRenderer.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <sstream>

#include "mesher/vec3.h"
#include "post/detail/overlay.h"

namespace felloe::detail {
namespace {

/// VTK's own sans-serif draws brackets like parentheses; DejaVu comes with fontconfig on Debian.
std::string font_file(bool bold) {
  const std::string file =
      std::string("/usr/share/fonts/truetype/dejavu/DejaVuSans") + (bold ? "-Bold.ttf" : ".ttf");
  std::error_code ignored;
  return std::filesystem::exists(file, ignored) ? file : "";
}

}  // namespace

void Overlay::polygon(const std::vector<std::array<double, 2>> &corners, const Rgb &colour) {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> cells;
  cells->InsertNextCell(static_cast<int>(corners.size()));
  for (const auto &corner : corners)
    cells->InsertCellPoint(
        points->InsertNextPoint(supersampling_ * corner[0], supersampling_ * corner[1], 0));
  vtkNew<vtkPolyData> shape;
  shape->SetPoints(points);
  shape->SetPolys(cells);
  vtkNew<vtkPolyDataMapper2D> mapper;
  mapper->SetInputData(shape);
  vtkNew<vtkActor2D> actor;
  actor->SetMapper(mapper);
  actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
  renderer_.AddActor2D(actor);
}

void Overlay::line(double x0, double y0, double x1, double y1, double width, const Rgb &colour) {
  const double length = std::hypot(x1 - x0, y1 - y0);
  if (length == 0) return;
  const double nx = -(y1 - y0) / length * width / 2, ny = (x1 - x0) / length * width / 2;
  polygon({{x0 + nx, y0 + ny}, {x0 - nx, y0 - ny}, {x1 - nx, y1 - ny}, {x1 + nx, y1 + ny}}, colour);
}

void Overlay::disc(double x, double y, double radius, const Rgb &colour) {
  constexpr int corners = 40;
  std::vector<std::array<double, 2>> circle;
  for (int i = 0; i < corners; ++i)
    circle.push_back(
        {x + radius * std::cos(2 * pi * i / corners), y + radius * std::sin(2 * pi * i / corners)});
  polygon(circle, colour);
}

void Overlay::ring(double x, double y, double inner, double outer, const Rgb &colour) {
  constexpr int pieces = 40;
  const auto at = [&](double radius, int i) {
    return std::array<double, 2>{x + radius * std::cos(2 * pi * i / pieces),
                                 y + radius * std::sin(2 * pi * i / pieces)};
  };
  for (int i = 0; i < pieces; ++i)
    polygon({at(inner, i), at(outer, i), at(outer, i + 1), at(inner, i + 1)}, colour);
}

void Overlay::rectangle(double x, double y, double width, double height, const Rgb &colour) {
  polygon({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, colour);
}

void Overlay::text(double x, double y, const std::string &words, double size, const Rgb &colour,
                   Align align, bool bold) {
  if (words.empty()) return;
  vtkNew<vtkTextActor> actor;
  actor->SetInput(words.c_str());
  actor->SetTextScaleModeToNone();
  actor->SetPosition(supersampling_ * x, supersampling_ * y);
  vtkTextProperty *style = actor->GetTextProperty();
  const std::string font = font_file(bold);
  style->SetFontFamily(font.empty() ? VTK_ARIAL : VTK_FONT_FILE);
  if (!font.empty()) style->SetFontFile(font.c_str());
  style->SetFontSize(static_cast<int>(supersampling_ * size));
  style->SetBold(bold);
  style->SetColor(colour[0], colour[1], colour[2]);
  style->SetVerticalJustificationToCentered();
  if (align == Align::centre)
    style->SetJustificationToCentered();
  else if (align == Align::right)
    style->SetJustificationToRight();
  renderer_.AddActor2D(actor);
}

// Eight of nine points of the map "magma" (S. van der Walt, N. Smith, 2015, CC0), light end first:
// perceptually uniform, safe for the colour-blind, readable in grey. Light where stress is low, so
// that the shading shows the shape of the wheel; its black end is left out.
Rgb scale_colour(double fraction) {
  constexpr std::array<unsigned, 8> points{0xfcfdbf, 0xfec287, 0xfb8861, 0xe65164,
                                           0xb63679, 0x822681, 0x51127c, 0x1d1147};
  const double place = 7 * std::clamp(fraction, 0.0, 1.0);
  const int below = std::min(6, static_cast<int>(place));
  const auto channel = [](unsigned colour, int c) {
    return (colour >> (16 - 8 * c) & 0xff) / 255.0;
  };
  Rgb colour;
  for (int c = 0; c < 3; ++c) {
    const double low = channel(points[below], c), high = channel(points[below + 1], c);
    colour[c] = low + (place - below) * (high - low);
  }
  return colour;
}

double round_scale_end(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double factor : {1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (factor * power >= value * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

std::vector<double> ticks(double maximum) {
  const double power = std::pow(10.0, std::floor(std::log10(maximum)));
  double step = power;
  for (const double factor : {0.1, 0.2, 0.25, 0.5, 1.0, 2.0}) {
    step = factor * power;
    if (maximum / step <= 8) break;
  }
  std::vector<double> values;
  for (int i = 0; i * step <= maximum * (1 + 1e-9); ++i) values.push_back(i * step);
  return values;
}

std::vector<std::string> rows(const std::string &text, std::size_t width) {
  std::istringstream words(text);
  std::vector<std::string> out;
  std::string word;
  while (words >> word) {
    if (!out.empty() && out.back().size() + 1 + word.size() <= width)
      out.back() += " " + word;
    else
      out.push_back(word);
  }
  return out;
}

}  // namespace felloe::detail
