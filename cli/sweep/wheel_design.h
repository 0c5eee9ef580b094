// SPDX-License-Identifier: GPL-3.0-or-later
// A design as a whole wheel in 3D, without the fields and pictures of a run.
#pragma once
#include <memory>

#include "cli/sweep/design_figures.h"

namespace felloe {

class WheelDesigns {
 public:
  WheelDesigns();
  ~WheelDesigns();
  DesignFigures evaluate(const Case &);

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace felloe
