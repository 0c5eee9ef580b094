// SPDX-License-Identifier: GPL-3.0-or-later
// The view that turns, as post/view/bundle.mjs makes it.
#pragma once

namespace felloe::detail {

extern const char *const view_script;  ///< UTF-8; empty: the program was built without the view
extern const char *const view_style;

}  // namespace felloe::detail
