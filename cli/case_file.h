// SPDX-License-Identifier: GPL-3.0-or-later
// From a TOML case file to a Case and back.
#pragma once
#include <string>

#include "cli/case.h"

namespace felloe {

/// Reads and checks a case file. Throws Error that lists every mistake of the file, one a line:
/// "file:line:column: [section] key = value: why not; what is accepted; nearest key".
Case read_case(const std::string &path);

/// The same for a text; `name` stands for the file in messages.
Case read_case_text(const std::string &text, const std::string &name);

/// The case as a complete TOML text, every default spelled out. Reading it gives the same Case.
std::string resolved_case(const Case &);

/// JSON Schema (draft 2020-12) of the case file, from the key table.
std::string case_schema();

}  // namespace felloe
