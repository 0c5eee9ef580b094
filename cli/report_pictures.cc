// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a run in its report.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "cli/field_files.h"
#include "cli/report_input.h"
#include "cli/text_file.h"
#include "post/webp.h"
#include "post/worst_first.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_picture_bytes = 3200000;  // of PNG files; a third of that in the page

/// The view that shows the worst place of a test within the whole wheel. The tyre's side of a rim
/// is seen too flat from either end.
std::string whole_view(const Results &r, const std::string &test) {
  const HotSpot *worst = worst_of(r.hot_spots, test);
  if (!worst || worst->side == "tyre side") return "section";
  for (const PictureFile &f : r.pictures)
    if (f.test == test && f.shows_worst) return f.view;
  // not known of pictures of an earlier run, or on a side that neither overview shows
  if (r.pictures.empty() && worst->side == "outboard") return "front";
  if (r.pictures.empty() && worst->side == "inboard") return "back";
  return "section";
}

/// Position in the report: where in the wheel it breaks comes first, then its surroundings.
int rank(const Results &r, const ReportPicture &p) {
  static const char *order[] = {"closeup", "section", "front", "back", "load", "deformed"};
  if (p.view == whole_view(r, p.test)) return 0;
  const auto found = std::find(std::begin(order), std::end(order), p.view);
  return 1 + static_cast<int>(found - std::begin(order));
}

ReportPicture picture(const Results &r, const fs::path &file) {
  const std::string stem = file.stem().string();
  ReportPicture p;
  p.view = stem;
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

/// Without bytes where the file is damaged: the report says enough without it.
void read(ReportPicture &shown, const fs::path &file) {
  try {
    WebpPicture webp = webp_of_png(read_text_file(file.string()));
    shown.bytes = std::move(webp.bytes);
    shown.width = webp.width;
    shown.height = webp.height;
  } catch (const std::runtime_error &) {
    shown.bytes.clear();
  }
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
    return std::make_pair(rank(in.results, a.first), test_rank(a.first.test)) <
           std::make_pair(rank(in.results, b.first), test_rank(b.first.test));
  });
  std::size_t bytes = 0;
  std::vector<std::string> left_out;
  std::vector<fs::path> taken;
  for (auto &[shown, file] : all) {
    const std::size_t size = fs::file_size(file);
    if (bytes + size > most_picture_bytes) {
      left_out.push_back("pictures/" + file.filename().string());
      continue;
    }
    bytes += size;
    in.pictures.push_back(std::move(shown));
    taken.push_back(file);
  }
  parallel_for(0, int(taken.size()), [&](int i) { read(in.pictures[i], taken[i]); });
  in.pictures.erase(std::remove_if(in.pictures.begin(), in.pictures.end(),
                                   [](const ReportPicture &p) { return p.bytes.empty(); }),
                    in.pictures.end());
  if (!left_out.empty())
    in.pictures_note +=
        fmt::format("Left out to keep the report small: {}", fmt::join(left_out, ", "));
}

}  // namespace felloe
