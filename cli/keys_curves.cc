// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: S-N curves of the user's own.
#include "cli/key_rows.h"

namespace felloe {
namespace {

std::vector<std::string> laws_of_scatter() { return {"lognormal", "weibull"}; }

template <class Member>
Slot of_curve(Case &c, std::size_t i, Member member) {
  return slot(c.curves[i].curve.*member);
}

}  // namespace

std::vector<std::string> curve_uses() {
  return {"sheet face", "vent edge", "bolt hole edge", "weld toe"};
}

std::vector<Section> curve_sections() {
  return {
      {"sn_curve",
       "An S-N curve of your own in place of the program's; 'felloe fit' writes one from rig "
       "lives.",
       AppliesTo::welded_disc,
       false,
       {required("use_for", word(curve_uses), "Which places it rates.",
                 [](Case &c, std::size_t i) { return word_slot(c.curves[i].use_for, curve_uses); }),
        required("name", text(), "What reports call the curve.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::name); }),
        required("source", text(), "Where it comes from; stands in every report.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::source); }),
        standard("stress_range", yes_no(), false,
                 "Its stresses are ranges, as those of weld classes; no: amplitudes.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::stress_range); }),
        required("knee_stress_MPa", number("MPa", 1, 3000),
                 "Stress at the knee, fully reversed (weld toes: any mean).",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::knee_amplitude); }),
        required("knee_cycles", number("-", 1e3, 1e9), "Cycles at the knee.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::knee_cycles); }),
        required("slope", number("-", 1, 50), "Slope k above the knee: N falls with stress^k.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::slope); }),
        optional("slope_below", number("-", 1, 100), "Slope below the knee; left out: no failure.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::slope_below); }),
        optional("cutoff_cycles", number("-", 1e4, 1e12),
                 "No failure below the stress of this life; left out: none.",
                 [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::cutoff_cycles); }),
        standard(
            "survival_percent", number("%", 1, 99.99), 50.0,
            "Survival probability that the knee belongs to.",
            [](Case &c, std::size_t i) { return divided_slot(c.curves[i].curve.survival, 100); }),
        required(
            "log10_life_scatter", number("-", 0.001, 2), "Standard deviation of log10 N.",
            [](Case &c, std::size_t i) { return of_curve(c, i, &SnCurve::log10_life_scatter); }),
        standard("scatter", word(laws_of_scatter), std::string("lognormal"),
                 "Law of the scatter of lives.",
                 [](Case &c, std::size_t i) {
                   return word_slot(c.curves[i].curve.scatter, laws_of_scatter);
                 })},
       nullptr,
       [](const Case &c) { return c.curves.size(); },
       [](Case &c, std::size_t n) { c.curves.resize(n); }}};
}

}  // namespace felloe
