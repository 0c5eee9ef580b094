// SPDX-License-Identifier: GPL-3.0-or-later
// Flat drawing on top of a scene, in units of the drawing, origin below left.
#include "post/detail/overlay.h"

#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkStdString.h>
#include <vtkTextProperty.h>
#include <vtkTextRenderer.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <mutex>
#include <sstream>
#include <stdexcept>

#include "mesher/vec3.h"

namespace felloe::detail {
namespace {

/// VTK's own sans-serif draws brackets like parentheses; DejaVu comes with fontconfig on Debian.
std::string font_file(bool bold) {
  const std::string file =
      std::string("/usr/share/fonts/truetype/dejavu/DejaVuSans") + (bold ? "-Bold.ttf" : ".ttf");
  std::error_code ignored;
  return std::filesystem::exists(file, ignored) ? file : "";
}

/// Lays the letters over the picture, their origin at `at`.
void blend(vtkImageData &letters, const Pixel &at, const Rgb8 &colour, Image &image) {
  const int *box = letters.GetExtent();
  const int left = static_cast<int>(std::lround(at[0])), low = static_cast<int>(std::lround(at[1]));
  for (int y = box[2]; y <= box[3]; ++y)
    for (int x = box[0]; x <= box[1]; ++x) {
      const int column = left + x, row = image.height - 1 - (low + y);
      if (column < 0 || column >= image.width || row < 0 || row >= image.height) continue;
      const int cover = static_cast<const std::uint8_t *>(letters.GetScalarPointer(x, y, 0))[3];
      std::uint8_t *pixel = &image.rgb[3 * (std::size_t(row) * image.width + column)];
      for (int c = 0; c < 3; ++c)
        pixel[c] =
            static_cast<std::uint8_t>((pixel[c] * (255 - cover) + colour[c] * cover + 127) / 255);
    }
}

Pixel on_circle(const Pixel &centre, double radius, double angle) {
  return {centre[0] + radius * std::cos(angle), centre[1] + radius * std::sin(angle)};
}

}  // namespace

Rgb8 bytes_of(const Rgb &colour) {
  Rgb8 out;
  for (int c = 0; c < 3; ++c) out[c] = static_cast<std::uint8_t>(std::lround(255 * colour[c]));
  return out;
}

void Overlay::polygon(std::vector<Pixel> corners, const Rgb &colour) {
  polygons_.push_back({std::move(corners), colour});
}

void Overlay::line(const Pixel &from, const Pixel &to, double width, const Rgb &colour) {
  const double dx = to[0] - from[0], dy = to[1] - from[1], length = std::hypot(dx, dy);
  if (length == 0) return;
  const double nx = -dy / length * width / 2, ny = dx / length * width / 2;
  polygon({{from[0] + nx, from[1] + ny},
           {from[0] - nx, from[1] - ny},
           {to[0] - nx, to[1] - ny},
           {to[0] + nx, to[1] + ny}},
          colour);
}

void Overlay::polyline(const std::vector<Pixel> &points, double width, const Rgb &colour) {
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    line(points[i], points[i + 1], width, colour);
    if (i > 0 && width > 2) disc(points[i], width / 2, colour);  // no gaps at the corners
  }
}

void Overlay::arrow(const Pixel &from, const Pixel &to, double width, const Rgb &colour) {
  const double dx = to[0] - from[0], dy = to[1] - from[1], length = std::hypot(dx, dy);
  if (length == 0) return;
  const double head = std::min(5 * width, length), ux = dx / length, uy = dy / length;
  const Pixel neck{to[0] - head * ux, to[1] - head * uy};
  line(from, {neck[0] + ux, neck[1] + uy}, width, colour);
  polygon({to,
           {neck[0] - 0.38 * head * uy, neck[1] + 0.38 * head * ux},
           {neck[0] + 0.38 * head * uy, neck[1] - 0.38 * head * ux}},
          colour);
}

void Overlay::disc(const Pixel &centre, double radius, const Rgb &colour) {
  const int corners = std::max(12, static_cast<int>(2.5 * radius));
  std::vector<Pixel> circle;
  for (int i = 0; i < corners; ++i)
    circle.push_back(on_circle(centre, radius, 2 * pi * i / corners));
  polygon(std::move(circle), colour);
}

void Overlay::ring(const Pixel &centre, double inner, double outer, const Rgb &colour) {
  constexpr int pieces = 40;
  for (int i = 0; i < pieces; ++i) {
    const double a = 2 * pi * i / pieces, b = 2 * pi * (i + 1) / pieces;
    polygon({on_circle(centre, inner, a), on_circle(centre, outer, a), on_circle(centre, outer, b),
             on_circle(centre, inner, b)},
            colour);
  }
}

void Overlay::rectangle(double x, double y, double width, double height, const Rgb &colour) {
  polygon({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, colour);
}

void Overlay::box(double x, double y, double width, double height, double border,
                  const Rgb &colour) {
  rectangle(x, y, width, height, colour);
  rectangle(x + border, y + border, width - 2 * border, height - 2 * border, white);
}

void Overlay::text(double x, double y, const std::string &words, double size, const Rgb &colour,
                   Align align, bool bold) {
  if (!words.empty()) texts_.push_back({{x, y}, words, size, colour, align, bold});
}

void Overlay::clear() {
  polygons_.clear();
  texts_.clear();
}

void Overlay::draw_shapes(Raster &raster) const {
  for (const Polygon &p : polygons_) raster.polygon(p.corners, bytes_of(p.colour));
}

void Overlay::write_texts(Image &image, double pixels_per_unit) const {
  static std::mutex one_at_a_time;  // VTK keeps its fonts in one place
  const std::lock_guard<std::mutex> lock(one_at_a_time);
  for (const Words &t : texts_) {
    vtkNew<vtkTextProperty> style;
    const std::string font = font_file(t.bold);
    style->SetFontFamily(font.empty() ? VTK_ARIAL : VTK_FONT_FILE);
    if (!font.empty()) style->SetFontFile(font.c_str());
    style->SetFontSize(static_cast<int>(std::lround(pixels_per_unit * t.size)));
    style->SetBold(t.bold);
    style->SetVerticalJustificationToCentered();
    if (t.align == Align::centre)
      style->SetJustificationToCentered();
    else if (t.align == Align::right)
      style->SetJustificationToRight();
    constexpr int a_point_is_a_pixel = 72;
    vtkNew<vtkImageData> letters;
    int size[2];
    if (!vtkTextRenderer::GetInstance()->RenderString(style.Get(), t.words, letters.Get(), size,
                                                      a_point_is_a_pixel))
      throw std::runtime_error("pictures: no letters came out of '" + t.words + "'");
    blend(*letters, {pixels_per_unit * t.at[0], pixels_per_unit * t.at[1]}, bytes_of(t.colour),
          image);
  }
}

double text_width(const std::string &words, double size, bool bold) {
  // UTF-8: bytes that continue a letter have no width.
  const auto letters =
      std::count_if(words.begin(), words.end(), [](char c) { return (c & 0xC0) != 0x80; });
  return (bold ? 0.66 : 0.58) * size * static_cast<double>(letters);
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
