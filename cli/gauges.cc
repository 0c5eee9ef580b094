// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/gauges.h"

#include <cmath>
#include <cstdio>

#include "cli/case_keys.h"
#include "cli/findings.h"
#include "mesher/error.h"
#include "post/gauges.h"

namespace felloe {
namespace {

GaugePlace place_of(const Analysis &a, const GaugeInput &g) {
  GaugePlace p;
  const bool rim = g.side == "tyre side" || g.side == "inner side";
  p.part = rim ? Part::rim : Part::disc;
  p.eta = g.side == "tyre side" || g.side == "outboard" ? 1 : -1;
  p.theta = g.theta_deg * pi / 180;
  p.direction = g.direction_deg * pi / 180;
  p.grid_length = g.grid_length_mm;
  p.s = g.s_mm;
  const Sheet &sheet = rim ? a.layout.rim : a.layout.disc;
  if (g.r_mm > 0) {
    const auto lengths = lengths_at_radius(sheet, g.r_mm, p.eta);
    if (lengths.empty())
      throw Error("r_mm = " + plain_number(g.r_mm) + ": the " + g.side +
                  " face does not reach this radius; see 'felloe check' for the section");
    if (lengths.size() > 1) {
      std::string all;
      for (const double s : lengths)
        all += (all.empty() ? "" : ", ") + plain_number(std::round(100 * s) / 100);
      throw Error("r_mm = " + plain_number(g.r_mm) + ": the " + g.side +
                  " face has this radius at several places; give s_mm instead, one of " + all);
    }
    p.s = lengths.front();
  }
  if (p.s > sheet.length())
    throw Error("s_mm = " + plain_number(p.s) + ": the mid-line is " +
                plain_number(std::round(100 * sheet.length()) / 100) + " mm long; give less");
  return p;
}

/// Found once in an analysis; a restored one has all that were stored.
const StrainGauge &gauge_of(Analysis &a, const Case &c, const GaugeInput &g) {
  const std::string key = gauge_key(g);
  const auto found = a.gauges.find(key);
  if (found != a.gauges.end()) return found->second;
  const GaugePlace p = place_of(a, g);
  const bool rim = p.part == Part::rim;
  return a.gauges[key] = strain_gauge(a.mesh, rim ? a.layout.rim : a.layout.disc, p,
                                      rim ? c.rim_material : c.disc_material);
}

}  // namespace

std::string gauge_key(const GaugeInput &g) {
  std::string key = g.side;
  for (const double x : {g.r_mm, g.s_mm, g.theta_deg, g.direction_deg, g.grid_length_mm})
    key += " " + plain_number(x);
  return key;
}

void check_gauges(Analysis &a, const Case &c) {
  std::vector<std::string> problems;
  for (const GaugeInput &g : c.gauges) {
    try {
      gauge_of(a, c, g);
    } catch (const Error &e) {
      problems.push_back("[[gauge]] '" + g.name + "': " + e.what());
    }
  }
  if (!problems.empty()) throw Error(problems_text(c.file, problems));
}

void read_gauges(Analysis &a, const Case &c, const TurnHistory &turn) {
  for (const GaugeInput &g : c.gauges) {
    const StrainGauge &gauge = gauge_of(a, c, g);
    const GaugeReading r = reading(gauge, turn);
    GaugeFigures f;
    f.name = g.name;
    f.test = turn.test;
    f.side = g.side;
    f.r = std::hypot(gauge.position[0], gauge.position[1]);
    f.theta_deg = g.theta_deg;
    f.z = gauge.position[2];
    f.mean_microstrain = r.mean;
    f.amplitude_microstrain = r.amplitude;
    f.trace = r.trace;
    if (g.measured_test == turn.test) {
      f.measured = true;
      f.measured_mean_microstrain = g.measured_mean_microstrain;
      f.measured_amplitude_microstrain = g.measured_amplitude_microstrain;
    }
    a.results.gauges.push_back(std::move(f));
  }
}

std::string gauge_traces(const Results &r) {
  std::string out = "test,gauge,load_angle_deg,microstrain\n";
  const auto quoted = [](std::string text) {
    for (std::size_t at = text.find('"'); at != std::string::npos; at = text.find('"', at + 2))
      text.insert(at, 1, '"');
    return '"' + text + '"';
  };
  for (const GaugeFigures &g : r.gauges)
    for (std::size_t k = 0; k < g.trace.size(); ++k) {
      char numbers[64];
      std::snprintf(numbers, sizeof numbers, ",%.4f,%.4f\n",
                    360.0 * static_cast<double>(k) / static_cast<double>(g.trace.size()),
                    g.trace[k]);
      out += quoted(g.test) + "," + quoted(g.name) + numbers;
    }
  return out;
}

}  // namespace felloe
