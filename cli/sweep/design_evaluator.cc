// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/design_figures.h"
#include "cli/sweep/section_design.h"
#include "cli/sweep/wheel_design.h"
#include "mesher/error.h"

namespace felloe {

struct DesignEvaluator::Impl {
  Depth depth;
  WheelDesigns wheels;
};

DesignEvaluator::DesignEvaluator(Depth depth) : impl_(new Impl{depth, {}}) {}
DesignEvaluator::~DesignEvaluator() = default;

DesignFigures DesignEvaluator::evaluate(const Case &c) {
  if (c.wheel.construction != Construction::welded_disc)
    throw Error(
        "[wheel] construction: a plain disc has no rig tests: nothing to sweep; use a welded disc");
  return impl_->depth == Depth::section ? section_figures(c) : impl_->wheels.evaluate(c);
}

}  // namespace felloe
