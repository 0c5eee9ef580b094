// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel while it is pressed together, before it is welded.
#pragma once
#include "mesher/mesh.h"

namespace felloe {

/// The mesh without its weld. The disc is pressed into the rim first and welded then, so the press
/// fit strains neither the weld nor the joint at its root; solved on the welded mesh, the
/// interference jumps from its full size to nothing at the weld root and drives the stress there
/// to a multiple of the hoop stress that grows with the mesh.
///
/// Nodes keep their numbers; nodes that disc and rim shared get a twin on the rim, appended at the
/// end, tied as a press-fit pair. The twins are the line "press-fit stop": hold their tangential
/// and axial components when nothing else keeps the rim on the disc. Weld cells, their faces and
/// surfaces left without faces are gone; nodes of the weld alone carry neither displacement nor
/// stress. The first nodes.size() entries of a solution belong to the nodes of the welded mesh.
Mesh unwelded(const Mesh &);

}  // namespace felloe
