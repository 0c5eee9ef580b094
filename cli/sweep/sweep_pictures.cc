// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sweep_pictures.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <limits>

#include "cli/sweep/sweep_report.h"
#include "post/svg.h"

namespace felloe {
namespace {

const char *css = R"(
text { font-family: sans-serif; font-size: 13px; fill: #222; }
.heading { font-size: 16px; font-weight: bold; }
.small { font-size: 11px; fill: #555; }
.axis { stroke: #222; stroke-width: 1; fill: none; }
.grid { stroke: #ddd; stroke-width: 1; fill: none; }
.limit { stroke: #b00; stroke-width: 1.2; stroke-dasharray: 6 4; fill: none; }
.front { stroke: #222; stroke-width: 1.4; fill: none; }
.pass { fill: #1a7f37; } .fail { fill: #c0392b; } .unrated { fill: #2c5f9e; }
.pass-line { stroke: #1a7f37; stroke-opacity: 0.55; fill: none; }
.fail-line { stroke: #c0392b; stroke-opacity: 0.3; fill: none; }
.unrated-line { stroke: #2c5f9e; stroke-opacity: 0.4; fill: none; }
.front-line { stroke: #222; stroke-width: 2; fill: none; }
)";

using Figure = std::function<double(const StoredDesign &)>;

double mass(const StoredDesign &d) { return d.figures.mass_kg; }
double tilt(const StoredDesign &d) { return d.figures.tilt_Nm_per_deg; }
double life_digits(const StoredDesign &d) { return std::log10(d.life_margin()); }

std::string style_of(const StoredDesign &d) {
  return d.figures.verdict == Verdict::pass   ? "pass"
         : d.figures.verdict == Verdict::fail ? "fail"
                                              : "unrated";
}

/// The finite values and what lies above them all ("no crack"), on a line of pixels.
struct Scale {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  bool unlimited = false;  ///< an infinite value is among them; it stands at the far end
  double begin = 0, end = 1;

  void take(double x) {
    if (std::isfinite(x))
      low = std::min(low, x), high = std::max(high, x);
    else if (x > 0)
      unlimited = true;
  }
  void finish(double from, double to) {
    begin = from, end = to;
    if (!(low <= high)) low = 0, high = 1;
    const double more = high > low ? 0.05 * (high - low) : std::max(1e-3, 0.05 * std::abs(low));
    low -= more, high += more;
  }
  double at(double x) const {
    const double share = unlimited ? 0.9 : 1;
    if (std::isinf(x)) return x > 0 ? begin + 0.96 * (end - begin) : begin;
    return begin + share * (x - low) / (high - low) * (end - begin);
  }
  /// Round numbers, some five of them; of powers of ten 1, 2 and 5 times a power.
  std::vector<double> ticks(bool powers = false) const {
    std::vector<double> round;
    for (int k = int(std::floor(low)); powers && high - low < 3 && k <= high; ++k)
      for (const double m : {1.0, 2.0, 5.0})
        if (const double x = k + std::log10(m); x >= low && x <= high) round.push_back(x);
    if (powers && high - low < 3) return round;
    const double raw = powers ? std::max(1.0, (high - low) / 7) : (high - low) / 7,
                 unit = std::pow(10, std::floor(std::log10(raw)));
    double step = unit;
    for (const double m : {2.0, 5.0, 10.0})
      if (step < raw) step = m * unit;
    std::vector<double> all;
    for (double x = std::ceil(low / step) * step; x <= high; x += step)
      all.push_back(std::abs(x) < 1e-9 * step ? 0 : x);
    return all;
  }
};

std::string short_number(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", x);
  return text;
}

struct Panel {
  double left, top, width, height;
  std::string x_name, y_name;
  Figure x, y;
  bool powers = false;  ///< y counts powers of ten, and 0 is the limit
};

void axes(Svg &svg, const Panel &p, const Scale &x, const Scale &y) {
  const double right = p.left + p.width, bottom = p.top + p.height;
  for (const double t : x.ticks()) {
    svg.line({x.at(t), p.top}, {x.at(t), bottom}, "grid");
    svg.text({x.at(t), bottom + 18}, short_number(t), "small", "middle");
  }
  for (const double t : y.ticks(p.powers)) {
    svg.line({p.left, y.at(t)}, {right, y.at(t)}, "grid");
    svg.text({p.left - 6, y.at(t) + 4}, short_number(p.powers ? std::pow(10, t) : t), "small",
             "end");
  }
  if (y.unlimited)
    svg.text({p.left - 6, y.at(std::numeric_limits<double>::infinity()) + 4}, "no crack", "small",
             "end");
  if (p.powers && y.low < 0 && y.high > 0) svg.line({p.left, y.at(0)}, {right, y.at(0)}, "limit");
  svg.polyline({{p.left, p.top}, {p.left, bottom}, {right, bottom}}, "axis");
  svg.text({p.left + p.width / 2, bottom + 40}, p.x_name, "label", "middle");
  svg.text({p.left - 62, p.top + p.height / 2}, p.y_name, "label", "middle", -90);
}

std::string tip_of(const StoredDesign &d) {
  std::string tip = "design " + std::to_string(d.id) + ": " + short_number(mass(d)) + " kg, tilt " +
                    short_number(tilt(d)) + " N m/deg";
  if (!d.has_lives()) return tip;
  return tip + (std::isinf(d.life_margin())
                    ? ", no crack expected"
                    : ", life over required " + short_number(d.life_margin()));
}

void plot(Svg &svg, const Panel &p, const Designs &designs, const std::vector<std::size_t> &shown,
          const std::vector<std::size_t> &front, bool linked = false) {
  Scale x, y;
  for (const std::size_t i : shown) x.take(p.x(designs[i])), y.take(p.y(designs[i]));
  x.finish(p.left, p.left + p.width);
  y.finish(p.top + p.height, p.top);
  axes(svg, p, x, y);
  const auto place = [&](std::size_t i) {
    return Pixel{x.at(p.x(designs[i])), y.at(p.y(designs[i]))};
  };
  std::vector<Pixel> joined;
  double best = -std::numeric_limits<double>::infinity();
  for (const std::size_t i : front)  // the front of these two figures alone
    if (p.y(designs[i]) > best) joined.push_back(place(i)), best = p.y(designs[i]);
  svg.polyline(joined, "front");
  for (const std::size_t i : shown)
    if (linked)
      svg.linked_dot(place(i), 4, style_of(designs[i]), "#design-" + std::to_string(designs[i].id),
                     tip_of(designs[i]));
    else
      svg.dot(place(i), 3, style_of(designs[i]));
}

void legend(Svg &svg, const Pixel &at, const Designs &designs) {
  double x = at[0];
  const auto entry = [&](const char *style, const char *text) {
    svg.dot({x, at[1] - 4}, 4, style);
    svg.text({x + 10, at[1]}, text, "small");
    x += 150;
  };
  if (anything_rated(designs)) {
    entry("pass", "passes every rig test");
    entry("fail", "fails one");
  } else {
    entry("unrated", "not rated");
  }
}

/// One axis of the parallel coordinates; words count from 0.
struct Upright {
  std::string name;
  Figure value;
  std::vector<std::string> words;
  bool powers = false;
};

Upright upright_of(const SweepHead &head, const Designs &designs, std::size_t k) {
  Upright a;
  a.name = head.keys[k];
  std::vector<std::string> words;
  for (const StoredDesign &d : designs)
    if (!std::holds_alternative<double>(d.values[k]) && !std::holds_alternative<int>(d.values[k]))
      if (const std::string w = plain_text(d.values[k]);
          std::find(words.begin(), words.end(), w) == words.end())
        words.push_back(w);
  a.words = words;
  a.value = [k, words](const StoredDesign &d) {
    if (const auto *x = std::get_if<double>(&d.values[k])) return *x;
    if (const auto *n = std::get_if<int>(&d.values[k])) return double(*n);
    return double(std::find(words.begin(), words.end(), plain_text(d.values[k])) - words.begin());
  };
  return a;
}

void draw_upright(Svg &svg, const Upright &a, const Scale &scale, double x, bool low_name) {
  svg.line({x, scale.begin}, {x, scale.end}, "axis");
  svg.text({x, scale.end - (low_name ? 14 : 30)}, a.name, "small", "middle");
  if (!a.words.empty()) {
    for (std::size_t i = 0; i < a.words.size(); ++i)
      svg.text({x + 5, scale.at(double(i)) + 4}, a.words[i], "small");
    return;
  }
  for (const double t : scale.ticks(a.powers))
    svg.text({x + 5, scale.at(t) + 4}, short_number(a.powers ? std::pow(10, t) : t), "small");
  if (scale.unlimited)
    svg.text({x + 5, scale.at(std::numeric_limits<double>::infinity()) + 4}, "no crack", "small");
}

/// Mass against tilt stiffness, and where lives were rated against them.
std::vector<Panel> panels_of(const Designs &designs) {
  std::vector<Panel> panels = {
      {100, 80, 460, 380, "mass [kg]", "tilt stiffness [N m/deg]", mass, tilt, false}};
  if (anything_rated(designs))
    panels.push_back({100, 80, 460, 380, "mass [kg]",
                      "rated life over required cycles (worst rig test)", mass, life_digits, true});
  return panels;
}

}  // namespace

std::string pareto_picture(const SweepHead &head, const Designs &designs) {
  Svg svg;
  const auto shown = computed(head, designs), front = pareto_front(head, designs);
  svg.text({40, 30}, head.title, "heading");
  legend(svg, {40, 54}, designs);
  std::vector<Panel> panels = panels_of(designs);
  if (panels.size() > 1) panels[0].left = 680;
  for (const Panel &p : panels) plot(svg, p, designs, shown, front);
  return svg.file(panels.size() > 1 ? 1180 : 600, 520, head.title, css, "");
}

std::vector<std::string> linked_pareto_plots(const SweepHead &head, const Designs &designs) {
  const auto shown = computed(head, designs), front = pareto_front(head, designs);
  std::vector<Panel> panels = panels_of(designs);
  std::reverse(panels.begin(), panels.end());
  std::vector<std::string> all;
  for (Panel &p : panels) {
    p.left = 90, p.top = 12;
    Svg svg;
    plot(svg, p, designs, shown, front, true);
    all.push_back(svg.element(570, 445, "plot-" + std::to_string(all.size() + 1), "plot sweep-plot",
                              p.x_name + " against " + p.y_name,
                              "Every point leads to its design in the table"));
  }
  return all;
}

std::string sweep_plot_style() {
  return R"(
.sweep-plot .axis { stroke: #16222c; fill: none; }
.sweep-plot .grid { stroke: #dfe5e9; fill: none; }
.sweep-plot .limit { stroke: #9f1f27; stroke-width: 1.4; stroke-dasharray: 6 4; fill: none; }
.sweep-plot .front { stroke: #16222c; stroke-width: 1.4; fill: none; }
.sweep-plot .pass { fill: #00694d; } .sweep-plot .fail { fill: #9f1f27; }
.sweep-plot .unrated { fill: #0b5394; }
.sweep-plot .fail { fill-opacity: 0.75; }
.sweep-plot a:hover circle, .sweep-plot a:focus circle { stroke: #16222c; stroke-width: 2.5; }
)";
}

std::string parallel_picture(const SweepHead &head, const Designs &designs) {
  std::vector<Upright> axes;
  for (std::size_t k = 0; k < head.keys.size(); ++k) axes.push_back(upright_of(head, designs, k));
  axes.push_back({"mass [kg]", mass, {}, false});
  axes.push_back({"tilt [N m/deg]", tilt, {}, false});
  if (anything_rated(designs)) axes.push_back({"life / required", life_digits, {}, true});
  const auto shown = computed(head, designs), front = pareto_front(head, designs);
  Svg svg;
  svg.text({40, 30}, head.title, "heading");
  legend(svg, {40, 54}, designs);
  const double gap = 170, left = 130;
  std::vector<Scale> scales(axes.size());
  for (std::size_t a = 0; a < axes.size(); ++a) {
    for (const std::size_t i : shown) scales[a].take(axes[a].value(designs[i]));
    scales[a].finish(470, 120);
  }
  const auto draw = [&](std::size_t i, const std::string &style) {
    std::vector<Pixel> line;
    for (std::size_t a = 0; a < axes.size(); ++a)
      line.push_back({left + gap * double(a), scales[a].at(axes[a].value(designs[i]))});
    svg.polyline(line, style);
  };
  for (const std::size_t i : shown) draw(i, style_of(designs[i]) + "-line");
  // of the compromises only those that pass: the picture answers which values lead there
  for (const std::size_t i : front)
    if (designs[i].figures.verdict != Verdict::fail) draw(i, "front-line");
  for (std::size_t a = 0; a < axes.size(); ++a)
    draw_upright(svg, axes[a], scales[a], left + gap * double(a), a % 2 == 0);
  svg.text({40, 505}, "black: best compromises of mass, life and stiffness", "small");
  return svg.file(left + gap * double(axes.size() - 1) + 110, 520, head.title, css, "");
}

}  // namespace felloe
