// SPDX-License-Identifier: GPL-3.0-or-later
// The commands for one wheel: check, run, rate, thin.
#include "cli/command_rows.h"

namespace felloe {

CommandRow check_row() {
  CommandRow c;
  c.name = "check";
  c.arguments = "CASE.toml";
  c.summary = "read and check a case, draw its section; solves nothing";
  c.usages = {"check CASE.toml [-o FOLDER | --drawing FILE.svg] [--json]"};
  c.text =
      R"(Reads the case, reports every mistake at once as file:line:column, checks that the shape can
exist (holes inside their band, bends that fit, a flange that meets the rim) and prints the section's
main figures. Writes a drawing of the section with all dimensions.)";
  c.options = {{"output", 'o', "FOLDER",
                "write <case>-section.svg there; made when it does not exist", Completes::folder},
               {"drawing", 0, "FILE",
                "write the drawing to this file instead (neither given: <case>-section.svg in the "
                "current folder)",
                Completes::any_file},
               json_option("the figures as JSON"),
               help_option()};
  c.examples = {{"felloe check wheel.toml", ""},
                {"felloe check wheel.toml --drawing section.svg", ""}};
  c.exit_codes = "0 the case can be computed; 2 something for you to repair.";
  c.more = R"(A small complete case, a flat disc that is held outside and tilted by its hub:

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
  hub_moment_Nm = 100)";
  c.operands = {Completes::case_file};
  return c;
}

CommandRow run_row() {
  CommandRow c;
  c.name = "run";
  c.arguments = "CASE.toml -o FOLDER";
  c.summary = "mesh, solve, rate, write everything into FOLDER";
  c.usages = {"run CASE.toml -o FOLDER [--density X] [--json] [--quiet]"};
  c.text =
      R"(Checks, meshes, solves and rates the case, and writes FOLDER: the case with every default
spelled out, results.json, report.html (one file to read, sign and mail), fields for viewers,
pictures. FOLDER appears whole at the end or not at all. Earlier results under that name are
replaced with all that was laid beside them; a folder with other files and no results.json is never
touched.)";
  c.options = {{"output", 'o', "FOLDER", "where the results go (required)", Completes::folder},
               {"density", 0, "X",
                "mesh density in place of [mesh] density, 0.25 to 4; 1 is the standard, 2 halves "
                "every edge"},
               json_option("results.json"),
               quiet_option(),
               help_option()};
  c.examples = {{"felloe run wheel.toml -o out", "the whole analysis"},
                {"felloe run wheel.toml -o fine --density 2", "on a finer mesh"},
                {"felloe run wheel.toml -o out --json --quiet | jq .tests", "for other programs"},
                {"mpirun -n 4 felloe run wheel.toml -o out",
                 "large meshes without symmetry: solved by four processes"}};
  c.exit_codes = "0 every rig test passed; 1 one failed; 2 something for you to repair.";
  c.operands = {Completes::case_file};
  return c;
}

CommandRow rate_row() {
  CommandRow c;
  c.name = "rate";
  c.arguments = "FOLDER [CASE.toml]";
  c.summary = "rate a run again from its stored stresses; no solve";
  c.usages = {"rate FOLDER [CASE.toml] [-o FOLDER] [--thickness] [--json] [--quiet]"};
  c.text =
      R"(Rates the run in FOLDER again from its stored stresses, without a solve: with the run's own
case, or with CASE.toml, which may differ in rated load, tyre, torque or preload, interference,
inflation, rig tests, strengths of the materials, [rating] and [[sn_curve]]. Prints the summary, the
gauges that the run had, and what moves the life most. Everything else needs 'felloe run', and the
message says what it was.)";
  c.options = {
      {"output", 'o', "FOLDER", "write case.toml, results.json, report.html there",
       Completes::folder},
      {"thickness", 0, "",
       "also the sheet at both ends of its tolerance ([thin] tolerance_mm), by the slopes of all "
       "stresses from one solve of a coarse mesh"},
      json_option("results.json"),
      quiet_option(),
      help_option()};
  c.examples = {{"felloe rate out", "what moves the life most?"},
                {"felloe rate out --thickness", "and what does a thinner sheet do?"},
                {"felloe rate out reamed.toml -o out_reamed", "other data, same stresses"}};
  c.exit_codes = "0 every rig test passed; 1 one failed; 2 something for you to repair.";
  c.operands = {Completes::folder, Completes::case_file};
  return c;
}

CommandRow thin_row() {
  CommandRow c;
  c.name = "thin";
  c.arguments = "CASE.toml -o FOLDER";
  c.summary = "find the lightest thickness that passes all rig tests";
  c.usages = {"thin CASE.toml -o FOLDER [--density X] [--json] [--quiet]"};
  c.text =
      R"(Finds the lightest thickness of the disc along its meridian that passes every rig test of the
case, with all disc sheet at its lower tolerance and stresses raised by their error bars. Searches on
a coarse mesh with gradients, then verifies at the case's own density and corrects. Prints what a
tenth of a millimetre buys at each station. Section [thin] of the case says what may change
('felloe list keys'); every key has a default, all of them own values.)";
  c.options = {{"output", 'o', "FOLDER",
                "where the results go (required): case.toml with the thickness found, ready for "
                "'felloe run'; thin.json; results.json of the wheel at the lower tolerance of its "
                "sheet",
                Completes::folder},
               {"density", 0, "X", "mesh density of the search, 0.25 to 4; 0.5 is the standard"},
               json_option("thin.json"),
               quiet_option(),
               help_option()};
  c.examples = {{"felloe thin wheel.toml -o thin", "search"},
                {"felloe run thin/case.toml -o out", "the full analysis of what was found"}};
  c.exit_codes =
      "0 the disc found passes every rig test; 1 none was found that does; 2 something for you to "
      "repair.";
  c.operands = {Completes::case_file};
  return c;
}

}  // namespace felloe
