// SPDX-License-Identifier: GPL-3.0-or-later
// Reads, checks and draws one case; solves nothing.
#pragma once
#include <string>

#include "cli/case.h"
#include "mesher/layout.h"

namespace felloe {

/// The case and its geometry. Throws Error that lists every mistake with the file's name in front.
struct CheckedCase {
  Case given;
  WheelLayout shape;
};
CheckedCase checked_case(const std::string &path);

struct CheckOptions {
  std::string case_path;
  std::string folder;   ///< drawing goes here under its usual name; empty: current folder
  std::string drawing;  ///< or to this file
  bool json = false;    ///< figures as JSON on standard output
};

/// `felloe check`: prints the summary and writes the drawing. Returns the exit code.
int check_case(const CheckOptions &);

}  // namespace felloe
