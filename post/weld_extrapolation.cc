// SPDX-License-Identifier: GPL-3.0-or-later
// Extrapolation to the weld toe by exact Lagrange weights; linearisation over the thickness.
#include "post/weld_extrapolation.h"

#include <cassert>

#include "mesher/error.h"
#include "solver/nearest_name.h"

namespace felloe {

const std::vector<ToeReadOut> &toe_read_outs() {
  const char *source =
                 "IIW recommendations (Hobbacher 2016), read-out points; EN 1993-1-9:2005, "
                 "annex B names the stress, not the points",
             *sure = "from memory, verify";
  static const std::vector<ToeReadOut> rows = {
      {"linear",
       "toe on a plate's face (type a), elements up to 0.4 t: 1.67 s(0.4 t) - 0.67 s(1.0 t)",
       {0.4, 1.0},
       true,
       source,
       sure},
      {"quadratic",
       "type a, bending or a steep gradient: 2.52 s(0.4 t) - 2.24 s(0.9 t) + 0.72 s(1.4 t)",
       {0.4, 0.9, 1.4},
       true,
       source,
       sure},
      {"coarse",
       "type a, elements of size t: 1.5 s(0.5 t) - 0.5 s(1.5 t)",
       {0.5, 1.5},
       true,
       source,
       sure},
      {"edge fine",
       "toe on a plate's edge (type b), elements up to 4 mm: 3 s(4) - 3 s(8) + s(12 mm)",
       {4, 8, 12},
       false,
       source,
       sure},
      {"edge coarse",
       "type b, elements of 10 mm: 1.5 s(5) - 0.5 s(15 mm); at the toes of a wheel, which lie on "
       "faces, it and 'edge fine' reach into the next bend",
       {5, 15},
       false,
       source,
       sure},
      {"through thickness",
       "membrane + bending stress of the sections at 0.4 t and 1.0 t, carried on to the toe: what "
       "the notch adds cancels in a section, forces and moments change linearly between them",
       {0.4, 1.0},
       true,
       "IIW recommendations (Hobbacher 2016), linearisation over the thickness; Dong, Int. J. "
       "Fatigue 23 (2001) 865, by equilibrium from a section in front of the toe",
       sure,
       true},
  };
  return rows;
}

const ToeReadOut &toe_read_out(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : toe_read_outs()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("weld toe read-out", name, names));
}

std::vector<double> read_out_distances(const ToeReadOut &rule, double thickness) {
  std::vector<double> distances = rule.distances;
  if (rule.times_thickness)
    for (double &d : distances) d *= thickness;
  return distances;
}

std::vector<double> toe_weights(const std::vector<double> &x) {
  std::vector<double> weights(x.size(), 1.0);
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (!(x[i] > 0))
      throw Error("weld toe: read-out distance " + std::to_string(x[i]) +
                  " mm: stress at the toe itself is singular; distances must be positive");
    for (std::size_t j = 0; j < x.size(); ++j) {
      if (i == j) continue;
      if (x[i] == x[j])
        throw Error("weld toe: read-out distance " + std::to_string(x[i]) +
                    " mm twice: no extrapolation; give distances that differ");
      weights[i] *= x[j] / (x[j] - x[i]);
    }
  }
  return weights;
}

double value_at_toe(const std::vector<ReadOutValue> &values) {
  std::vector<double> distances;
  for (const auto &v : values) distances.push_back(v.distance);
  const auto weights = toe_weights(distances);
  double sum = 0;
  for (std::size_t i = 0; i < values.size(); ++i) sum += weights[i] * values[i].value;
  return sum;
}

double hot_spot_stress(const ToeReadOut &rule, double thickness,
                       const std::function<double(double)> &stress) {
  std::vector<ReadOutValue> values;
  for (double d : read_out_distances(rule, thickness)) values.push_back({d, stress(d)});
  return value_at_toe(values);
}

LinearisedStress linearised(const std::function<double(double)> &stress, double t, int strips) {
  assert(strips > 0 && strips % 2 == 0);
  LinearisedStress result;
  for (int i = 0; i <= strips; ++i) {
    const double depth = t * i / strips;
    const double weight = (i == 0 || i == strips ? 1.0 : i % 2 ? 4.0 : 2.0) / (3.0 * strips);
    const double s = weight * stress(depth);
    result.membrane += s;
    result.bending += s * 6 * (0.5 - depth / t);
  }
  return result;
}

}  // namespace felloe
