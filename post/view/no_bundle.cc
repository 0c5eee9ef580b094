// SPDX-License-Identifier: GPL-3.0-or-later
// In place of the bundle where the program is built without node and npm.
#include "post/detail/view_bundle.h"

namespace felloe::detail {
const char *const view_script = "";
const char *const view_style = "";
}  // namespace felloe::detail
