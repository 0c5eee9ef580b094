// SPDX-License-Identifier: GPL-3.0-or-later
// A design's section alone, in harmonics: quick figures for screening.
#pragma once
#include "cli/sweep/design_figures.h"

namespace felloe {

/// Mass with holes; stiffness and stress without them: the section model closes bolt holes and
/// vents. Bolts clamp as a ring. Bends, faces and weld toes are rated as in 3D, the vents' edge by
/// formula (post/section_rating.h), bolt holes not at all.
DesignFigures section_figures(const Case &);

}  // namespace felloe
