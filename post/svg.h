// SPDX-License-Identifier: GPL-3.0-or-later
// Just enough SVG for a technical drawing.
#pragma once
#include <array>
#include <string>
#include <vector>

namespace felloe {

using Pixel = std::array<double, 2>;  ///< x to the right, y down

/// Every rule of a style sheet (one a line) for descendants of one element only: an inline SVG's
/// style sheet holds for the whole page. element: for example "#section".
std::string scoped_css(const std::string &css, const std::string &element);

/// Collects shapes; `style` names a CSS class of the drawing's style sheet.
class Svg {
 public:
  void line(const Pixel &a, const Pixel &b, const std::string &style);
  void polyline(const std::vector<Pixel> &, const std::string &style);
  void polygon(const std::vector<Pixel> &, const std::string &style);
  void dot(const Pixel &centre, double radius, const std::string &style);
  /// A dot that leads somewhere; browsers show the tip under the pointer.
  void linked_dot(const Pixel &centre, double radius, const std::string &style,
                  const std::string &href, const std::string &tip);
  /// anchor: "start", "middle" or "end"; turned counts clockwise [deg].
  void text(const Pixel &at, const std::string &text, const std::string &style,
            const std::string &anchor = "start", double turned = 0);
  /// A mark of equal area for every kind: disc, square, triangle, diamond, triangle upside down,
  /// and again.
  void mark(const Pixel &centre, double radius, int kind, const std::string &style);
  /// A line with an arrow head at both ends.
  void dimension(const Pixel &a, const Pixel &b, const std::string &style);
  /// The whole file. `definitions` goes into <defs>, `css` into the style sheet.
  std::string file(double width, double height, const std::string &title, const std::string &css,
                   const std::string &definitions) const;
  /// An <svg> element for a page, with class `style`, an accessible name and a description. It
  /// grows and shrinks with its place; its styles stand in the page's style sheet.
  std::string element(double width, double height, const std::string &id, const std::string &style,
                      const std::string &title, const std::string &description,
                      const std::string &definitions = "") const;
  const std::string &body() const { return body_; }  ///< the shapes alone

 private:
  void points(const char *element, const std::vector<Pixel> &, const std::string &style);
  std::string body_;
  bool holds_links_ = false;  // then it is no image to screen readers, but a group
};

}  // namespace felloe
