// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/stored_run.h"

#include <sstream>

#include "cli/case_file.h"
#include "cli/gauges.h"
#include "cli/rating_steps.h"
#include "mesher/error.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

std::vector<const Solution *> pointers(const std::vector<Solution> &solutions) {
  std::vector<const Solution *> p;
  for (const Solution &s : solutions) p.push_back(&s);
  return p;
}

std::string contact_group(std::size_t i, const char *what) {
  return "contact " + std::to_string(i) + " " + what;
}

class Store {
 public:
  Store(const Analysis &a, StoredHistories &h, const std::vector<int> &nodes)
      : a_(a), h_(h), nodes_(nodes) {}

  void states(const std::string &group, const std::vector<const Solution *> &solutions) {
    for (const Solution *s : solutions) {
      StoredState state{group, {}};
      for (const int n : nodes_) state.stress.push_back(s->stress[n]);
      state.stress.emplace_back();
      h_.states.push_back(std::move(state));
    }
  }

  /// All positions of a turn, from those inside one sector.
  void turn(const std::string &group, const std::vector<Solution> &base) {
    if (base.empty()) return;
    const TurnHistory rolling = rolling_turn("", a_.mesh, {}, pointers(base), 1);
    const std::size_t first = h_.states.size();
    h_.states.resize(first + base.size() * std::max<std::size_t>(1, a_.mesh.symmetry),
                     {group, std::vector<Stress>(nodes_.size() + 1)});
    parallel_for(0, static_cast<int>(nodes_.size()), [&](int i) {
      const SampledHistory felt = rolling.sampled(nodes_[i]);
      for (std::size_t k = 0; k < felt.states.size(); ++k)
        h_.states[first + k].stress[i] = felt.states[k];
    });
  }

 private:
  const Analysis &a_;
  StoredHistories &h_;
  const std::vector<int> &nodes_;
};

/// Figures of the results by name, for both ways.
template <class Visit>
void visit_figures(Results &r, const Visit &visit) {
  visit("mass_kg", r.mass_kg);
  visit("disc_mass_kg", r.disc_mass_kg);
  visit("rim_mass_kg", r.rim_mass_kg);
  visit("static_unbalance_g_mm", r.static_unbalance_g_mm);
  visit("couple_unbalance_g_mm2", r.couple_unbalance_g_mm2);
  visit("tilt_Nm_per_deg", r.stiffness.tilt_Nm_per_deg);
  visit("axial_N_per_mm", r.stiffness.axial_N_per_mm);
  visit("radial_N_per_mm", r.stiffness.radial_N_per_mm);
  visit("torsion_Nm_per_deg", r.stiffness.torsion_Nm_per_deg);
  for (std::size_t i = 0; i < 36; ++i)
    visit("stiffness " + std::to_string(i), r.stiffness.matrix[i / 6][i % 6]);
  visit("min_scaled_jacobian", r.mesh.min_scaled_jacobian);
  visit("volume_mm3", r.mesh.volume_mm3);
  visit("exact_volume_mm3", r.mesh.exact_volume_mm3);
}

/// The stored case with everything put in that a rating without a solve may change.
Case with_free_values(Case c, const Case &now) {
  c.file = now.file;
  c.title = now.title;
  c.rated_load_kg = now.rated_load_kg;
  c.tyre = now.tyre;
  c.clamp = now.clamp;
  c.press_fit.interference_mm = now.press_fit.interference_mm;  // contact scales with it
  c.tests = now.tests;
  c.test_rows = now.test_rows;
  c.rating = now.rating;
  c.curves = now.curves;
  c.gauges = now.gauges;
  c.spectrum = now.spectrum;
  c.mesh.accuracy_percent = now.mesh.accuracy_percent;
  c.modes = now.modes;
  c.material_rows = now.material_rows;
  for (Material Case::*part : {&Case::disc_material, &Case::rim_material, &Case::weld_material}) {
    const Material elastic = c.*part;
    c.*part = now.*part;
    (c.*part).youngs_modulus = elastic.youngs_modulus;
    (c.*part).poissons_ratio = elastic.poissons_ratio;
    (c.*part).density = elastic.density;
  }
  return c;
}

