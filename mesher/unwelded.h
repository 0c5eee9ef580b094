// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel as it is between pressing the disc into the rim and welding.
#pragma once
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// A mesh without its weld cells. Nodes that disc and rim share (the weld root) are split and join
/// the press-fit pairs. The interference acts on this body: the weld is laid on afterwards and
/// carries none of it. Bonded to the weld, an interference would stretch the root over a fraction
/// of an element.
struct UnweldedMesh {
  Mesh mesh;
  /// For each node of the welded mesh: its node here (the disc's where it was split), -1 for nodes
  /// of the weld alone.
  std::vector<int> node;
  std::vector<PressFitPair> split;  ///< the pairs that were one node
};
UnweldedMesh unwelded(const Mesh &);

struct UnweldedSection {
  SectionMesh mesh;
  std::vector<int> node;
  std::vector<PressFitPair> split;  ///< the pairs that were one node
};
UnweldedSection unwelded(const SectionMesh &);

}  // namespace felloe
