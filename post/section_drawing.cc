// SPDX-License-Identifier: GPL-3.0-or-later
// Draws the section and places its labels: diameters left, bends and holes right, axial dimensions
// above, heights below. Labels of a column are spread so that no two texts meet.
#include "post/section_drawing.h"

#include <algorithm>
#include <cmath>

#include "post/section_labels.h"
#include "post/svg.h"

namespace felloe {
namespace {

constexpr double row_height = 19, text_width = 6.9;  // of 12 px letters, generous
constexpr double gap = 46;                           // between section and labels

const char *css = R"(  .disc { fill: url(#disc-hatch); stroke: #1d2b36; stroke-width: 1.3; }
  .rim { fill: url(#rim-hatch); stroke: #1d2b36; stroke-width: 1.3; }
  .weld { fill: #5b6770; stroke: #1d2b36; stroke-width: 1; }
  .hole { fill: #ffffff; stroke: #1d2b36; stroke-width: 0.9; stroke-dasharray: 4 2.5; }
  .axis { stroke: #8a4b2a; stroke-width: 0.8; stroke-dasharray: 14 3 2 3; }
  .leader { fill: none; stroke: #6b7a86; stroke-width: 0.7; }
  .extension { stroke: #a9b4bd; stroke-width: 0.6; }
  .dimension { stroke: #1d2b36; stroke-width: 0.8; }
  .arrow { fill: #1d2b36; }
  .dot { fill: #1d2b36; }
  .midline { fill: none; stroke: #8a4b2a; stroke-width: 0.6; stroke-dasharray: 8 3; }
  text { font-family: "DejaVu Sans", Verdana, Arial, sans-serif; font-size: 12px; fill: #10181f; }
  .title { font-size: 16px; font-weight: bold; }
  .note { font-size: 11px; fill: #55626d; }
)";

const char *hatches =
    R"svg(<pattern id="disc-hatch" width="7" height="7" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)"><rect width="7" height="7" fill="#d5dfe6"/>
<line x1="0" y1="0" x2="0" y2="7" stroke="#8fa1ae" stroke-width="1"/></pattern>
<pattern id="rim-hatch" width="7" height="7" patternUnits="userSpaceOnUse"
 patternTransform="rotate(-45)"><rect width="7" height="7" fill="#f1efe9"/>
<line x1="0" y1="0" x2="0" y2="7" stroke="#b9b2a3" stroke-width="1"/></pattern>
)svg";

/// s of the points that show a sheet's outline: bends finely, thickness stations, both ends.
std::vector<double> outline_s(const Sheet &sheet) {
  std::vector<double> all;
  for (const auto &p : sheet.meridian().pieces()) {
    const int n = p.is_bend() ? 24 : 1;
    for (int i = 0; i <= n; ++i) all.push_back(p.s0 + (p.s1 - p.s0) * i / n);
  }
  for (const auto &t : sheet.thickness().stations())
    if (t.s > 0 && t.s < sheet.length()) all.push_back(t.s);
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<Vec2> outline(const Sheet &sheet) {
  const auto s = outline_s(sheet);
  std::vector<Vec2> all;
  for (const double x : s) all.push_back(sheet.section_point(x, 1));
  for (auto x = s.rbegin(); x != s.rend(); ++x) all.push_back(sheet.section_point(*x, -1));
  return all;
}

/// The fillet: end face of the disc flange, rim from root to toe, and the straight free face.
std::vector<Vec2> weld_outline(const WheelLayout &w) {
  const double end = w.disc.length();
  return {w.disc.section_point(end, -1), w.disc.section_point(end, 1),
          w.rim.section_point(w.rim_weld_root_s, -1), w.rim.section_point(w.rim_weld_toe_s, -1)};
}

/// Moves positions apart until neighbours keep `distance`, as little as possible: neighbours that
/// meet form a group that stays centred on its wishes (isotonic regression, pool adjacent
/// violators). Wishes must ascend.
std::vector<double> spread(const std::vector<double> &wishes, double distance) {
  struct Group {
    double sum;  // of wishes, each less its place in the column
    int count;
    double centre() const { return sum / count; }
  };
  std::vector<Group> groups;
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    groups.push_back({wishes[i] - double(i) * distance, 1});
    while (groups.size() > 1 &&
           groups[groups.size() - 2].centre() > groups[groups.size() - 1].centre()) {
      groups[groups.size() - 2].sum += groups.back().sum;
      groups[groups.size() - 2].count += groups.back().count;
      groups.pop_back();
    }
  }
  std::vector<double> places;
  for (const auto &g : groups)
    for (int k = 0; k < g.count; ++k)
      places.push_back(g.centre() + double(places.size()) * distance);
  return places;
}

double longest(const std::vector<SectionLabel> &labels) {
  double width = 0;
  for (const auto &l : labels) width = std::max(width, text_width * double(l.text.size()));
  return width;
}

class Drawing {
 public:
  explicit Drawing(const WheelLayout &w)
      : w_(w),
        welded_(w.wheel.construction == Construction::welded_disc),
        left_(inboard_labels(w)),
        right_(outboard_labels(w)),
        below_(heights(w)),
        above_(axial_dimensions(w)) {
    for (const Sheet *sheet : {&w.disc, &w.rim})
      for (const auto &p : sheet == &w.rim && !welded_ ? std::vector<Vec2>() : outline(*sheet)) {
        most_r_ = std::max(most_r_, p[0]);
        least_z_ = std::min(least_z_, p[1]);
        most_z_ = std::max(most_z_, p[1]);
      }
    // a plain disc is thin: some room on both sides keeps it readable
    const double room = std::max(0.0, 0.5 * (0.35 * most_r_ - (most_z_ - least_z_)));
    least_z_ -= room, most_z_ += room;
    const double rows = double(std::max(left_.size(), right_.size()));
    scale_ = std::max(760.0, row_height * rows) / most_r_;
    x0_ = 24 + longest(left_) + gap;
    y0_ = 64 + 30 * double(above_.size());
    const double depth = 40 + longest(below_);
    width_ = std::max(x(most_z_) + gap + longest(right_) + 24, 860.0);
    height_ = y(0) + depth + 56;
  }

  std::string file() {
    draw();
    return svg_.file(width_, height_, section_title(w_), css, hatches);
  }

  HtmlFragment figure() {
    draw();
    return {svg_.element(width_, height_, "section-drawing", "drawing", section_title(w_),
                         "Half section with all dimensions in mm, wheel axis at the bottom, "
                         "outboard to the right.",
                         hatches),
            {scoped_css(css, "#section-drawing")},
            {}};
  }

 private:
  void draw() {
    svg_.text({24, 34}, section_title(w_), "title");
    axis();
    axial();
    ordinates();
    body();
    column(left_, x0_ - gap, "end");
    column(right_, x(most_z_) + gap, "start");
    legend();
  }

  double x(double z) const { return x0_ + scale_ * (z - least_z_); }
  double y(double r) const { return y0_ + scale_ * (most_r_ - r); }
  Pixel at(const Vec2 &rz) const { return {x(rz[1]), y(rz[0])}; }
  std::vector<Pixel> at(const std::vector<Vec2> &points) const {
    std::vector<Pixel> all;
    for (const auto &p : points) all.push_back(at(p));
    return all;
  }

  void axis() {
    svg_.line({x0_ - gap + 8, y(0)}, {x(most_z_) + gap - 8, y(0)}, "axis");
    svg_.text({x0_ - gap, y(0) + 4}, "wheel axis", "note", "end");
    svg_.text({x(most_z_) + gap, y(0) + 4}, "outboard \xE2\x86\x92", "note");
    if (welded_) {
      const double middle = x(-w_.wheel.rim.inset);
      svg_.line({middle, y(0) + 8}, {middle, y0_ - 6}, "axis");
    }
  }

  void body() {
    if (welded_) svg_.polygon(at(outline(w_.rim)), "rim");
    svg_.polygon(at(outline(w_.disc)), "disc");
    if (welded_) svg_.polygon(at(weld_outline(w_)), "weld");
    std::vector<Vec2> middle;
    for (const double s : outline_s(w_.disc)) middle.push_back(w_.disc.section_point(s, 0));
    svg_.polyline(at(middle), "midline");
    for (const auto *holes : {&w_.bolts, &w_.vents})
      if (!holes->empty()) hole(holes->front());
  }

  /// The cut of a hole on its own meridian: wall lines square to the sheet at the centre.
  void hole(const Hole &h) {
    const MeridianFrame f = w_.disc.meridian().at(h.s);
    const double half = 0.5 * w_.disc.thickness().at(h.s);
    const auto point = [&](double along, double through) {
      return Vec2{f.rz[0] + along * f.tangent[0] + through * f.normal[0],
                  f.rz[1] + along * f.tangent[1] + through * f.normal[1]};
    };
    std::vector<Vec2> cut;
    const std::vector<double> etas = {-1, h.cone_radius > 0 ? h.cone_eta : 1, 1};
    for (const double eta : etas) cut.push_back(point(h.wall_radius(eta), eta * half));
    for (auto eta = etas.rbegin(); eta != etas.rend(); ++eta)
      cut.push_back(point(-h.wall_radius(*eta), *eta * half));
    svg_.polygon(at(cut), "hole");
    svg_.line(at(point(0, -half - 9)), at(point(0, half + 9)), "axis");
  }

  /// Labels of one side, each with a leader to its point.
  void column(std::vector<SectionLabel> labels, double edge, const std::string &anchor) {
    const double side = anchor == "end" ? -1 : 1;
    std::stable_sort(
        labels.begin(), labels.end(),
        [](const SectionLabel &a, const SectionLabel &b) { return a.point[0] > b.point[0]; });
    std::vector<double> wishes;
    for (const auto &l : labels) wishes.push_back(y(l.point[0]));
    const auto places = spread(wishes, row_height);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const Pixel from = at(labels[i].point);
      svg_.polyline({from, {edge - side * 18, places[i]}, {edge - side * 4, places[i]}}, "leader");
      svg_.dot(from, 2, "dot");
      svg_.text({edge, places[i] + 4}, labels[i].text, "label", anchor);
    }
  }

  /// Heights below the axis, texts upright beside each other.
  void ordinates() {
    std::sort(below_.begin(), below_.end(),
              [](const SectionLabel &a, const SectionLabel &b) { return a.point[1] < b.point[1]; });
    std::vector<double> wishes;
    for (const auto &l : below_) wishes.push_back(x(l.point[1]));
    const auto places = spread(wishes, row_height);
    for (std::size_t i = 0; i < below_.size(); ++i) {
      const Pixel from = at(below_[i].point);
      svg_.line(from, {from[0], y(0) + 10}, "extension");
      svg_.polyline({{from[0], y(0) + 10}, {places[i], y(0) + 26}, {places[i], y(0) + 34}},
                    "leader");
      svg_.text({places[i] - 4, y(0) + 38}, below_[i].text, "label", "start", 90);
    }
  }

  /// Dimensions along the axis, one row each above the section.
  void axial() {
    for (std::size_t i = 0; i < above_.size(); ++i) {
      const AxialDimension &d = above_[i];
      const double row = y0_ - 16 - 30 * double(i);
      for (const Vec2 &end : {d.from, d.to})
        svg_.line({x(end[1]), y(end[0]) - 3}, {x(end[1]), row - 6}, "extension");
      svg_.dimension({x(d.from[1]), row}, {x(d.to[1]), row}, "dimension");
      const double middle = 0.5 * (x(d.from[1]) + x(d.to[1])),
                   half = 0.5 * text_width * double(d.text.size());
      if (2 * half + 24 < std::abs(x(d.to[1]) - x(d.from[1])))
        svg_.text({middle, row - 5}, d.text, "label", "middle");
      else
        svg_.text({std::max(x(d.from[1]), x(d.to[1])) + 8, row + 4}, d.text, "label");
    }
  }

  void legend() {
    const double row = height_ - 22;
    double at_x = 24;
    std::vector<std::pair<std::string, std::string>> parts = {{"disc", "disc"}};
    if (welded_) parts.insert(parts.end(), {{"rim", "rim"}, {"weld", "weld"}});
    for (const auto &[style, name] : parts) {
      svg_.polygon({{at_x, row - 11}, {at_x + 22, row - 11}, {at_x + 22, row + 1}, {at_x, row + 1}},
                   style);
      svg_.text({at_x + 28, row}, name, "note");
      at_x += 74;
    }
    svg_.text(
        {at_x, row},
        "all lengths in mm; z from the hub face, s along the mid-line from the bore; holes on "
        "their own meridians",
        "note");
  }

  const WheelLayout &w_;
  bool welded_;
  std::vector<SectionLabel> left_, right_, below_;
  std::vector<AxialDimension> above_;
  double most_r_ = 0, least_z_ = 0, most_z_ = 0;
  double scale_ = 1, x0_ = 0, y0_ = 0, width_ = 0, height_ = 0;
  Svg svg_;
};

}  // namespace

std::string section_drawing(const WheelLayout &w) { return Drawing(w).file(); }

HtmlFragment section_figure(const WheelLayout &w) { return Drawing(w).figure(); }

}  // namespace felloe
