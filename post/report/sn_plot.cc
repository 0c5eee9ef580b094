// SPDX-License-Identifier: GPL-3.0-or-later
// S-N diagrams: one panel a curve in use, with the places rated on it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

constexpr double width = 520, height = 360;
constexpr std::size_t most_panels = 8;

struct Panel {
  const SnCurve *sn;
  std::vector<const HotSpot *> spots;  ///< worst first
};

bool same(const SnCurve &a, const SnCurve &b) {
  return a.name == b.name && a.knee_amplitude == b.knee_amplitude && a.slope == b.slope;
}

std::vector<Panel> panels(const Results &r) {
  std::vector<Panel> all;
  for (const HotSpot &h : r.hot_spots) {
    if (h.verdict == Verdict::not_rated || !(h.sn.knee_amplitude > 0)) continue;
    auto found =
        std::find_if(all.begin(), all.end(), [&](const Panel &p) { return same(*p.sn, h.sn); });
    if (found == all.end()) found = all.insert(all.end(), {&h.sn, {}});
    found->spots.push_back(&h);
  }
  if (all.size() > most_panels) all.resize(most_panels);
  return all;
}

/// Amplitude of the curve; a curve of ranges gives half of it.
double amplitude(const SnCurve &sn, double cycles, double survival) {
  return amplitude_for_life(sn, cycles, survival) / (sn.stress_range ? 2 : 1);
}

/// The axes of all panels are the same, so that they can be compared.
PlotFrame frame_for(const Results &r, const std::vector<Panel> &all, double survival) {
  std::vector<double> cycles = {2e4, 2e7}, stresses;
  for (const TestVerdict &t : r.tests) cycles.push_back(t.required_cycles);
  for (const Panel &p : all) {
    stresses.push_back(amplitude(*p.sn, 2e7, survival));
    stresses.push_back(amplitude(*p.sn, 2e5, 0.5));
    for (const HotSpot *h : p.spots) {
      if (std::isfinite(h->life_design)) cycles.push_back(std::clamp(h->life_design, 1e3, 1e9));
      stresses.push_back(std::max(h->fully_reversed, 0.3 * amplitude(*p.sn, 2e7, survival)));
    }
  }
  return {width,
          height,
          log_axis_for("cycles to crack", cycles),
          log_axis_for("stress amplitude, fully reversed [MPa]", stresses),
          {62, 18, 34, 48}};
}

void draw_curve(Svg &svg, const PlotFrame &f, const SnCurve &sn, double survival,
                const std::string &style) {
  std::vector<std::array<double, 2>> points;
  constexpr int steps = 120;
  for (int i = 0; i <= steps; ++i) {
    const double cycles = f.x().low * std::pow(f.x().high / f.x().low, double(i) / steps);
    points.push_back({cycles, amplitude(sn, cycles, survival)});
  }
  f.curve(svg, points, style);
}

void name_curve(Svg &svg, const PlotFrame &f, const SnCurve &sn, double survival, double share,
                const std::string &anchor, double up) {
  const double cycles = f.x().low * std::pow(f.x().high / f.x().low, share);
  const Pixel at = f.held_in(cycles, amplitude(sn, cycles, survival));
  svg.text({at[0], std::max(at[1] + up, f.top() + 12)}, fmt::format("{:g} %", 100 * survival),
           "small", anchor);
}

/// Required cycles of the tests that have places in the panel.
void draw_needs(Svg &svg, const PlotFrame &f, const Results &r, const Panel &p) {
  double row = f.bottom() - 8;
  for (std::size_t i = 0; i < r.tests.size(); ++i) {
    const TestVerdict &t = r.tests[i];
    if (std::none_of(p.spots.begin(), p.spots.end(),
                     [&](const HotSpot *h) { return h->test == t.name; }))
      continue;
    const double x = f.held_in(t.required_cycles, f.y().low)[0];
    svg.line({x, f.top()}, {x, f.bottom()}, fmt::format("need-{}", i % 5));
    const bool left = x > 0.6 * width;
    svg.text({x + (left ? -5 : 5), row}, shortened(t.name, 16) + " needs",
             "small " + series_class(static_cast<int>(i)), left ? "end" : "start");
    row -= 14;
  }
}

