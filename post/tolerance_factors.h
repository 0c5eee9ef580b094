// SPDX-License-Identifier: GPL-3.0-or-later
// From few tests to what most parts reach: one-sided tolerance factors of the normal distribution.
#pragma once

namespace felloe {

/// k such that mean - k s of n normal values lies, with the given confidence, below what the share
/// `survival` of all parts reaches: k = t(confidence; n - 1, z sqrt(n)) / sqrt(n), t the quantile
/// of the noncentral t distribution, z the normal quantile of the share. Exact for complete
/// samples; with run-outs it is no more than an indication. Error unless n >= 2 and both shares lie
/// between 0 and 1 (survival from 0.5). Source: ISO 12107 (from memory). Test: ToleranceFactors.*
double tolerance_factor(int n, double survival, double confidence);

}  // namespace felloe
