// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/svg.h"

#include <cmath>
#include <cstdio>

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

std::string xml_text(const std::string &text) {
  std::string safe;
  for (const char c : text) {
    if (c == '&')
      safe += "&amp;";
    else if (c == '<')
      safe += "&lt;";
    else if (c == '>')
      safe += "&gt;";
    else if (c == '"')
      safe += "&quot;";
    else if (static_cast<unsigned char>(c) >= 0x20)
      safe += c;
  }
  return safe;
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

void Svg::text(const Pixel &at, const std::string &text, const std::string &style,
               const std::string &anchor, double turned) {
  body_ += "<text class=\"" + style + "\"" + attribute("x", at[0]) + attribute("y", at[1]) +
           " text-anchor=\"" + anchor + "\"";
  if (turned != 0)
    body_ += " transform=\"rotate(" + px(turned) + " " + px(at[0]) + " " + px(at[1]) + ")\"";
  body_ += ">" + xml_text(text) + "</text>\n";
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
         " " + px(height) + "\">\n<title>" + xml_text(title) + "</title>\n<style>\n" + css +
         "</style>\n<defs>\n" + definitions + "</defs>\n" +
         "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n" + body_ + "</svg>\n";
}

}  // namespace felloe
