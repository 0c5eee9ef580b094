// SPDX-License-Identifier: GPL-3.0-or-later
// What a run found, on one screen of a terminal.
#include "post/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "post/confidence.h"
#include "post/results_json.h"

namespace felloe {
namespace {

constexpr std::size_t max_hot_spots = 10;

/// Terminal columns of UTF-8 text: continuation bytes take none.
std::size_t columns(const std::string &text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

/// Text cut to `width` columns, with ".." where something is missing; control characters, which
/// would break the table or the terminal, become spaces.
std::string cut(std::string text, std::size_t width) {
  for (char &c : text)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
  if (columns(text) <= width) return text;
  while (columns(text) > width - 2) {
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80)
      text.pop_back();
    if (!text.empty()) text.pop_back();
  }
  return text + "..";
}

std::string left(const std::string &text, std::size_t width) {
  const std::string fitted = cut(text, width);
  return fitted + std::string(width - columns(fitted), ' ');
}

/// Words of the text in lines of at most summary_columns, first line after `lead`, the others
/// indented to the same column.
std::string wrapped(const std::string &lead, const std::string &text) {
  std::istringstream words(text);
  const std::string indent(columns(lead), ' ');
  std::string out, line = lead, word;
  bool empty_line = true;
  while (words >> word) {
    word = cut(word, summary_columns - indent.size());
    if (!empty_line && columns(line) + 1 + columns(word) > summary_columns) {
      out += line + "\n";
      line = indent;
      empty_line = true;
    }
    line += (empty_line ? "" : " ") + word;
    empty_line = false;
  }
  return out + line + "\n";
}

class Ink {
 public:
  explicit Ink(bool colour) : colour_(colour) {}
  std::string bold(const std::string &text) const { return with("1", text); }
  std::string verdict(Verdict v, std::size_t width = 0, const char *none = "not rated") const {
    const char *word = v == Verdict::pass ? "PASS" : v == Verdict::fail ? "FAIL" : none;
    const char *code = v == Verdict::pass ? "1;32" : v == Verdict::fail ? "1;31" : "33";
    return with(code, left(word, std::max(width, std::string(word).size())));
  }

