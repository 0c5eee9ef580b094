// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/svg.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>

#include "post/html/text.h"

namespace felloe {
namespace {

std::string px(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", value);
  return text;
}

std::string attribute(const char *name, double value) {
  return std::string(" ") + name + "=\"" + px(value) + "\"";
}

}  // namespace

std::string scoped_css(const std::string &css, const std::string &element) {
  std::istringstream lines(css);
  std::string scoped, line;
  while (std::getline(lines, line)) {
    const auto start = line.find_first_not_of(' ');
    if (start != std::string::npos) scoped += element + " " + line.substr(start) + "\n";
  }
  return scoped;
}

void Svg::line(const Pixel &a, const Pixel &b, const std::string &style) {
  body_ += "<line class=\"" + style + "\"" + attribute("x1", a[0]) + attribute("y1", a[1]) +
           attribute("x2", b[0]) + attribute("y2", b[1]) + "/>\n";
}

void Svg::points(const char *element, const std::vector<Pixel> &all, const std::string &style) {
  body_ += std::string("<") + element + " class=\"" + style + "\" points=\"";
  for (const auto &p : all) body_ += px(p[0]) + "," + px(p[1]) + " ";
  body_ += "\"/>\n";
}

void Svg::polyline(const std::vector<Pixel> &all, const std::string &style) {
  points("polyline", all, style);
}

void Svg::polygon(const std::vector<Pixel> &all, const std::string &style) {
  points("polygon", all, style);
}

void Svg::dot(const Pixel &centre, double radius, const std::string &style) {
  body_ += "<circle class=\"" + style + "\"" + attribute("cx", centre[0]) +
           attribute("cy", centre[1]) + attribute("r", radius) + "/>\n";
}

void Svg::linked_dot(const Pixel &centre, double radius, const std::string &style,
                     const std::string &href, const std::string &tip) {
  holds_links_ = true;
  body_ += "<a href=\"" + html_text(href) + "\"><title>" + html_text(tip) + "</title>";
  dot(centre, radius, style);
  body_ += "</a>\n";
}

void Svg::text(const Pixel &at, const std::string &text, const std::string &style,
               const std::string &anchor, double turned) {
  body_ += "<text class=\"" + style + "\"" + attribute("x", at[0]) + attribute("y", at[1]) +
           " text-anchor=\"" + anchor + "\"";
  if (turned != 0)
    body_ += " transform=\"rotate(" + px(turned) + " " + px(at[0]) + " " + px(at[1]) + ")\"";
  body_ += ">" + html_text(text) + "</text>\n";
}

void Svg::mark(const Pixel &c, double radius, int kind, const std::string &style) {
  constexpr double pi = 3.14159265358979323846;
  constexpr struct {
    int corners;
    double start;  // angle of the first corner [deg]
  } shapes[] = {{0, 0}, {4, 45}, {3, -90}, {4, 0}, {3, 90}};
  const auto shape = shapes[kind % 5];
  if (shape.corners == 0) return dot(c, radius, style);
  // n sin(2 pi / n) R^2 / 2 = pi r^2
  const double n = shape.corners, reach = radius * std::sqrt(2 * pi / (n * std::sin(2 * pi / n)));
  std::vector<Pixel> corners;
  for (int i = 0; i < shape.corners; ++i) {
    const double angle = shape.start * pi / 180 + 2 * pi * i / n;
    corners.push_back({c[0] + reach * std::cos(angle), c[1] + reach * std::sin(angle)});
  }
  polygon(corners, style);
}

void Svg::dimension(const Pixel &a, const Pixel &b, const std::string &style) {
  line(a, b, style);
  const double length = std::hypot(b[0] - a[0], b[1] - a[1]);
  if (length < 1e-9) return;
  const Pixel along = {(b[0] - a[0]) / length, (b[1] - a[1]) / length};
  const double head = std::min(9.0, 0.45 * length), half = 0.28 * head;
  for (const auto &[tip, way] : {std::pair(a, 1.0), std::pair(b, -1.0)}) {
    const Pixel back = {tip[0] + way * head * along[0], tip[1] + way * head * along[1]};
    polygon({tip,
             {back[0] - half * along[1], back[1] + half * along[0]},
             {back[0] + half * along[1], back[1] - half * along[0]}},
            "arrow");
  }
}

std::string Svg::file(double width, double height, const std::string &title, const std::string &css,
                      const std::string &definitions) const {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
         "<svg xmlns=\"http://www.w3.org/2000/svg\"" +
         attribute("width", width) + attribute("height", height) + " viewBox=\"0 0 " + px(width) +
         " " + px(height) + "\">\n<title>" + html_text(title) + "</title>\n<style>\n" + css +
         "</style>\n<defs>\n" + definitions + "</defs>\n" +
         "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n" + body_ + "</svg>\n";
}

std::string Svg::element(double width, double height, const std::string &id,
                         const std::string &style, const std::string &title,
                         const std::string &description, const std::string &definitions) const {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" id=\"" + id + "\" class=\"" + style +
         "\" viewBox=\"0 0 " + px(width) + " " + px(height) + "\" role=\"" +
         (holds_links_ ? "group" : "img") + "\" aria-labelledby=\"" + id + "-title " + id +
         "-description\">\n<title id=\"" + id + "-title\">" + html_text(title) +
         "</title>\n<desc id=\"" + id + "-description\">" + html_text(description) + "</desc>\n" +
         (definitions.empty() ? "" : "<defs>\n" + definitions + "</defs>\n") + body_ + "</svg>\n";
}

}  // namespace felloe
