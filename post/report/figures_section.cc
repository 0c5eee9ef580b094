// SPDX-License-Identifier: GPL-3.0-or-later
// Mass, balance, stiffness, natural frequencies, hub contact.
#include <fmt/format.h>

#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

std::string masses(const Results &r) {
  std::vector<HtmlFact> all = {{"Mass", figure_text(r.mass_kg) + " kg"}};
  if (r.disc_mass_kg > 0 && r.rim_mass_kg > 0) {
    all.push_back({"Mass of the disc", figure_text(r.disc_mass_kg) + " kg"});
    all.push_back({"Mass of the rim", figure_text(r.rim_mass_kg) + " kg"});
  }
  // below what a balancing machine sees, an unbalance is the model's rounding
  const auto unbalance = [](double value, double least) {
    return value < least ? fmt::format("under {:g}", least) : figure_text(value, 3);
  };
  all.push_back({"Static unbalance", unbalance(r.static_unbalance_g_mm, 0.1) + " g mm"});
  all.push_back({"Couple unbalance", unbalance(r.couple_unbalance_g_mm2, 10) + " g mm\u00B2"});
  const WheelStiffness &k = r.stiffness;
  const auto stiffness = [&](const char *name, double value, const char *unit) {
    if (value != 0) all.push_back({name, figure_text(1e-3 * value) + " " + unit});
  };
  stiffness("Tilt stiffness", k.tilt_Nm_per_deg, "kN m/\u00B0");
  stiffness("Axial stiffness", k.axial_N_per_mm, "kN/mm");
  stiffness("Radial stiffness", k.radial_N_per_mm, "kN/mm");
  stiffness("Torsional stiffness", k.torsion_Nm_per_deg, "kN m/\u00B0");
  std::string out = html_facts(all);
  if (k.tilt_Nm_per_deg != 0)
    out +=
        "<p class=\"note\">Stiffness of the hub against the rim held at its inboard flange. "
        "Unbalance comes from the shape alone.</p>\n";
  return out;
}

std::string modes(const Results &r) {
  if (r.modes.empty()) return "";
  HtmlTable t;
  t.id = "natural-frequencies";
  t.caption = "Natural frequencies, and the mass that a shake of the hub moves with them";
  t.columns = {{"Held", "", false},
               {"Frequency", "Hz", true},
               {"Mass along x", "kg", true},
               {"along y", "kg", true},
               {"along z", "kg", true}};
  for (const NaturalMode &m : r.modes) {
    std::vector<std::string> row = {m.held == "hub" ? "hub face held" : "free wheel",
                                    fixed_text(m.frequency_Hz, 1)};
    for (const double mass : m.effective_mass_kg)
      row.push_back(m.held == "hub" ? fixed_text(mass, 3) : "\u2013");
    t.rows.push_back(row);
  }
  return "<h3>Natural frequencies</h3>\n" + html_table(t);
}

std::string contact(const Results &r) {
  if (r.contact.empty()) return "";
  HtmlTable t;
  t.id = "hub-contact";
  t.caption = "The hub face against the adapter over one turn";
  t.columns = {{"Rig test", "", false},
               {"Open, clamped", "%", true},
               {"Open at worst", "%", true},
               {"Preload", "kN", true},
               {"Smallest bolt force", "kN", true},
               {"Largest", "kN", true},
               {"Largest pressure", "MPa", true},
               {"Friction needed", "", true},
               {"Turn", "", false}};
  const bool rubs = r.contact.front().friction.coefficient > 0;
  if (rubs)
    t.columns.insert(t.columns.end() - 1, {{"Slipping nodes", "%", true},
                                           {"Largest slip", "\u00B5m", true},
                                           {"Margin against slip", "", true}});
  for (const ContactFigures &c : r.contact) {
    t.rows.push_back({test_markup(r, c.test), fixed_text(100 * c.open_share_clamped, 0),
                      fixed_text(100 * c.open_share, 0), fixed_text(1e-3 * c.preload_N, 1),
                      fixed_text(1e-3 * c.smallest_bolt_force_N, 1),
                      fixed_text(1e-3 * c.largest_bolt_force_N, 1),
                      fixed_text(c.largest_pressure_MPa, 0), fixed_text(c.friction_needed, 3),
                      c.superposed ? fmt::format("superposed, error {} % of the face's forces",
                                                 figure_text(100 * c.superposition_error, 2))
                                   : std::string("stepped angle by angle")});
    const FrictionFigures &f = c.friction;
    if (rubs)
      t.rows.back().insert(
          t.rows.back().end() - 1,
          {fixed_text(100 * f.slipping_share, 0), fixed_text(1e3 * f.largest_slip_mm, 1),
           f.slip_margin > 100 ? "over 100" : fixed_text(f.slip_margin, 1)});
  }
  return "<h3>Hub contact</h3>\n" + html_table(t);
}

}  // namespace

std::string figures_section(const ReportInput &in) {
  return masses(in.results) + modes(in.results) + contact(in.results);
}

}  // namespace felloe
