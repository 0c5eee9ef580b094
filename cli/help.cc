// SPDX-License-Identifier: GPL-3.0-or-later
// Help texts.
#include "cli/nearest.h"
#include "cli/options.h"
#include "mesher/error.h"

namespace felloe {
namespace {

const char *overview = R"(felloe: stress and fatigue life of wheel discs

  felloe check CASE.toml              read and check a case, draw its section; solves nothing
  felloe run   CASE.toml -o FOLDER    mesh, solve, rate, write everything into FOLDER
  felloe sweep SWEEP.toml -o FOLDER   many designs, kept in FOLDER; 'felloe sweep FOLDER' goes on
  felloe rate  FOLDER [CASE.toml]     rate a run again from its stored stresses; no solve
  felloe fit   LIVES.csv              S-N curve from lives on the rig, run-outs included
  felloe thin  CASE.toml -o FOLDER    find the lightest thickness that passes all rig tests
  felloe list  [TABLE]                print the tables: materials, rig tests, keys ...
  felloe help  [COMMAND]              options and examples of a command
  felloe --version

A case file is TOML text: wheel, materials, loads and rig tests, each key with its unit
(thickness_mm). 'felloe list keys' prints all of them, 'felloe help check' shows a whole file.

Exit codes: 0 done and every rig test passed, 1 done and a test failed, 2 something for you to
repair, 3 a bug in felloe. Colours appear only on a terminal and never when NO_COLOR is set.
)";

const char *check_help = R"(felloe check CASE.toml [-o FOLDER | --drawing FILE.svg]

Reads the case, reports every mistake at once as file:line:column, checks that the shape can exist
(holes inside their band, bends that fit, a flange that meets the rim) and prints the section's
main figures. Writes a drawing of the section with all dimensions.

  -o, --output FOLDER    write <case>-section.svg there; made when it does not exist
      --drawing FILE     write the drawing to this file instead
                         (neither given: <case>-section.svg in the current folder)

Examples
  felloe check wheel.toml
  felloe check wheel.toml --drawing section.svg

A small complete case, a flat disc that is held outside and tilted by its hub:

  title = "flat disc"
  [wheel]
  construction = "disc only"
  [disc]
  bore_diameter_mm = 60
  hub_face_diameter_mm = 100
  thickness_mm = 4
  meridian = [ { r_mm = 180, z_mm = 0 } ]
  [materials.disc]
  youngs_modulus_MPa = 210000
  poissons_ratio = 0.3
  density_kg_m3 = 7850
  yield_strength_MPa = 400
  tensile_strength_MPa = 500
  [support]
  outer_edge = "held"
  [plate_load]
  hub_moment_Nm = 100
)";

const char *run_help = R"(felloe run CASE.toml -o FOLDER [--density X] [--json] [--quiet]

Checks, meshes, solves and rates the case, and writes FOLDER: the case with every default spelled
out, results.json, fields for viewers, pictures. FOLDER appears whole at the end or not at all.
Earlier results under that name are replaced; a folder with other files in it is never touched.

  -o, --output FOLDER    where the results go (required)
      --density X        mesh density in place of [mesh] density, 0.25 to 4; 1 is the standard,
                         2 halves every edge
      --json             print results.json on standard output; progress goes to standard error
      --quiet            no progress

Examples
  felloe run wheel.toml -o out
  felloe run wheel.toml -o fine --density 2
  felloe run wheel.toml -o out --json --quiet > results.json

Exit code 0: every rig test passed; 1: one failed.
)";

const char *sweep_help =
    R"(felloe sweep SWEEP.toml -o FOLDER [--plan] [--workers N] [--json] [--quiet]
felloe sweep FOLDER [--retry] [--workers N] [--json] [--quiet]
felloe sweep FOLDER --table | --scatter | --best N | --design N [-o CASE.toml]

Computes many designs of one base case. Every finished design is kept in FOLDER/designs.sqlite at
once: after Ctrl-C, a crash or a power cut 'felloe sweep FOLDER' goes on where it stopped. The same
command in a second terminal works on the same designs. At the end FOLDER also holds table.csv,
compromises.svg (mass against life and stiffness) and parallel.svg. A changed SWEEP.toml may be
planned into the same FOLDER: designs that are there already are not computed again.

  -o, --output FOLDER    where the designs are kept; with --design: file for the case
      --workers N        processes at a time, each on one processor; 0: one a processor
      --retry            compute failed designs again
      --plan             plan the designs, compute nothing yet
      --table            print all designs as CSV; --best N: the N lightest that pass;
      --design N         print the whole case of design N, ready for 'felloe run'
      --scatter          how likely each rig test is passed, and which key matters most
      --json             what was found as JSON on standard output
      --quiet            no progress

