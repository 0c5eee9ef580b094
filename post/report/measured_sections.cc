// SPDX-License-Identifier: GPL-3.0-or-later
// Virtual strain gauges beside measured ones; damage by the service spectrum.
#include <fmt/format.h>

#include <cmath>

#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

std::string deviation(double computed, double measured) {
  if (measured == 0) return "\u2013";
  const double percent = 100 * (computed / measured - 1);
  return (percent > 0 ? "+" : "") + fixed_text(percent, 0);
}

}  // namespace

std::string gauges_section(const ReportInput &in) {
  const Results &r = in.results;
  if (r.gauges.empty()) return "";
  HtmlTable t;
  t.id = "gauge-table";
  t.caption =
      "Strain at virtual gauges over one turn, and measured strain where the case states it. The "
      "wheel before clamping, pressing and inflating is the zero.";
  t.columns = {{"Gauge", "", false},
               {"Rig test", "", false},
               {"Side", "", false},
               {"r", "mm", true},
               {"\u03B8", "\u00B0", true},
               {"Amplitude", "\u00B5m/m", true},
               {"Measured", "\u00B5m/m", true},
               {"Deviation", "%", true},
               {"Mean", "\u00B5m/m", true},
               {"Measured mean", "\u00B5m/m", true}};
  for (const GaugeFigures &g : r.gauges)
    t.rows.push_back(
        {name_markup(g.name), test_markup(r, g.test), html_text(g.side), fixed_text(g.r, 1),
         fixed_text(g.theta_deg, 1), fixed_text(g.amplitude_microstrain, 0),
         g.measured ? fixed_text(g.measured_amplitude_microstrain, 0) : "\u2013",
         g.measured ? deviation(g.amplitude_microstrain, g.measured_amplitude_microstrain)
                    : "\u2013",
         fixed_text(g.mean_microstrain, 0),
         g.measured ? fixed_text(g.measured_mean_microstrain, 0) : "\u2013"});
  return html_table(t);
}

std::string spectrum_section(const ReportInput &in) {
  const Results &r = in.results;
  if (r.spectrum.empty()) return "";
  HtmlTable t;
  t.id = "spectrum-table";
  t.caption = fmt::format(
      "Miner damage of the rated places by one pass of the spectrum ({} turns) at {:g} % survival; "
      "1 is failure",
      cycles_words(r.spectrum_turns), r.survival_percent);
  t.columns = {{"Place", "", false},
               {"Side", "", false},
               {"r", "mm", true},
               {"Damage", "", true},
               {"Passes to failure", "", true},
               {"Block that does most", "", false},
               {"Its share", "%", true},
               {"Largest range", "MPa", true},
               {"Its mean", "MPa", true},
               {"S-N curve", "", false}};
  for (const SpectrumPlace &p : r.spectrum)
    t.rows.push_back({name_markup(p.feature), html_text(p.side), fixed_text(p.r, 1),
                      figure_text(p.damage, 3), cycles_words(1 / p.damage), name_markup(p.block),
                      fixed_text(100 * p.block_share, 0), fixed_text(p.largest_range_MPa, 0),
                      fixed_text(p.largest_mean_MPa, 0), html_text(p.curve)});
  return html_table(t);
}

}  // namespace felloe
