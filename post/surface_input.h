// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the surfaces and points that a run has stored.
#pragma once
#include <array>
#include <map>
#include <string>
#include <vector>

#include "post/field_output.h"

namespace felloe {

struct StoredSurface {
  std::vector<Vec3> points;
  std::vector<std::vector<int>> quads;
  std::vector<PointField> point_fields;  ///< numbers
  std::string coloured_by;               ///< field that viewers show first
  std::map<std::string, std::vector<std::string>> point_texts;
  std::map<std::string, std::vector<std::string>> about;  ///< texts of the whole file
};

/// A file of SurfaceFiles or write_hot_spots(); Error when it is missing or damaged.
StoredSurface read_surface(const std::string &path);

/// Names and surfaces of the blocks of write_blocks(), by way of VTK's reader.
std::vector<std::pair<std::string, StoredSurface>> read_blocks(const std::string &path);

}  // namespace felloe
