// SPDX-License-Identifier: GPL-3.0-or-later
// How edges are cut and surfaces are finished, as rows of two tables: factors on the fatigue limit.
// Where the literature gives no single factor the row is on the safe side, says that it is an
// assumption, and names the range.
#pragma once
#include <string>
#include <vector>

#include "post/sn_curve.h"

namespace felloe {

/// The side of a cut: where the burr is and the fracture began to run out, or the other.
enum class EdgeSide { burr, entry };

struct EdgeFinish {
  std::string name, summary;
  double factor = 1;        ///< on the fatigue limit at the burr side, or where it is not known
  double entry_factor = 1;  ///< at the other side
  double lowest = 1, highest = 1;  ///< what is reported or thought possible
  std::string source, confidence;
};
/// "none", "sheared", "reamed", "coined", "laser-cut".
const std::vector<EdgeFinish> &edge_finishes();
const EdgeFinish &edge_finish(const std::string &name);  ///< Error lists the names

struct SurfaceFinish {
  std::string name, summary;
  double factor = 1;  ///< on the fatigue limit
  double lowest = 1, highest = 1;
  std::string source, confidence;
};
/// "as delivered", "shot-blasted", "dip-coated", "hot-dip galvanised".
const std::vector<SurfaceFinish> &surface_finishes();
const SurfaceFinish &surface_finish(const std::string &name);  ///< Error lists the names

/// The curve of the edge of a sheet whose face has the given curve. factor > 0 replaces the row's
/// for the burr side (and for the other where it is the higher one).
SnCurve with_edge(SnCurve face, const EdgeFinish &, EdgeSide, double factor = 0);
SnCurve with_finish(SnCurve, const SurfaceFinish &);

/// Surface factor of machine design courses, k_a = a Rm^b, at most 1; a second opinion to the
/// roughness factor of the FKM guideline. Rows: ground, machined, hot-rolled, forged, and their
/// newer constants.
struct SurfaceFactor {
  std::string name;
  double a = 0, b = 0;
  std::string source, confidence;
  double at(double tensile_strength) const;
};
const std::vector<SurfaceFactor> &surface_factors();
const SurfaceFactor &surface_factor(const std::string &name);

}  // namespace felloe