A sweep file, with every kind of entry:

  title = "sheet and vents"
  case = "case.toml"                        # base case, beside this file
  [plan]
  kind = "latin hypercube"                  # or "full grid", "sobol", "list", "random"
  designs = 200                             # not for a grid or list
  seed = 1                                  # latin hypercube and random
  depth = "section first"                   # or "wheel", "section"
  screen_utilisation = 1.2                  # the wheel follows up to this share of the allowed
                                            # stress in the section
  workers = 0
  shared_disk = false                       # true: several machines work on FOLDER
  [[vary]]
  key = "disc.thickness[*].thickness_mm"    # rows of a list count from 1; [*]: all of them
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
[[vary]]. Exit code 0: a design passes every rig test; 1: none does.
)";

const char *rate_help = R"(felloe rate FOLDER [CASE.toml] [-o FOLDER] [--json] [--quiet]

Rates the run in FOLDER again from its stored stresses, without a solve: with the run's own case, or
with CASE.toml, which may differ in rated load, tyre, torque or preload, interference, inflation,
rig tests, strengths of the materials, [rating] and [[sn_curve]]. Prints the summary and what moves
the life most. Everything else needs 'felloe run', and the message says what it was.

  -o, --output FOLDER    write case.toml and results.json there
      --json             print results.json on standard output; progress goes to standard error
      --quiet            no progress

Examples
  felloe rate out
  felloe rate out reamed.toml -o out_reamed

Exit code 0: every rig test passed; 1: one failed.
)";

const char *fit_help = R"(felloe fit LIVES.csv [-o FOLDER] [--weibull] [--staircase] [--json]
           [--survival PERCENT] [--confidence PERCENT] [--use-for PLACES]

Fits an S-N line to lives on the rig by maximum likelihood, run-outs counted as lives that were
longer. Prints slope, scatter and lives with bounds, and one-sided tolerance factors. FOLDER gets
results.json, lives.svg and, for loads in MPa, sn_curve.toml: a section for a case file.

The table has one test a line; its first line names the columns:

  amplitude_MPa   stress amplitude; or range_MPa, moment_Nm, force_N
  cycles          to failure, or at which the test ended
  run_out         yes: ended unbroken; no (all no when the column is missing)
  part            any text (may be missing)

      --staircase        evaluate as a staircase instead: strength at the run-out life
      --weibull          Weibull instead of lognormal scatter
      --survival P       survival of the design life, 50 to 99.99 (90)
      --confidence C     confidence of all bounds, 50 to 99.99 (95)
      --use-for PLACES   "sheet face" (default), "vent edge", "bolt hole edge" or "weld toe"
      --json             print results.json on standard output

Example
  amplitude_MPa,cycles,run_out
  320,84000,no
  260,1500000,no
  240,5000000,yes
)";

const char *thin_help = R"(felloe thin CASE.toml -o FOLDER [--density X] [--json] [--quiet]

Finds the lightest thickness of the disc along its meridian that passes every rig test of the case,
with all disc sheet at its lower tolerance and stresses raised by their error bars. Searches on a
coarse mesh with gradients, then verifies at the case's own density and corrects. Prints what a tenth
of a millimetre buys at each station. Section [thin] of the case says what may change ('felloe list
keys'); every key has a default, all of them own values.

  -o, --output FOLDER    where the results go (required): case.toml with the thickness found, ready
                         for 'felloe run'; thin.json; results.json of the wheel at the lower
                         tolerance of its sheet
      --density X        mesh density of the search, 0.5 to 4; 0.5 is the standard
      --json             print thin.json on standard output; progress goes to standard error
      --quiet            no progress

Examples
  felloe thin wheel.toml -o thin
  felloe run thin/case.toml -o out

Exit code 0: the disc found passes every rig test; 1: none was found that does.
)";

const char *list_help = R"(felloe list [TABLE]

Prints a table, each row with its source and how sure that source is. Without TABLE all but the
last two.

  materials       grades for [materials]
  contours        rim contours for [rim] contour
  loads           kinds of loads
  tests           rig tests for [[rig_test]] row
  criteria        fatigue criteria for [rating] criterion, with their errors on published tests
  mean-stress     rules for [rating] mean_stress
  edges           edges for [rating] vent_edges, bolt_edges; finishes for [rating] surface
  weld-classes    S-N classes for [rating] weld_class
  keys            every key of a case file: type, unit, range, default
  schema          the same as JSON Schema, for editors

Examples
  felloe list materials
  felloe list schema > felloe.schema.json
)";

const char *help_help = R"(felloe help [COMMAND]

Prints the options of a command with examples: check, run, sweep, thin, rate, fit or list.
)";

}  // namespace

std::string help_text(const std::string &topic) {
  if (topic.empty()) return overview;
  if (topic == "check") return check_help;
  if (topic == "run") return run_help;
  if (topic == "sweep") return sweep_help;
  if (topic == "thin") return thin_help;
  if (topic == "rate") return rate_help;
  if (topic == "fit") return fit_help;
  if (topic == "list") return list_help;
  if (topic == "help") return help_help;
  const std::vector<std::string> known = {"check", "run", "sweep", "thin",
                                          "rate",  "fit", "list",  "help"};
  throw Error("help: " + topic + ": unknown command" + did_you_mean(topic, known) +
              " (known: " + listed(known) + ")");
}

}  // namespace felloe
