// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: strain gauges and the service spectrum.
#include "cli/key_rows.h"

namespace felloe {
namespace {

std::vector<std::string> sides() { return {"outboard", "inboard", "tyre side", "inner side"}; }

template <class Member>
Slot of(Case &c, std::size_t i, Member member) {
  return slot(c.gauges[i].*member);
}

Section gauge() {
  return {
      "gauge",
      "A virtual strain gauge: microstrain over one turn of every rig test.",
      AppliesTo::welded_disc,
      false,
      {required("name", text(), "What reports call it.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::name); }),
       required("side", word(sides), "Face of the disc (outboard, inboard) or of the rim.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::side); }),
       optional("r_mm", number("mm", 1, 2000), "Radius of the grid's middle; or give s_mm.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::r_mm); }),
       optional("s_mm", number("mm", 0.01, 2000),
                "Length along the mid-line: disc from the bore, rim from the outboard flange.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::s_mm); }),
       standard("theta_deg", number("deg", -360, 360), 0.0, "Angle round the axis.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::theta_deg); }),
       standard("direction_deg", number("deg", -180, 180), 0.0,
                "Grid from the meridian (0: radial) towards growing theta (90: hoop).",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::direction_deg); }),
       standard("grid_length_mm", number("mm", 0, 50), 3.0, "Length over which it averages.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::grid_length_mm); }),
       optional("measured_test", text(), "Rig test under which the gauge was measured.",
                [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::measured_test); }),
       standard(
           "measured_mean_microstrain", number("-", -50000, 50000), 0.0, "Measured mean.",
           [](Case &c, std::size_t i) { return of(c, i, &GaugeInput::measured_mean_microstrain); }),
       standard("measured_amplitude_microstrain", number("-", 0, 50000), 0.0, "Measured amplitude.",
                [](Case &c, std::size_t i) {
                  return of(c, i, &GaugeInput::measured_amplitude_microstrain);
                })},
      nullptr,
      [](const Case &c) { return c.gauges.size(); },
      [](Case &c, std::size_t n) { c.gauges.resize(n); }};
}

Section spectrum() {
  return {
      "spectrum",
      "A block of a service spectrum; the blocks follow each other and repeat.",
      AppliesTo::welded_disc,
      false,
      {required("name", text(), "What reports call the block.",
                [](Case &c, std::size_t i) { return slot(c.spectrum[i].name); }),
       standard("radial_N", number("N", 0, 1e6), 0.0, "Radial wheel load.",
                [](Case &c, std::size_t i) { return slot(c.spectrum[i].radial_N); }),
       standard("lateral_N", number("N", -1e6, 1e6), 0.0,
                "Lateral force on the tyre's contact, towards the vehicle's outside.",
                [](Case &c, std::size_t i) { return slot(c.spectrum[i].lateral_N); }),
       optional("time_series", text(),
                "Table instead of forces: angle_deg, radial_N, lateral_N; beside the case file.",
                [](Case &c, std::size_t i) { return slot(c.spectrum[i].time_series); }),
       required("turns", number("-", 1, 1e12),
                "Turns of the wheel, or passes of the table, in one pass of the spectrum.",
                [](Case &c, std::size_t i) { return slot(c.spectrum[i].turns); })},
      nullptr,
      [](const Case &c) { return c.spectrum.size(); },
      [](Case &c, std::size_t n) { c.spectrum.resize(n); }};
}

}  // namespace

std::vector<Section> gauge_sections() { return {gauge(), spectrum()}; }

}  // namespace felloe