 private:
  std::string with(const char *code, const std::string &text) const {
    return colour_ ? fmt::format("\033[{}m{}\033[0m", code, text) : text;
  }
  bool colour_;
};

/// "2.4x": how often the required cycles fit into the life.
std::string reserve(double life, double required) {
  if (std::isinf(life)) return "infinite";
  if (!(required > 0) || std::isnan(life)) return "-";
  const double factor = life / required;
  return factor < 0.01 || factor >= 1e4 ? fmt::format("{:.0e}x", factor)
                                        : fmt::format("{:.{}f}x", factor, factor < 10 ? 2 : 0);
}

std::string life_text(double cycles, Verdict verdict) {
  return verdict == Verdict::not_rated ? "-" : cycles_text(cycles);
}

/// "87 %" of 0.87, so that 100 stands only where the allowed stress is reached.
std::string share_text(double share, const char *unit = "") {
  if (!(share > 0)) return "-";
  const double percent = 100 * share;
  const int digits = percent > 98 && percent < 102 ? 1 : 0;
  return cut(fmt::format("{:.{}f}", percent, digits), 6) + unit;
}

std::string verdict_line(const Results &r, const Ink &ink) {
  const auto count = [&](Verdict v) {
    return std::count_if(r.tests.begin(), r.tests.end(),
                         [v](const TestVerdict &t) { return t.verdict == v; });
  };
  const Verdict overall = overall_verdict(r);
  std::string text = "  ";
  if (r.tests.empty())
    text += "the case asks for no rig test";
  else
    text += fmt::format("{} of {} rig tests passed at {:g} % survival", count(Verdict::pass),
                        r.tests.size(), r.survival_percent);
  if (count(Verdict::not_rated) > 0)
    text += fmt::format(", {} not rated", count(Verdict::not_rated));
  return ink.verdict(overall) + text + "\n";
}

std::string row(const char *name, const std::string &text) {
  return cut(fmt::format("{:<11}{}", name, text), summary_columns) + "\n";
}

/// One line for the free wheel and one for the held hub, as far as they were asked for.
std::string mode_rows(const Results &r) {
  std::string out;
  for (const auto &[held, name] : {std::pair("free", "free wheel"), std::pair("hub", "hub held")}) {
    std::string frequencies;
    for (const NaturalMode &m : r.modes)
      if (m.held == held) frequencies += fmt::format(" {:.1f}", m.frequency_Hz);
    if (!frequencies.empty()) out += row(name, "natural frequencies [Hz]" + frequencies);
  }
  return out;
}

/// The joint carries next to nothing in its plane under a moment: a number there says nothing.
std::string margin_text(const FrictionFigures &f) {
  return f.slip_margin > 100 ? "over 100" : fmt::format("{:.2g}", f.slip_margin);
}

std::string contact_rows(const Results &r) {
  std::string out;
  for (const ContactFigures &c : r.contact) {
    out += row("hub",
               fmt::format("{}: {:.0f} % open   bolts {:.1f} to {:.1f} kN   {}", cut(c.test, 20),
                           100 * c.open_share, 1e-3 * c.smallest_bolt_force_N,
                           1e-3 * c.largest_bolt_force_N, c.superposed ? "superposed" : "stepped"));
    if (c.friction.coefficient > 0)
      out += row("", fmt::format("friction {:g}: {:.0f} % of the pressed nodes slip, {:.1f} um at "
                                 "most   margin {}",
                                 c.friction.coefficient, 100 * c.friction.slipping_share,
                                 1e3 * c.friction.largest_slip_mm, margin_text(c.friction)));
  }
  return out;
}

std::string key_figures(const Results &r) {
  std::string out;
  std::string parts;
  if (r.disc_mass_kg > 0 && r.rim_mass_kg > 0)
    parts = fmt::format("  (disc {:.3f}, rim {:.3f})", r.disc_mass_kg, r.rim_mass_kg);
  out += row("mass", fmt::format("{:.3f} kg{}", r.mass_kg, parts));
  const WheelStiffness &k = r.stiffness;
  std::string stiffness;
  const auto add_stiffness = [&](const char *name, double value, const char *unit) {
    if (value == 0) return;
    stiffness += fmt::format("{}{} {:.4g} {}", stiffness.empty() ? "" : "   ", name, value, unit);
  };
  add_stiffness("tilt", k.tilt_Nm_per_deg * 1e-3, "kN m/deg");
  add_stiffness("axial", k.axial_N_per_mm * 1e-3, "kN/mm");
  add_stiffness("radial", k.radial_N_per_mm * 1e-3, "kN/mm");
  add_stiffness("torsion", k.torsion_Nm_per_deg * 1e-3, "kN m/deg");
  out += row("stiffness", stiffness.empty() ? "not computed" : stiffness);
  out += mode_rows(r);
  out += contact_rows(r);
  out += row("unbalance", fmt::format("static {:.3g} g mm   couple {:.3g} g mm2",
                                      r.static_unbalance_g_mm, r.couple_unbalance_g_mm2));
  std::string mesh = fmt::format("{} cells   {} unknowns   smallest scaled Jacobian {:.2f}",
                                 r.mesh.cells, r.mesh.dofs, r.mesh.min_scaled_jacobian);
  if (r.mesh.exact_volume_mm3 > 0)
    mesh +=
        fmt::format("   volume {:+.2g} %", 100 * (r.mesh.volume_mm3 / r.mesh.exact_volume_mm3 - 1));
  return out + row("mesh", mesh);
}

std::string test_table(const Results &r, const Ink &ink) {
  if (r.tests.empty()) return "";
  std::string out = "\n" + ink.bold("Rig tests") + "\n";
  out +=
      fmt::format("  {:<9}{:<28}{:>15}{:>11}{:>14}{:>10}{:>9}\n", "verdict", "test", "load",
                  "required", fmt::format("life at {:g} %", r.survival_percent), "reserve", "used");
  for (const TestVerdict &t : r.tests)
    out += fmt::format(
        "  {}{}{:>15}{:>11}{:>14}{:>10}{:>9}\n", ink.verdict(t.verdict, 9), left(t.name, 27) + " ",
        cut(fmt::format("{:.5g} {}", t.load, t.load_unit), 14), cycles_text(t.required_cycles),
        life_text(t.life_design, t.verdict),
        t.verdict == Verdict::not_rated ? "-" : reserve(t.life_design, t.required_cycles),
        share_text(t.utilisation, " %"));
  return out;
}

/// What n wheels are expected to do; nothing for tests without a rating.
std::string programme_rows(const Results &r, const Ink &ink) {
  std::string out;
  for (const TestVerdict &t : r.tests)
    if (t.pass_probability >= 0)
      out += wrapped("  - ", fmt::format("{}: {} {} with {:.3g} % (lognormal) or {:.3g} % "
                                         "(Weibull); scatter: {}; failed by: {}",
                                         cut(t.name, 40), t.wheels,
                                         t.wheels == 1 ? "wheel passes" : "wheels all pass",
                                         100 * t.pass_lognormal, 100 * t.pass_weibull,
                                         t.scatter_source, t.failure_criterion));
  return out.empty() ? ""
                     : "\n" + ink.bold("Programmes, by the place likeliest to fail") + "\n" + out;
}

std::string gauge_table(const Results &r, const Ink &ink) {
  if (r.gauges.empty()) return "";
  std::string out =
      "\n" + ink.bold("Strain gauges") + "   (microstrain over one turn; m.: measured)\n";
  out += fmt::format("  {:<18} {:<18} {:>6} {:>6} {:<9} {:>6} {:>6} {:>8} {:>8}\n", "gauge", "test",
                     "r", "theta", "side", "mean", "ampl.", "m. mean", "m. ampl.");
  for (const GaugeFigures &g : r.gauges)
    out += fmt::format("  {} {} {:>6.1f} {:>6.1f} {} {:>6.0f} {:>6.0f} {:>8} {:>8}\n",
                       left(g.name, 18), left(g.test, 18), g.r, g.theta_deg, left(g.side, 9),
                       g.mean_microstrain, g.amplitude_microstrain,
                       g.measured ? fmt::format("{:.0f}", g.measured_mean_microstrain) : "-",
                       g.measured ? fmt::format("{:.0f}", g.measured_amplitude_microstrain) : "-");
  return out;
}

std::string spectrum_table(const Results &r, const Ink &ink) {
  if (r.spectrum.empty()) return "";
  std::string out =
      "\n" + ink.bold("Service spectrum") +
      fmt::format("   (one pass: {} turns; damage 1 is failure)\n", cycles_text(r.spectrum_turns));
  out += fmt::format("  {:<20} {:>6} {:>6} {:<11} {:>9} {:>10}  {}\n", "feature", "r", "theta",
                     "side", "damage", "passes", "most by");
  for (std::size_t i = 0; i < std::min<std::size_t>(5, r.spectrum.size()); ++i) {
    const SpectrumPlace &p = r.spectrum[i];
    out += fmt::format("  {} {:>6.1f} {:>6.1f} {} {:>9.2e} {:>10}  {}\n", left(p.feature, 20), p.r,
                       p.theta_deg, left(p.side, 11), p.damage,
                       p.damage > 0 ? cycles_text(1 / p.damage) : "infinite",
                       cut(p.block, 20) + fmt::format(" ({:.0f} %)", 100 * p.block_share));
  }
  return out;
}

std::string sensitivity_table(const Results &r, const Ink &ink) {
  constexpr std::size_t most = 16;
  std::string out;
  for (std::size_t i = 0; i < std::min(most, r.sensitivities.size()); ++i) {
    const Sensitivity &s = r.sensitivities[i];
    out += fmt::format("  {} {} {:>9} {:>12} {}\n", left(s.change, 38), left(s.test, 24),
                       reserve(s.life_ratio, 1), life_text(s.life_design, s.verdict),
                       ink.verdict(s.verdict, 4, "-"));
  }
  if (out.empty()) return out;
  return "\n" + ink.bold("What moves the life most") +
         "   (one change at a time; sheet thickness: felloe rate --thickness)\n" +
         fmt::format("  {:<38} {:<24} {:>9} {:>12}\n", "change", "test", "life", "new life") + out;
}

std::string hot_spot_table(const Results &r, const Ink &ink) {
  if (r.hot_spots.empty()) return "";
  std::string out = "\n" + ink.bold("Hot spots, worst first") +
                    "   (MPa, mm, degrees, cycles; used: share of the allowed stress)\n";
  out += fmt::format(
      "  {:>2} {:<20} {:>5} {:>5} {:>6}  {:<11} {:>5} {:>5} {:>4} {:>6} {:>6} {:>6} {}\n", "#",
      "feature", "r", "theta", "z", "test", "ampl.", "mean", "+-%", "50 %",
      cut(fmt::format("{:g} %", r.survival_percent), 6), "used %", "");
  const auto brief = [](std::string text) {
    return text == "infinite" ? std::string("inf.") : text;
  };
  for (std::size_t i = 0; i < std::min(max_hot_spots, r.hot_spots.size()); ++i) {
    const HotSpot &h = r.hot_spots[i];
    const std::string row = fmt::format(
        "  {:>2} {} {:>5.1f} {:>5.1f} {:>6.1f}  {} {:>5.0f} {:>5.0f} {:>4} {:>6} {:>6} {:>6}", h.id,
        left(h.feature, 20), h.r, h.theta_deg, h.z, left(h.test, 11), h.amplitude, h.mean,
        h.error_percent < 0 ? "?" : fmt::format("{:.1f}", h.error_percent),
        brief(life_text(h.life_p50, h.verdict)), brief(life_text(h.life_design, h.verdict)),
        share_text(utilisation(h)));
    out += left(row, 95) + " " + ink.verdict(h.verdict, 4, "-") + "\n";
  }
  if (r.hot_spots.size() > max_hot_spots)
    out += fmt::format("  {} more in results.json\n", r.hot_spots.size() - max_hot_spots);
  return out;
}

std::string assumption_list(const Results &r, const Ink &ink) {
  std::string rows;
  for (const std::string &a : r.assumptions)
    if (low_confidence(a)) rows += wrapped("  - ", a);
  for (const TestVerdict &t : r.tests)
    if (low_confidence(t.confidence))
      rows += wrapped("  - ", "rig test '" + t.name + "': factors " + t.confidence);
  return rows.empty() ? "" : "\n" + ink.bold("Check before use (low confidence)") + "\n" + rows;
}

}  // namespace

std::string caution_text(const std::vector<std::string> &cautions, bool colour) {
  if (cautions.empty()) return "";
  std::string out = "\n" + Ink{colour}.bold("Cautions") + "\n";
  for (std::size_t i = 0; i < cautions.size(); ++i)
    out += wrapped(fmt::format("  {}. ", i + 1), cautions[i]);
  return out;
}

std::string cycles_text(double cycles) {
  if (std::isnan(cycles)) return "-";
  if (std::isinf(cycles)) return "infinite";
  // beyond any curve's validity: flat slopes below the knee would print astronomical figures
  if (cycles > 1e10) return ">1e10";
  if (cycles < 9999.5) return fmt::format("{:.0f}", cycles);
  int exponent = static_cast<int>(std::floor(std::log10(cycles)));
  double mantissa = cycles / std::pow(10.0, exponent);
  if (mantissa >= 9.995) {
    mantissa = 1;
    ++exponent;
  }
  return fmt::format("{:.2f}e{}", mantissa, exponent);
}

std::string summary(const Results &r, bool colour) {
  const Ink ink(colour);
  const std::string program = "felloe " + cut(r.program_version, 20);
  const std::string title = r.title.empty() ? r.case_file : r.title;
  std::string out =
      ink.bold(left(title, summary_columns - program.size() - 1)) + " " + program + "\n";
  if (!r.case_file.empty() && title != r.case_file) out += cut(r.case_file, summary_columns) + "\n";
  out += "\n" + verdict_line(r, ink) + "\n" + key_figures(r) + test_table(r, ink) +
         programme_rows(r, ink) + hot_spot_table(r, ink) + gauge_table(r, ink) +
         spectrum_table(r, ink) + sensitivity_table(r, ink) + assumption_list(r, ink) +
         caution_text(r.cautions, colour);
  return out;
}

}  // namespace felloe
