// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the command table, by subject.
#pragma once
#include "cli/command_table.h"

namespace felloe {

CommandRow check_row();
CommandRow run_row();
CommandRow rate_row();
CommandRow thin_row();
CommandRow sweep_row();
CommandRow fit_row();
CommandRow list_row();
CommandRow help_row();

/// Options that several commands take in the same sense.
OptionRow help_option();
OptionRow json_option(const std::string &what);
OptionRow quiet_option();

}  // namespace felloe
