// SPDX-License-Identifier: GPL-3.0-or-later
// The section in about ten lines that an engineer reads in ten seconds.
#pragma once
#include <string>
#include <vector>

#include "cli/case.h"
#include "mesher/layout.h"

namespace felloe {

/// One line of the summary: "bolt holes", "5 of 14 mm on a circle of 112 mm".
struct SectionFigure {
  std::string name, text;
};
/// The section's main figures, in the order in which they are read.
std::vector<SectionFigure> section_figures(const Case &, const WheelLayout &);
/// The same as text in lines of that width.
std::string section_summary(const std::vector<SectionFigure> &, std::size_t width);

/// Exact masses of the parts [kg]; rim and weld are 0 for a plain disc.
struct PartMasses {
  double disc = 0, rim = 0, weld = 0;
  double total() const { return disc + rim + weld; }
};
PartMasses exact_masses(const Case &, const WheelLayout &);

}  // namespace felloe
