// SPDX-License-Identifier: GPL-3.0-or-later
// Surfaces, rated points and their blocks for viewers that read VTK files.
#pragma once
#include <memory>
#include <string>
#include <vector>

#include "post/field_output.h"
#include "post/rating.h"
#include "post/surface_quads.h"

namespace felloe {

/// One surface in several files: what they share is made once.
class SurfaceFiles {
 public:
  SurfaceFiles(const Mesh &, const SurfaceQuads &);
  ~SurfaceFiles();
  /// Writes the surface (.vtp, compressed binary, single precision) with fields of its nodes, the
  /// cell field "part" and its names. about: texts of the whole file by their names ("rig test").
  /// Threads may write different files at the same time. Error when the file can't be written;
  /// std::logic_error when a field does not fit.
  void write(const std::string &path, const std::vector<PointField> &,
             const std::vector<std::pair<std::string, std::string>> &about = {}) const;

 private:
  struct Shared;
  std::unique_ptr<const Shared> shared_;
};

/// Writes rated places as points (.vtp) with label, place, rig test, criterion, curve and verdict
/// as texts and with their figures. Labels read "1 vent edge: 182 MPa, FAIL".
void write_hot_spots(const std::string &path, const std::vector<HotSpot> &);

/// Writes named blocks (.vtm): one viewer object of several files, `file` relative to its folder.
void write_blocks(const std::string &path, const std::vector<CollectionFile> &);

}  // namespace felloe
