// SPDX-License-Identifier: GPL-3.0-or-later
// The rows of the tables of edges, finishes and surface factors.
#include "post/surface_state.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

template <class Row>
const Row &found(const std::vector<Row> &rows, const std::string &name, const char *what) {
  std::vector<std::string> names;
  for (const Row &row : rows) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name(what, name, names));
}

const char *no_source = "assumption, no single factor in literature";

}  // namespace

const std::vector<EdgeFinish> &edge_finishes() {
  static const std::vector<EdgeFinish> rows = {
      {"none", "no edge of its own: as the sheet's face", 1, 1, 1, 1, "definition", "own value"},
      {"sheared",
       "punched or sheared: torn zone, hardened layer and tensile residual stress at the burr "
       "side; "
       "worse with higher strength, better after stress relief",
       standard_sheared_edge_factor, 0.85, 0.6, 0.85,
       std::string(no_source) + "; reports of punched holes: FHWA/TX-07/0-4624-1, JMMP 4 (2020) "
                                "52, Metals 15 (2025) 651",
       "range 0.6 to 0.85 common practice, no source"},
      {"reamed", "torn zone cut away, edges broken", 1, 1, 0.9, 1.1, no_source,
       "common practice, no source"},
      {"coined",
       "edge pressed to a radius after punching; its compressive residual stress is not counted",
       0.85, 0.85, 0.85, 1.1, no_source, "common practice, no source"},
      {"laser-cut",
       "thermally cut, with drag lines; dross and burr at the exit side, which the factor is for",
       0.78, 0.88, 0.7, 0.95,
       "EN 1993-1-9 table 8.1: 125 (drag lines) and 140 (dressed) over 160 of rolled plate; "
       "thinner "
       "and harder sheet than the standard's",
       "from memory, verify"},
  };
  return rows;
}

const EdgeFinish &edge_finish(const std::string &name) {
  return found(edge_finishes(), name, "kind of edge");
}

const std::vector<SurfaceFinish> &surface_finishes() {
  static const std::vector<SurfaceFinish> rows = {
      {"as delivered", "pickled or rolled sheet as the roughness says", 1, 1, 1, "definition",
       "own value"},
      {"shot-blasted",
       "compressive residual stress helps, not counted; give the roughness after blasting", 1, 1,
       1.3, no_source, "common practice, no source"},
      {"dip-coated",
       "cathodic dip coat and paint: no change on a dry rig; in service they keep corrosion away, "
       "which no rating here contains",
       1, 0.95, 1.1, no_source, "common practice, no source"},
      {"hot-dip galvanised",
       "cracks in the zinc layer run into the steel; fatigue of punched plates fell further by "
       "galvanising",
       0.8, 0.7, 1, std::string(no_source) + "; direction: FHWA/TX-07/0-4624-1",
       "value common practice, no source"},
  };
  return rows;
}

const SurfaceFinish &surface_finish(const std::string &name) {
  return found(surface_finishes(), name, "surface finish");
}

SnCurve with_edge(SnCurve c, const EdgeFinish &edge, EdgeSide side, double given) {
  if (edge.name == "none") return c;
  const bool entry = side == EdgeSide::entry;
  const double row = entry ? edge.entry_factor : edge.factor;
  const double factor = given <= 0 ? row : entry ? std::max(row, given) : given;
  c.name += ", " + edge.name + " edge" + (entry ? ", entry side" : "");
  c.knee_amplitude *= factor;
  c.assumptions.push_back(fmt::format("{} edge{}: factor {:g}{}, range {:g} to {:g} ({}; {})",
                                      edge.name, entry ? ", side away from the burr" : "", factor,
                                      given > 0 && given != row ? " (given)" : "", edge.lowest,
                                      edge.highest, edge.source, edge.confidence));
  return c;
}

SnCurve with_finish(SnCurve c, const SurfaceFinish &finish) {
  if (finish.name == surface_finishes().front().name) return c;
  c.name += ", " + finish.name;
  c.knee_amplitude *= finish.factor;
  c.assumptions.push_back(fmt::format("{}: factor {:g}, range {:g} to {:g}: {} ({}; {})",
                                      finish.name, finish.factor, finish.lowest, finish.highest,
                                      finish.summary, finish.source, finish.confidence));
  return c;
}

double SurfaceFactor::at(double tensile_strength) const {
  return std::min(1.0, a * std::pow(tensile_strength, b));
}

const std::vector<SurfaceFactor> &surface_factors() {
  const char *older = "Shigley, older editions", *newer = "Shigley, newer editions",
             *sure = "from memory, verify";
  static const std::vector<SurfaceFactor> rows = {
      {"ground", 1.58, -0.085, older, sure},
      {"machined", 4.51, -0.265, older, "from memory; found second-hand"},
      {"hot-rolled", 57.7, -0.718, older, sure},
      {"forged", 272, -0.995, older, sure},
      {"ground, newer", 1.38, -0.067, newer, sure},
      {"machined, newer", 3.04, -0.217, newer, sure},
      {"hot-rolled, newer", 38.6, -0.650, newer, sure},
      {"forged, newer", 54.9, -0.758, newer, sure},
  };
  return rows;
}

const SurfaceFactor &surface_factor(const std::string &name) {
  return found(surface_factors(), name, "surface factor");
}

}  // namespace felloe