[[noreturn]] void needs_solve(const Case &now, const std::string &what) {
  throw Error(now.file + ": " + what + ": that needs a solve; use 'felloe run'");
}

void check_free(const Case &stored, const Case &now) {
  std::istringstream had(resolved_case(with_free_values(stored, now))), wants(resolved_case(now));
  std::string section = "the top of the file", a, b;
  while (std::getline(wants, b)) {
    std::getline(had, a);
    if (!b.empty() && b[0] == '[') section = b;
    if (a != b)
      needs_solve(now, section + " " + b + " differs from the stored run (" +
                           (a.empty() ? "nothing there" : a) + ")");
  }
}

/// What all stresses of one steady load are multiplied by.
double ratio(const Case &now, const std::string &what, bool stored, double before, double after) {
  if (after == before || (!stored && after == 0)) return 1;
  if (!stored || before == 0) needs_solve(now, what + " acts that did not act in the stored run");
  return after / before;
}

void scale_loads(UnitSolutions &u, const Case &before, const Case &now) {
  const auto scale = [](std::vector<Solution> &all, double factor) {
    if (factor == 1) return;
    for (Solution &s : all)
      for (Stress &stress : s.stress) stress = factor * stress;
  };
  const bool bolted = before.wheel.bolts.count > 0;
  const bool contact = !u.contact.empty();
  const double clamp = bolted ? ratio(now, "a bolt clamp", !u.clamp.empty() || contact,
                                      bolt_preload_of(before), bolt_preload_of(now))
                              : 1;
  const double press = ratio(now, "a press fit", !u.pressed.empty(),
                             before.press_fit.interference_mm, now.press_fit.interference_mm);
  const double inflation = ratio(now, "inflation", !u.inflation.empty() || contact,
                                 before.tyre.inflation_kPa, now.tyre.inflation_kPa);
  if (inflation != 1 && now.tyre.outer_radius_mm != before.tyre.outer_radius_mm)
    needs_solve(now, "[tyre] outer_radius_mm differs from the stored run");
  if (contact && (clamp != 1 || inflation != 1))
    needs_solve(now, "the clamp or inflation of a hub in contact differs from the stored run");
  scale(u.clamp, clamp);
  scale(u.pressed, press);
  scale(u.inflation, inflation);
}

/// Hub contact is stored test by test.
void check_contact(const UnitSolutions &u, const Case &before, const Case &now) {
  if (u.contact.empty()) return;
  if (u.contact.size() != now.tests.size())
    needs_solve(now, "the rig tests of a hub in contact differ from the stored run");
  for (std::size_t i = 0; i < now.tests.size(); ++i) {
    const RigTest &a = before.tests[i], &b = now.tests[i];
    const auto load = [&](const RigTest &t, const Case &c) {
      return t.kind == RigTestKind::radial ? radial_force(t, rated_load_of(c))
                                           : bending_moment(t, rated_load_of(c));
    };
    if (a.kind != b.kind || (!u.contact[i].superposed && load(a, before) != load(b, now)))
      needs_solve(now, "the load of rig test '" + b.name + "' on a hub in contact differs");
  }
}

/// Weld toes by the read-out of the case.
void take_toes(StoredPlaces &places, const Case &now) {
  const auto toes = places.toes.find(now.rating.toe_read_out);
  if (toes == places.toes.end())
    needs_solve(now, "[rating] toe_read_out = '" + now.rating.toe_read_out +
                         "' does not fit the sheet in front of the weld toes");
  for (auto &[held, list] : places.rated)
    for (RatedPlace &place : list)
      for (const RatedPlace &toe : toes->second)
        if (place.surface == Surface::weld_toe && place.feature == toe.feature) place = toe;
}

