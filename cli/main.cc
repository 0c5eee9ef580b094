// SPDX-License-Identifier: GPL-3.0-or-later
// felloe: stress and fatigue life of wheel discs.
#include <csignal>
#include <exception>
#include <iostream>

#include "cli/commands.h"
#include "cli/terminal.h"
#include "mesher/error.h"
#include "solver/processes.h"

// Exit codes: 0 done and every rig test passed, 1 done and a test failed, 2 something that the user
// can repair, 3 a bug in this program.
int main(int argc, char **argv) {
  std::signal(SIGXFSZ, SIG_IGN);  // a file over the size limit is an Error like a full disk
  using felloe::Processes;
  const Processes processes(argc, argv);
  try {
    int code = 0;
    Processes::together([&] { code = felloe::run_command(felloe::read_options(argc, argv)); });
    return static_cast<int>(Processes::of_first(code));
  } catch (const felloe::Error &e) {
    if (Processes::first()) std::cerr << felloe::error_prefix() << e.what() << '\n';
    return 2;
  } catch (const std::exception &e) {
    if (Processes::first())
      std::cerr << felloe::error_prefix() << "internal error: " << e.what()
                << "\nPlease report it with the case file.\n";
    return 3;
  }
}
