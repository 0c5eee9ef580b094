// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel's half section with all its dimensions.
#pragma once
#include <string>

#include "mesher/layout.h"
#include "post/html/page.h"

namespace felloe {

/// SVG text of the half section: disc, rim and weld filled, holes dashed, every dimension that the
/// case gives or that follows from it. Lengths in mm; the axis lies at the bottom, outboard right.
std::string section_drawing(const WheelLayout &);

/// The same as part of a page.
HtmlFragment section_figure(const WheelLayout &);

}  // namespace felloe
