// SPDX-License-Identifier: GPL-3.0-or-later
// A sweep as one page to read, to send and to search.
#pragma once
#include <functional>
#include <string>

#include "cli/sweep/ranking.h"

namespace felloe {

struct SweepPageSource {
  std::string folder;   ///< of the sweep, for the commands that compute a design again
  std::string version;  ///< of the program that writes the page
  std::function<std::string(long design)> case_text;
};

/// Section drawings on the page take at most so many bytes: the lightest that pass and the best
/// compromises come first, then all others in their order.
constexpr std::size_t most_drawing_bytes = 4'000'000;

/// The file: what was varied, failures by reason, best designs, plots whose points lead to designs,
/// every design in a table. Its script sorts and filters the table and shows one design with its
/// section, worst hot spots and command; without scripts the table stands whole.
std::string sweep_page(const SweepHead &, const Designs &, const SweepPageSource &);

/// The script and the style sheet of that page.
std::string sweep_page_script();
std::string sweep_page_style();

/// What the script shows of every design, as JSON in a <script> that is data.
std::string sweep_page_data(const SweepHead &, const Designs &, const SweepPageSource &);

/// `felloe sweep FOLDER --design N ...` for a shell, the folder quoted where it must be.
std::string command_of_design(const std::string &folder, const std::string &design);

}  // namespace felloe
