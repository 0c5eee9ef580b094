// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/run.h"

#include <cmath>
#include <cstdio>
#include <filesystem>

#include "cli/accuracy.h"
#include "cli/case_file.h"
#include "cli/gauges.h"
#include "cli/output_folder.h"
#include "cli/progress.h"
#include "cli/service_spectrum.h"
#include "cli/stored_run.h"
#include "cli/terminal.h"
#include "cli/text_file.h"
#include "cli/version.h"
#include "post/field_output.h"
#include "post/pictures.h"
#include "post/results_json.h"
#include "post/section_drawing.h"
#include "post/summary.h"
#include "solver/blas_check.h"

namespace felloe {
namespace {

/// "radial load at 0.000 deg, hub held" -> "radial_load_at_0.000_deg_hub_held"
std::string file_stem(const std::string &name) {
  std::string stem;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '.' || c == '-';
    if (plain)
      stem += c;
    else if (!stem.empty() && stem.back() != '_')
      stem += '_';
  }
  while (!stem.empty() && stem.back() == '_') stem.pop_back();
  return stem.empty() ? "unnamed" : stem;
}

PointField displacement_field(const Solution &s) {
  PointField field{field_names::displacement, 3, {}};
  for (int i = 0; i < 3; ++i)
    for (const Vec3 &u : s.displacement) field.values.push_back(u[i]);
  return field;
}

PointField stress_field(const Solution &s) {
  PointField field{field_names::stress, 6, {}};
  for (int i = 0; i < 6; ++i)
    for (const Stress &stress : s.stress) field.values.push_back(stress[i]);
  return field;
}

/// One file a load case, one a rig test, and the collection over all.
void write_fields(const Analysis &a, const std::string &folder) {
  std::vector<CollectionFile> files;
  const auto write = [&](const std::string &name, const std::vector<PointField> &fields) {
    const std::string file = std::to_string(files.size() + 1) + "_" + file_stem(name) + ".vtu";
    write_vtu(folder + "/" + file, a.mesh, fields);
    files.push_back({static_cast<double>(files.size()), file, name});
  };
  for (const TestFields &t : a.fields) {
    std::vector<PointField> fields{{field_names::stress_amplitude, 1, t.nodes.amplitude}};
    if (!t.nodes.mean.empty()) fields.push_back({field_names::mean_stress, 1, t.nodes.mean});
    if (!t.nodes.life.empty()) fields.push_back({field_names::life, 1, t.nodes.life});
    write(t.test, fields);
  }
  for (const Solution &s : a.shown) write(s.load_case, {displacement_field(s), stress_field(s)});
  write_pvd(folder + "/wheel.pvd", files);
}

/// Pictures of one rig test (or load case of a plain disc).
PictureSet picture_set(const Analysis &a, const TestFields &shown, const std::string &folder) {
  PictureSet set;
  set.values = &shown.nodes.amplitude;
  set.folder = folder + "/" + file_stem(shown.test);
  for (const HotSpot &spot : a.results.hot_spots)
    if (spot.test == shown.test)
      set.markers.push_back(
          {spot.id, spot.position,
           spot.feature + " " + std::to_string(std::lround(spot.amplitude)) + " MPa"});
  set.text.title = a.results.title;
  set.text.load = shown.test;
  for (const TestVerdict &t : a.results.tests)
    if (t.name == shown.test)
      set.text.load += ", " + std::to_string(std::lround(t.load)) + " " + t.load_unit;
  if (a.results.tests.empty()) set.text.quantity = "von Mises stress";
  return set;
}

/// All pictures, the fields meanwhile; returns a remark for the progress line.
std::string write_fields_and_pictures(const Analysis &a, const std::string &folder) {
  const std::string pictures = folder + "/pictures";
  std::vector<PictureSet> sets;
  for (const TestFields &shown : a.fields) sets.push_back(picture_set(a, shown, pictures));
  const auto drawn = render_picture_sets(a.mesh, sets, [&] { write_fields(a, folder); });
  std::string skipped;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    for (const std::string &file : drawn[i].files)
      std::filesystem::rename(
          file, sets[i].folder + "_" + std::filesystem::path(file).filename().string());
    std::filesystem::remove(sets[i].folder);
    if (skipped.empty()) skipped = drawn[i].skipped;
  }
  if (!skipped.empty()) return "no pictures: " + skipped;
  return "pictures of " + std::to_string(a.fields.size()) +
         (a.results.tests.empty() ? " loads" : " rig tests");
}

}  // namespace

int run_case(const Case &input, const RunOptions &options) {
  OutputFolder folder(options.output);
  Progress progress(options.quiet);
  const std::string slow_blas = slow_blas_warning(blas_file());
  if (!slow_blas.empty()) progress.note(slow_blas);
  folder.write("case.toml", resolved_case(input));
  Analysis a = analyse_to_accuracy(input, progress);
  a.results.program_version = version;
  folder.write("section.svg", section_drawing(a.layout));
  progress.step("fields and pictures");
  folder.fill(
      [&](const std::string &path) { progress.remark(write_fields_and_pictures(a, path)); });
  progress.finish();
  const std::string json = results_json(a.results);
  folder.write("results.json", json);
  if (!a.histories.states.empty()) folder.write(histories_file, to_bytes(a.histories));
  for (const SpectrumInput &block : input.spectrum)  // so that the folder can be rated again
    if (!block.time_series.empty() && block.time_series[0] != '/' &&
        block.time_series.find("..") == std::string::npos)
      folder.write(block.time_series, read_text_file(series_path(input, block)));
  if (!a.results.gauges.empty()) folder.write("gauges.csv", gauge_traces(a.results));
  folder.publish();
  progress.note("everything written to " + options.output + " after " +
                std::to_string(progress.total_seconds()).substr(0, 5) + " s");
  if (options.json)
    std::fputs(json.c_str(), stdout);
  else
    std::fputs(summary(a.results, takes_colours(stdout)).c_str(), stdout);
  return overall_verdict(a.results) == Verdict::fail ? 1 : 0;
}

}  // namespace felloe
