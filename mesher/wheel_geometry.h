// SPDX-License-Identifier: GPL-3.0-or-later
// The exact push-forward: where a point of a cell lies on its sheet, and where that is in space.
#pragma once
#include <array>
#include <vector>

#include "mesher/chart_mesh.h"
#include "mesher/layout.h"
#include "mesher/mesh.h"
#include "mesher/stations.h"
#include "mesher/weld_section.h"

namespace felloe {

/// What a 3D wheel mesh knows beyond its numbers. Cells are counted disc first, then rim, then
/// weld:
///   disc  quad * layers() + layer                        (a, b, c) = (chart a, chart b, eta)
///   rim   first_rim() + (station * n_theta + k) * rim_layers() + layer     (s, theta, eta)
///   weld  first_weld() + section cell * n_theta + k       (section a, theta, section b)
class WheelGeometry {
 public:
  WheelGeometry(WheelLayout, ChartMesh, const MeshSize &);

  const WheelLayout &layout() const { return layout_; }
  const ChartMesh &chart() const { return chart_; }
  const RimStations &rim() const { return rim_; }    ///< empty on a disc without rim
  const WeldSection &weld() const { return weld_; }  ///< empty on a disc without rim
  bool has_rim() const { return !rim_.s.empty(); }
  int layers() const { return layers_; }
  int rim_layers() const { return rim_layers_; }
  int first_rim() const { return static_cast<int>(chart_.quads.size()) * layers_; }
  int first_weld() const { return first_rim() + n_rim_cells_; }
  int n_cells() const;
  Part part(int cell) const;

  /// Point of a cell at unit coordinates [mm].
  Vec3 position(int cell, const Vec3 &unit) const;
  /// Sheet coordinates of the same point; zeros on the weld.
  SheetPoint sheet_point(int cell, const Vec3 &unit) const;
  /// The layer border at which the seat cone of a hole begins; layers() without a cone.
  int cone_layer(int hole) const;

 private:
  struct ChartPoint {
    double sigma, theta, eta;
  };
  ChartPoint disc_point(int quad, int layer, const Vec3 &unit) const;
  double eta_at(const ChartNode &, double level) const;
  ChartPoint rim_point(int cell, const Vec3 &unit) const;  // sigma holds s
  Vec3 weld_position(int cell, const Vec3 &unit) const;

  WheelLayout layout_;
  ChartMesh chart_;
  int layers_ = 1, rim_layers_ = 1, n_rim_cells_ = 0;
  RimStations rim_;
  WeldSection weld_;
  std::vector<double> sigma_;  // of every chart node
};

}  // namespace felloe
