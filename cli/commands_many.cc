// SPDX-License-Identifier: GPL-3.0-or-later
// The commands for many wheels: sweep, fit.
#include "cli/command_rows.h"

namespace felloe {

CommandRow sweep_row() {
  CommandRow c;
  c.name = "sweep";
  c.arguments = "SWEEP.toml -o FOLDER";
  c.summary = "many designs, kept in FOLDER; 'felloe sweep FOLDER' goes on";
  c.usages = {"sweep SWEEP.toml -o FOLDER [--plan] [--workers N] [--json] [--quiet]",
              "sweep FOLDER [--retry] [--workers N] [--json] [--quiet]",
              "sweep FOLDER --table | --scatter | --best N | --design N [-o CASE.toml]"};
  c.text = R"(Computes many designs of one base case. Every finished design is kept in
FOLDER/designs.sqlite at once: after Ctrl-C, a crash or a power cut 'felloe sweep FOLDER' goes on
where it stopped. The same command in a second terminal works on the same designs. At the end FOLDER
also holds report.html (everything on one page, to send and to search), table.csv, compromises.svg
(mass against life and stiffness) and parallel.svg. A changed
SWEEP.toml may be planned into the same FOLDER: designs that are there already are not computed again.)";
  c.options = {
      {"output", 'o', "FOLDER", "where the designs are kept; with --design: file for the case",
       Completes::folder},
      {"workers", 0, "N", "processes at a time, each on one processor; 0: one a processor"},
      {"retry", 0, "", "compute failed designs again"},
      {"plan", 0, "", "plan the designs, compute nothing yet"},
      {"table", 0, "", "print all designs as CSV"},
      {"best", 0, "N", "print the N lightest that pass"},
      {"design", 0, "N", "print the whole case of design N, ready for 'felloe run'"},
      {"scatter", 0, "", "how likely each rig test is passed, and which key matters most"},
      json_option("what was found as JSON"),
      quiet_option(),
      {"worker", 0, "", "", Completes::nothing, true},
      help_option()};
  c.examples = {{"felloe sweep sweep.toml -o designs", "computes"},
                {"felloe sweep designs", "goes on after an interruption"},
                {"felloe sweep designs --best 5", ""},
                {"felloe sweep designs --design 17 -o design.toml", ""}};
  c.exit_codes = "0 a design passes every rig test; 1 none does; 2 something for you to repair.";
  c.more = R"(A sweep file, with every kind of entry:

  title = "sheet and vents"
  case = "case.toml"                        # base case, beside this file
  [plan]
  kind = "latin hypercube"                  # or "full grid", "sobol", "list", "random"
  designs = 200                             # not for a grid or list
  seed = 1                                  # latin hypercube and random
  depth = "section first"                   # or "wheel", "section"
  screen_utilisation = 1.2                  # the wheel follows up to this share of
                                            # the allowed stress in the section
  workers = 0
  shared_disk = false                       # true: several machines work on FOLDER
  [[vary]]
  key = "disc.thickness[*].thickness_mm"    # rows count from 1; [*]: all of them
  apply = "add"                             # or "multiply", "replace" (when left out)
  from = -0.4
  to = 0.4
  [[vary]]
  key = "vent_holes.diameter_mm"
  from = 24
  to = 32                                   # a full grid also needs steps = 5
  [[vary]]
  key = "materials.disc"
  values = ["S355MC", "S420MC"]
  [[vary]]                                  # normally distributed: tolerances
  key = "bolt_clamp.torque_Nm"
  mean = 110
  deviation = 8
  [[require]]                               # other designs are left out
  sum = { "vent_holes.diameter_mm" = 1.0, "disc.thickness[*].thickness_mm" = -2.0 }
  at_most = 31

kind = "list" takes list = [ [ -0.1, 26, "S420MC" ], ... ] in [plan]: one value for each key of
[[vary]].)";
  c.operands = {Completes::case_file};
  return c;
}

CommandRow fit_row() {
  CommandRow c;
  c.name = "fit";
  c.arguments = "LIVES.csv";
  c.summary = "S-N curve from lives on the rig, run-outs included";
  c.usages = {
      "fit LIVES.csv [-o FOLDER] [--weibull] [--staircase] [--json] [--survival PERCENT] "
      "[--confidence PERCENT] [--use-for PLACES]"};
  c.text =
      R"(Fits an S-N line to lives on the rig by maximum likelihood, run-outs counted as lives that
were longer. Prints slope, scatter and lives with bounds, and one-sided tolerance factors. FOLDER gets
results.json, lives.svg and, for loads in MPa, sn_curve.toml: a section for a case file.)";
  c.options = {
      {"output", 'o', "FOLDER", "write the files there", Completes::folder},
      {"staircase", 0, "", "evaluate as a staircase instead: strength at the run-out life"},
      {"weibull", 0, "", "Weibull instead of lognormal scatter"},
      {"survival", 0, "PERCENT", "survival of the design life, 50 to 99.99 (90)"},
      {"confidence", 0, "PERCENT", "confidence of all bounds, 50 to 99.99 (95)"},
      {"use-for", 0, "PLACES",
       "\"sheet face\" (default), \"vent edge\", \"bolt hole edge\" or \"weld toe\"",
       Completes::curve_use},
      json_option("results.json"),
      help_option()};
  c.examples = {
      {"felloe fit lives.csv", ""},
      {"felloe fit lives.csv -o fit --use-for \"vent edge\"", "a curve for punched vents"}};
  c.exit_codes = "0 fitted; 2 something for you to repair.";
  c.more = R"(The table has one test a line; its first line names the columns:

  amplitude_MPa   stress amplitude; or range_MPa, moment_Nm, force_N
  cycles          to failure, or at which the test ended
  run_out         yes: ended unbroken; no (all no when the column is missing)
  part            any text (may be missing)

For example:

  amplitude_MPa,cycles,run_out
  320,84000,no
  300,210000,no
  260,1500000,no
  240,5000000,yes)";
  c.operands = {Completes::lives_file};
  return c;
}

}  // namespace felloe
