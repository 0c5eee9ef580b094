// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a sweep: mass against life and stiffness, and all designs in parallel coordinates.
#pragma once
#include <string>
#include <vector>

#include "cli/sweep/ranking.h"

namespace felloe {

/// Two plots as SVG: mass against rated life over required cycles (logarithmic; no crack expected:
/// at the top), and against tilt stiffness. The best compromises are joined by a line.
std::string pareto_picture(const SweepHead &, const Designs &);

/// The same plots for a page, each an <svg> of its own whose points lead to "#design-N"; class
/// "plot sweep-plot".
std::vector<std::string> linked_pareto_plots(const SweepHead &, const Designs &);
/// Style sheet of these plots.
std::string sweep_plot_style();

/// One upright axis for each key that varies and each figure, one line for each design, as SVG.
std::string parallel_picture(const SweepHead &, const Designs &);

}  // namespace felloe
