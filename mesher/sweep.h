// SPDX-License-Identifier: GPL-3.0-or-later
// From a chart to the 3D mesh: nodes by number, never joined by place.
#pragma once
#include <memory>
#include <vector>

#include "mesher/chart_entities.h"
#include "mesher/mesh.h"
#include "mesher/wheel_geometry.h"

namespace felloe {

/// Node numbers of a swept wheel. Circles count half divisions k = 0 ... 2 n_theta - 1.
class SweptNodes {
 public:
  SweptNodes(const WheelGeometry &, const ChartEntities &);
  int count() const { return count_; }
  int n_half() const { return n_half_; }
  /// level: half layers from eta = -1.
  int disc(int entity, int level) const { return entity * disc_levels_ + level; }
  /// i: half stations of the rim; the root's node is the disc's.
  int rim(int i, int k, int level) const;
  int weld(int section_node, int k) const;
  /// Chart entity on the flange; i: half flange circles from flange_s0.
  int flange_entity(int i, int k) const { return flange_[i * n_half_ + k % n_half_]; }
  int n_flange() const { return n_flange_; }  ///< half flange circles, both ends counted

 private:
  void find_flange(const WheelGeometry &, const ChartEntities &);
  const WheelGeometry &geometry_;
  int count_ = 0, n_half_ = 0, disc_levels_ = 0, rim_levels_ = 0, n_flange_ = 0;
  int first_rim_ = 0, first_weld_ = 0;
  std::vector<int> flange_;
  std::vector<int> own_;  // of each weld section node: its place among those not shared, or -1
};

/// The mesh of a chart, named and tied, not yet checked.
Mesh sweep(const WheelLayout &, const ChartMesh &, const MeshSize &);

/// Surfaces and lines of the swept mesh.
void name_surfaces(const WheelGeometry &, Mesh &);
void name_lines(const WheelGeometry &, const ChartEntities &, const SweptNodes &, Mesh &);

}  // namespace felloe
