// SPDX-License-Identifier: GPL-3.0-or-later
// How much memory there is.
#pragma once

namespace felloe {

/// Memory that can still be had [bytes]: MemAvailable of /proc/meminfo; infinity where unknown.
double free_memory();

}  // namespace felloe
