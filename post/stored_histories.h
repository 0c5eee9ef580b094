// SPDX-License-Identifier: GPL-3.0-or-later
// What a run keeps for rating again without a solve: unit stresses of all rated nodes, in one file.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "post/gauges.h"
#include "post/rated_places.h"
#include "solver/stress.h"

namespace felloe {

/// Stresses of the stored nodes under one unit load or at one angle.
struct StoredState {
  std::string group;           ///< "clamp", "rolling", ...; several of one group keep their order
  std::vector<Stress> stress;  ///< of the nodes of StoredHistories::mesh [MPa]
};

/// What is read of the wheel, in node numbers of the mesh beside it.
struct StoredPlaces {
  std::map<Held, std::vector<RatedPlace>> rated;
  /// Weld toes by each read-out that fits the wheel.
  std::map<std::string, std::vector<RatedPlace>> toes;
  std::map<std::string, StrainGauge> gauges;
};

/// A mesh of the nodes that are read alone. Cells hold all cells round them with their other nodes
/// replaced by the last one, which stands for all nodes that are not stored, is free of stress and
/// belongs to no rated part.
struct StoredHistories {
  Mesh mesh;
  StoredPlaces places;
  std::vector<StoredState> states;
  std::map<std::string, double> figures;  ///< of the run, by name
  std::string case_text;                  ///< the case that was solved, every default spelled out
  std::vector<int> mesh_nodes;  ///< numbers of the nodes in the run's mesh; not in the file
};

/// The nodes that `places` use, ascending: node i of the stored mesh is node nodes[i] of the mesh
/// that it comes from.
/// @param round  with the nodes round the rated ones, for gradients
std::vector<int> stored_nodes(const Mesh &, const StoredPlaces &places, bool round);

/// Mesh, places and their nodes without states.
StoredHistories stored_skeleton(const Mesh &, const StoredPlaces &, const std::vector<int> &nodes);

/// The file's bytes: mark, version, length, checksum, then everything; stresses in single
/// precision (relative error below 6e-8).
std::string to_bytes(const StoredHistories &);
/// Error naming `file` when the bytes are no such file, of another version, cut off or changed.
StoredHistories from_bytes(const std::string &bytes, const std::string &file);

}  // namespace felloe
