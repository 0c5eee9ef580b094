// SPDX-License-Identifier: GPL-3.0-or-later
// What a run keeps for rating again without a solve: unit stresses of all rated nodes, in one file.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "post/rated_places.h"
#include "solver/stress.h"

namespace felloe {

/// Stresses of the stored nodes under one unit load or at one angle.
struct StoredState {
  std::string group;           ///< "clamp", "rolling", ...; several of one group keep their order
  std::vector<Stress> stress;  ///< of the nodes of StoredHistories::mesh [MPa]
};

/// A mesh of the rated nodes alone: every stored node is rated or feeds a weld toe. Cells hold all
/// cells round them with their other nodes replaced by the last one, which stands for all nodes
/// that are not stored and is free of stress.
struct StoredHistories {
  Mesh mesh;
  std::map<Held, std::vector<RatedPlace>> places;  ///< in node numbers of that mesh
  std::vector<StoredState> states;
  std::map<std::string, double> figures;  ///< of the run, by name
};

/// The nodes that `places` use, ascending: node i of the stored mesh is node nodes[i] of the mesh
/// that it comes from.
std::vector<int> stored_nodes(const std::map<Held, std::vector<RatedPlace>> &places);

/// Mesh and places without states.
StoredHistories stored_skeleton(const Mesh &, const std::map<Held, std::vector<RatedPlace>> &,
                                const std::vector<int> &nodes);

/// The file's bytes: mark, version, length, checksum, then everything; stresses in single
/// precision (relative error below 6e-8).
std::string to_bytes(const StoredHistories &);
/// Error naming `file` when the bytes are no such file, of another version, cut off or changed.
StoredHistories from_bytes(const std::string &bytes, const std::string &file);

}  // namespace felloe
