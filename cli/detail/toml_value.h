// SPDX-License-Identifier: GPL-3.0-or-later
// Values of a TOML file: where they stand, how they are written, whether a key accepts them.
#pragma once
#include <toml++/toml.h>

#include <optional>
#include <string>

#include "cli/case_keys.h"
#include "cli/findings.h"

namespace felloe {

/// The tables of a text; Error with line and column when it is no TOML.
toml::table parsed_toml(const std::string &text, const std::string &name);

/// A value as in the file, shortened.
std::string written(const toml::node &);
Spot spot_of(const toml::node &, std::string text = {});
Spot spot_of(const toml::key &, const toml::node &);

/// The value when the domain accepts it, else none and the reason.
std::optional<Value> converted(const toml::node &, const Domain &, std::string &why);

}  // namespace felloe