/// Open marks at the right border, in columns where they would hide one another.
class Border {
 public:
  Pixel place(Pixel wish) {
    const auto taken = [&] {
      return std::any_of(marks_.begin(), marks_.end(), [&](const Pixel &m) {
        return std::fabs(m[0] - wish[0]) < 1 && std::fabs(m[1] - wish[1]) < 11;
      });
    };
    while (taken()) wish[0] -= 32;
    marks_.push_back(wish);
    return wish;
  }

 private:
  std::vector<Pixel> marks_;
};

void draw_spot(Svg &svg, const PlotFrame &f, const Results &r, const HotSpot &h, double survival,
               Border &border) {
  const int test = test_index(r, h.test) % 5;
  const double life = std::isfinite(h.life_design) ? h.life_design : f.x().high;
  const bool beyond = !(life < f.x().high);
  const Pixel at = f.held_in(life, h.fully_reversed);
  const std::string bar = fmt::format("bar-{}", test);
  if (h.error_percent >= 0 && !beyond) {
    const double e = 0.01 * h.error_percent;
    const auto limited = [&](double cycles) { return std::min(cycles, f.x().high); };
    const Pixel low = f.held_in(life, (1 - e) * h.fully_reversed),
                high = f.held_in(life, (1 + e) * h.fully_reversed);
    svg.line(low, high, bar);
    const Pixel left = f.held_in(limited(life_at_share(h, survival, 1 + e)), h.fully_reversed),
                right = f.held_in(limited(life_at_share(h, survival, 1 - e)), h.fully_reversed);
    svg.line(left, right, bar);
  }
  if (beyond) {  // it lives longer than the diagram shows
    const Pixel mark = border.place({at[0] - 14, at[1]}), tip = {mark[0] + 11, mark[1]};
    svg.mark(mark, 4.2, test, fmt::format("open-{}", test));
    svg.polyline({{tip[0] - 4, tip[1] - 4}, tip, {tip[0] - 4, tip[1] + 4}}, bar);
    svg.text({mark[0] - 7, mark[1] + 4}, std::to_string(h.id), "small strong", "end");
    return;
  }
  svg.mark(at, 4.6, test, series_class(test));
  svg.text({at[0] + 7, at[1] - 6}, std::to_string(h.id), "small strong");
}

std::string description(const Panel &p, double survival) {
  std::string text;
  for (const HotSpot *h : p.spots)
    text += fmt::format("No. {} {}, {}: {:.0f} MPa, life {}, range {}, required {}. ", h->id,
                        h->feature, h->test, h->fully_reversed, cycles_words(h->life_design),
                        life_range(*h, survival), cycles_words(h->required_cycles));
  return text;
}

std::string panel_figure(const ReportInput &in, const PlotFrame &f, const Panel &p,
                         std::size_t number) {
  const double survival = in.rules.survival;
  Svg svg;
  f.draw(svg);
  draw_needs(svg, f, in.results, p);
  draw_curve(svg, f, *p.sn, 0.5, "dashed");
  draw_curve(svg, f, *p.sn, survival, "curve");
  name_curve(svg, f, *p.sn, 0.5, 0.62, "middle", -6);
  name_curve(svg, f, *p.sn, survival, 0.5, "middle", 14);
  Border border;
  for (const HotSpot *h : p.spots) draw_spot(svg, f, in.results, *h, survival, border);
  svg.text({f.left(), 18}, shortened(p.sn->name, 60), "panel-title");
  return "<figure>" +
         svg.element(width, height, fmt::format("sn-plot-{}", number), "plot",
                     "S-N diagram, " + p.sn->name, description(p, survival)) +
         "</figure>\n";
}

}  // namespace

std::string life_section(const ReportInput &in) {
  const auto all = panels(in.results);
  if (all.empty()) return "";
  const PlotFrame frame = frame_for(in.results, all, in.rules.survival);
  std::string out = fmt::format(
      "<p>Every rated place at its life on the curve for {:g} % survival (full line; dashed: 50 "
      "%). "
      "Numbers are those of the hot-spot table. Bars: error of the stress, and what it makes of "
      "the "
      "life. A place right of the upright line of its rig test passes. Open marks at the right "
      "border live longer than the diagram shows.</p>\n<div class=\"plots\">\n",
      in.results.survival_percent);
  for (std::size_t i = 0; i < all.size(); ++i) out += panel_figure(in, frame, all[i], i + 1);
  return out + "</div>\n";
}

}  // namespace felloe
