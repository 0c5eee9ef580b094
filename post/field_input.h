// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the meshes and fields that a run has stored.
#pragma once
#include <string>
#include <vector>

#include "post/field_output.h"

namespace felloe {

struct StoredFields {
  Mesh mesh;  ///< nodes, cells, parts only: names and the exact geometry are not stored
  std::vector<PointField> point_fields;
  std::vector<CellField> cell_fields;  ///< without "part"
  std::string coloured_by;  ///< field that viewers show first; empty: none of one component
  std::string moved_by;     ///< vector field that viewers deform the mesh by
};

/// Reads a file of write_vtu, or the pieces of write_pvtu (.pvtu) as one mesh in which nodes
/// between pieces occur in each of them. Lives of infinite_life_in_fields or more come back as
/// stored. Error when the file is missing, damaged, or holds other cells.
StoredFields read_vtu(const std::string &path);

/// The field of this name; Error lists the names that exist.
const PointField &point_field(const StoredFields &, const std::string &name);

/// Volume [mm3] of the cells by VTK's own shape functions: a check of the node order.
double viewer_volume(const std::string &path);

}  // namespace felloe
