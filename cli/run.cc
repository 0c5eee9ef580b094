// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/run.h"

#include "cli/case_file.h"
#include "cli/output_folder.h"
#include "mesher/error.h"

namespace felloe {

int run_case(const Case &c, const RunOptions &options) {
  OutputFolder folder(options.output);
  folder.write("case.toml", resolved_case(c));
  throw Error(c.file + ": this build has no solver yet; use 'felloe check'");
}

}  // namespace felloe
