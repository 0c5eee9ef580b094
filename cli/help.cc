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

Prints the options of a command with examples: check, run or list.
)";

}  // namespace

std::string help_text(const std::string &topic) {
  if (topic.empty()) return overview;
  if (topic == "check") return check_help;
  if (topic == "run") return run_help;
  if (topic == "list") return list_help;
  if (topic == "help") return help_help;
  const std::vector<std::string> known = {"check", "run", "list", "help"};
  throw Error("help: " + topic + ": unknown command" + did_you_mean(topic, known) +
              " (known: " + listed(known) + ")");
}

}  // namespace felloe
