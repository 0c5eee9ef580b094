// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/check.h"

#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <system_error>
#include <vector>

#include "cli/case_file.h"
#include "cli/findings.h"
#include "cli/section_summary.h"
#include "cli/terminal.h"
#include "mesher/error.h"
#include "post/section_drawing.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

std::string drawing_path(const CheckOptions &options) {
  if (!options.drawing.empty()) return options.drawing;
  const fs::path own = fs::path(options.case_path);
  // "case.toml" says nothing: its folder's name does
  const std::string stem = own.stem() == "case" && own.has_parent_path()
                               ? own.parent_path().filename().string()
                               : own.stem().string();
  return (fs::path(options.folder) / (stem + "-section.svg")).string();
}

/// Makes the folder of the drawing, but not its parents, so that a failure can undo it; true when
/// it was not there before.
bool made_folder(const std::string &folder) {
  if (folder.empty()) return false;
  std::error_code code;
  if (fs::is_directory(folder, code)) return false;
  if (fs::exists(folder, code))
    throw Error(folder + ": is a file; the drawing needs a folder; choose another name");
  fs::create_directory(folder, code);
  if (code)
    throw Error(folder + ": the folder can't be made: " + code.message() +
                "; choose a place where you may write");
  return true;
}

std::string section_text(const CheckedCase &c, const std::string &drawing) {
  std::vector<SectionFigure> figures = section_figures(c.given, c.shape);
  figures.push_back({"drawing", drawing});
  return section_summary(figures, text_width(stdout));
}

std::string section_json(const CheckedCase &c, const std::string &drawing) {
  const PartMasses m = exact_masses(c.given, c.shape);
  nlohmann::ordered_json all = {
      {"case", c.given.file},
      {"title", c.given.title},
      {"mass_kg", {{"total", m.total()}, {"disc", m.disc}, {"rim", m.rim}, {"weld", m.weld}}}};
  for (const SectionFigure &f : section_figures(c.given, c.shape))
    if (f.name != "case" && f.name != "mass") all["section"][f.name] = f.text;
  all["drawing"] = drawing;
  // names of files need not be UTF-8
  return all.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace

CheckedCase checked_case(const std::string &path) {
  CheckedCase c;
  c.given = read_case(path);
  try {
    c.shape = layout(c.given.wheel);
  } catch (const Error &e) {
    std::vector<std::string> problems;
    std::istringstream lines(e.what());
    for (std::string line; std::getline(lines, line);) problems.push_back(path + ": " + line);
    throw Error(problems_text(path, problems));
  }
  return c;
}

int check_case(const CheckOptions &options) {
  const CheckedCase c = checked_case(options.case_path);
  const std::string drawing = section_drawing(c.shape);
  const std::string path = drawing_path(options);
  const bool made = made_folder(options.folder);
  try {
    write_whole_file(path, drawing);
  } catch (const Error &) {
    std::error_code ignored;
    if (made) fs::remove(options.folder, ignored);
    throw;
  }
  const std::string text = options.json ? section_json(c, path) : section_text(c, path);
  std::fputs(text.c_str(), stdout);
  if (std::fflush(stdout) != 0)
    throw Error("standard output: can't be written; the drawing was written to " + path);
  return 0;
}

}  // namespace felloe
