// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a run in its report.
#include <algorithm>
#include <filesystem>

#include "cli/field_files.h"
#include "cli/report_input.h"
#include "cli/text_file.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_picture_bytes = 2400000;  // a third more in base64

/// Position in the report: what shows the break comes first.
int rank(const std::string &view) {
  static const char *order[] = {"closeup", "front", "section", "load", "deformed", "back"};
  const auto found = std::find(std::begin(order), std::end(order), view);
  return static_cast<int>(found - std::begin(order));
}

ReportPicture picture(const Results &r, const fs::path &file) {
  const std::string stem = file.stem().string();
  ReportPicture p{"", stem, ""};
  std::vector<std::string> names;
  for (const TestVerdict &t : r.tests) names.push_back(t.name);
  if (names.empty())
    for (const HotSpot &h : r.hot_spots) names.push_back(h.test);
  std::size_t longest = 0;
  for (const std::string &name : names) {
    const std::string begin = file_stem(name) + "_";
    if (stem.compare(0, begin.size(), begin) != 0 || begin.size() <= longest) continue;
    longest = begin.size();
    p.test = name;
    p.view = stem.substr(begin.size());
    if (p.view == "closeup_1") p.view = "closeup";  // of the worst place
  }
  return p;
}

}  // namespace

void add_pictures(ReportInput &in, const std::string &folder) {
  std::error_code code;
  std::vector<fs::path> files;
  for (const auto &entry : fs::directory_iterator(folder, code))
    if (entry.path().extension() == ".png") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<std::pair<ReportPicture, fs::path>> all;
  for (const fs::path &file : files) all.emplace_back(picture(in.results, file), file);
  const auto test_rank = [&](const std::string &test) {
    for (const HotSpot &h : in.results.hot_spots)
      if (h.test == test) return h.id;
    return 1000000;
  };
  std::stable_sort(all.begin(), all.end(), [&](const auto &a, const auto &b) {
    return std::make_pair(rank(a.first.view), test_rank(a.first.test)) <
           std::make_pair(rank(b.first.view), test_rank(b.first.test));
  });
  std::size_t bytes = 0;
  for (auto &[shown, file] : all) {
    shown.bytes = read_text_file(file.string());
    if (bytes + shown.bytes.size() > most_picture_bytes) {
      in.pictures_note +=
          (in.pictures_note.empty() ? "Left out to keep the report small: " : ", ") +
          ("pictures/" + file.filename().string());
      continue;
    }
    bytes += shown.bytes.size();
    in.pictures.push_back(std::move(shown));
  }
}

}  // namespace felloe