UnitSolutions units_of(StoredHistories &h) {
  UnitSolutions u;
  const auto contact_of = [&](const std::string &group) -> ContactTest & {
    const std::size_t i = std::stoul(group.substr(8));
    if (u.contact.size() <= i) u.contact.resize(i + 1);
    return u.contact[i];
  };
  for (StoredState &state : h.states) {
    Solution s;
    s.load_case = state.group;
    s.stress = std::move(state.stress);
    const std::string &g = state.group;
    const auto says = [&](const char *word) { return g.find(word) != std::string::npos; };
    if (g == "pressed")
      u.pressed.push_back(std::move(s));
    else if (g == "clamp")
      u.clamp.push_back(std::move(s));
    else if (g == "inflation")
      u.inflation.push_back(std::move(s));
    else if (g == "rolling")
      u.rolling.push_back(std::move(s));
    else if (g == "moment_x")
      u.moment_x = std::move(s);
    else if (g == "moment_y")
      u.moment_y = std::move(s);
    else if (says("tight"))
      contact_of(g).tight.push_back(std::move(s));
    else {
      contact_of(g).superposed = says("superposed");
      contact_of(g).units.push_back(std::move(s));
    }
  }
  h.states.clear();
  return u;
}

}  // namespace

StoredHistories store_run(Analysis &a, const Case &c, const UnitSolutions &u) {
  StoredPlaces places;
  for (const Held held : {Held::rim, Held::hub}) places.rated[held] = places_of(a, c, held);
  for (const ToeReadOut &row : toe_read_outs()) {
    try {
      places.toes[row.name] = weld_toe_places(a.layout, a.mesh, row);
    } catch (const Error &) {
      // the sheet in front of a toe is too short for it
    }
  }
  places.gauges = a.gauges;
  const std::vector<int> nodes = stored_nodes(a.mesh, places, true);
  StoredHistories h = stored_skeleton(a.mesh, places, nodes);
  Store store(a, h, nodes);
  store.states("pressed", pointers(u.pressed));
  store.states("clamp", pointers(u.clamp));
  store.states("inflation", pointers(u.inflation));
  if (u.contact.empty()) {
    store.states("moment_x", {&u.moment_x});
    store.states("moment_y", {&u.moment_y});
    store.turn("rolling", u.rolling);
  }
  for (std::size_t i = 0; i < u.contact.size(); ++i) {
    const ContactTest &t = u.contact[i];
    store.states(contact_group(i, "tight"), pointers(t.tight));
    // two unit moments act everywhere; positions of a rolling load repeat round the wheel
    if (t.superposed && t.units.size() == 2)
      store.states(contact_group(i, "superposed"), pointers(t.units));
    else
      store.turn(contact_group(i, t.superposed ? "superposed turn" : "turn"), t.units);
  }
  visit_figures(a.results, [&](const std::string &name, double &f) { h.figures[name] = f; });
  h.figures["cells"] = static_cast<double>(a.results.mesh.cells);
  h.figures["dofs"] = static_cast<double>(a.results.mesh.dofs);
  return h;
}

RestoredRun restore_run(StoredHistories h, const Case &stored_case, const Case &now) {
  check_free(stored_case, now);
  RestoredRun run;
  run.units = units_of(h);
  check_contact(run.units, stored_case, now);
  if (!now.spectrum.empty() && (run.units.rolling.empty() || !run.units.contact.empty()))
    needs_solve(now, "[[spectrum]] rolls, and the stored run had no bonded rolling load");
  for (const RigTest &t : now.tests)
    if (t.kind == RigTestKind::radial && run.units.contact.empty() && run.units.rolling.empty())
      needs_solve(now, "rig test '" + t.name + "' rolls, and the stored run had no rolling load");
  scale_loads(run.units, stored_case, now);
  Analysis &a = run.analysis;
  a.restored = true;
  a.layout = layout(now.wheel);
  a.mesh = std::move(h.mesh);
  take_toes(h.places, now);
  a.places = std::move(h.places.rated);
  for (const GaugeInput &g : now.gauges)
    if (h.places.gauges.count(gauge_key(g)) == 0)
      needs_solve(now, "[[gauge]] '" + g.name + "' sits where the stored run had none");
  a.gauges = std::move(h.places.gauges);
  Results &r = a.results;
  r.title = now.title;
  r.case_file = now.file;
  r.survival_percent = now.rating.survival_percent;
  visit_figures(r, [&](const std::string &name, double &f) { f = h.figures[name]; });
  r.mesh.cells = static_cast<long>(h.figures["cells"]);
  r.mesh.dofs = static_cast<long>(h.figures["dofs"]);
  r.cautions = standing_cautions();
  return run;
}

}  // namespace felloe
