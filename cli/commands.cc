// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.h"

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "cli/list.h"
#include "cli/terminal.h"
#include "cli/thin/thin.h"
#include "cli/version.h"
#include "mesher/error.h"
#include "solver/processes.h"

namespace felloe {
namespace {

/// Everything on stdout, checked to the end: a full disk behind a redirection is an Error too.
int print(const std::string &text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!written || std::fflush(stdout) != 0)
    throw Error(std::string("standard output: can't be written: ") + std::strerror(errno));
  return 0;
}

int run_with(const Options &options) {
  CheckedCase c = checked_case(options.case_path);
  if (options.density > 0) c.given.mesh.density = options.density;
  return run_case(c.given, options.run);
}

int thin_with(const Options &options) {
  ThinOptions thin;
  thin.run = options.run;
  if (options.density > 0) thin.density = options.density;
  return run_thin(checked_case(options.case_path).given, thin);
}

}  // namespace

int run_command(const Options &options) {
  if (options.command != Command::run && Processes::count() > 1)
    throw Error("mpirun: 'felloe run' alone works by several processes; start this one without it");
  switch (options.command) {
    case Command::check:
      return check_case(options.check);
    case Command::run:
      return run_with(options);
    case Command::sweep:
      return sweep(options.sweep, version);
    case Command::rate:
      return rate_stored(options.rate);
    case Command::fit:
      return fit_lives_file(options.fit);
    case Command::thin:
      return thin_with(options);
    case Command::list:
      return print(options.json ? list_json(options.topic)
                                : list_text(options.topic, text_width(stdout)));
    case Command::version:
      return print(std::string("felloe ") + version + "\n");
    default:
      return print(help_text(options.topic, text_width(stdout)));
  }
}

}  // namespace felloe
