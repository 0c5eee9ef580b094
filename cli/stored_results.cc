// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/stored_results.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "mesher/error.h"

namespace felloe {
namespace {

using Json = nlohmann::json;

/// Of a stress; more than this is no error bar but damage.
constexpr double largest_error_percent = 1e4;

MeshConvergence convergence_of(const Json &json) {
  MeshConvergence c;
  if (json.is_null()) return c;
  json.at("coarse_cells").get_to(c.coarse_cells);
  json.at("fine_cells").get_to(c.fine_cells);
  json.at("coarse_dofs").get_to(c.coarse_dofs);
  json.at("fine_dofs").get_to(c.fine_dofs);
  json.at("size_ratio").get_to(c.size_ratio);
  for (const Json &s : json.at("spots")) {
    const auto figure = [&](const char *name) {
      return s.at(name).is_null() ? -1 : s.at(name).get<double>();
    };
    c.spots.push_back({s.at("test"), s.at("feature"), figure("coarse_MPa"), figure("fine_MPa"),
                       figure("order"), figure("error_percent")});
  }
  return c;
}

StoredResults read(const Json &json) {
  StoredResults r;
  r.convergence = convergence_of(json.at("mesh_convergence"));
  for (const Json &spot : json.at("hot_spots")) {
    const Json &error = spot.at("error_percent");
    if (error.is_null()) continue;
    const double percent = error;
    if (percent < 0 || percent > largest_error_percent)
      throw Error("error_percent = " + error.dump() + " is no error of a stress");
    r.errors[{spot.at("test"), spot.at("feature")}] = percent;
  }
  json.at("cautions").get_to(r.cautions);
  json.at("assumptions").get_to(r.assumptions);
  return r;
}

bool begins_with(const std::string &text, const std::string &words) {
  return text.compare(0, words.size(), words) == 0;
}

void add_missing(std::vector<std::string> &all, const std::string &text) {
  if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
}

}  // namespace

StoredResults read_stored_results(const std::string &json, const std::string &file) {
  const auto damaged = [&](const std::exception &e) {
    return Error(file + ": damaged; run the case again (" + e.what() + ")");
  };
  try {
    return read(Json::parse(json));
  } catch (const Json::exception &e) {
    throw damaged(e);
  } catch (const Error &e) {
    throw damaged(e);
  }
}

void add_stored(const StoredResults &stored, bool press_fit, Results &r) {
  r.convergence = stored.convergence;
  for (HotSpot &spot : r.hot_spots) {
    const auto found = stored.errors.find({spot.test, spot.feature});
    if (found != stored.errors.end()) spot.error_percent = found->second;
  }
  for (const std::string &caution : stored.cautions)
    if (press_fit || !begins_with(caution, "The press fit ")) add_missing(r.cautions, caution);
  for (const std::string &assumption : stored.assumptions)
    if (begins_with(assumption, "error bars: ")) add_missing(r.assumptions, assumption);
}

}  // namespace felloe
