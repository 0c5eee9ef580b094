// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/surface_files.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <memory>

#include "cli/field_files.h"
#include "post/rated_nodes.h"
#include "post/skin.h"
#include "post/surface_output.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

PointField at(const PointField &field, const std::vector<int> &nodes) {
  PointField some{field.name, field.components, {}};
  some.values.reserve(nodes.size() * field.components);
  for (const int n : nodes)
    for (int c = 0; c < field.components; ++c)
      some.values.push_back(field.values[static_cast<std::size_t>(n) * field.components + c]);
  return some;
}

std::vector<HotSpot> of_test(const std::vector<HotSpot> &spots, const std::string &test) {
  std::vector<HotSpot> some;
  for (const HotSpot &spot : spots)
    if (spot.test == test) some.push_back(spot);
  return some;
}

/// The outer surface of one part.
struct PartSurface {
  PartSurface(const Mesh &mesh, const std::vector<CellFace> &faces)
      : quads(surface_quads(mesh, faces, true)), files(mesh, quads) {}
  SurfaceQuads quads;
  SurfaceFiles files;
};

std::map<std::string, std::shared_ptr<const PartSurface>> surfaces_by_part(const Mesh &mesh) {
  const std::map<Part, std::string> names{
      {Part::disc, "disc"}, {Part::rim, "rim"}, {Part::weld, "weld"}};
  std::map<std::string, std::vector<CellFace>> faces;
  for (const CellFace &face : boundary_faces(mesh))
    faces[names.at(mesh.parts[face.cell])].push_back(face);
  std::map<std::string, std::shared_ptr<const PartSurface>> surfaces;
  for (const auto &[name, some] : faces)
    surfaces[name] = std::make_shared<const PartSurface>(mesh, some);
  return surfaces;
}

std::vector<PointField> fields_of(const TurnStep &step) {
  std::vector<PointField> fields;
  if (!step.displacement.empty())
    fields.push_back(
        {field_names::displacement, 3, {step.displacement.begin(), step.displacement.end()}});
  fields.push_back({field_names::stress, 6, {step.stress.begin(), step.stress.end()}});
  PointField equivalent{field_names::von_mises, 1, {}};
  for (std::size_t i = 0; i < step.stress.size(); i += 6) {
    Stress s;
    for (int c = 0; c < 6; ++c) s[c] = step.stress[i + c];
    equivalent.values.push_back(von_mises(s));
  }
  fields.push_back(std::move(equivalent));
  return fields;
}

void add_turn(Jobs &jobs, const std::shared_ptr<const SurfaceFiles> &surface,
              const TestFields &shown, const std::string &folder) {
  const std::string stem = file_stem(shown.test);
  make_folder(folder + "/turn");
  std::vector<CollectionFile> files;
  for (const TurnStep &step : shown.turn.steps) {
    const std::string file = fmt::format("turn/{}_{:05.1f}.vtp", stem, step.angle_deg);
    files.push_back({step.angle_deg, file, shown.test});
    jobs.push_back([&, surface, path = folder + "/" + file] {
      surface->write(path, fields_of(step),
                     {{"rig test", shown.test},
                      {"angle of the load", fmt::format("{:g} deg", step.angle_deg)}});
    });
  }
  jobs.push_back([=] { write_pvd(folder + "/turn_" + stem + ".pvd", files); });
}

}  // namespace

std::vector<PointField> rating_fields(const Analysis &a, const TestFields &shown) {
  const NodeRatings &nodes = shown.nodes;
  if (nodes.mean.empty()) return {{field_names::von_mises, 1, nodes.amplitude}};
  std::vector<PointField> fields{{field_names::stress_amplitude, 1, nodes.amplitude},
                                 {field_names::mean_stress, 1, nodes.mean},
                                 {field_names::life, 1, nodes.life}};
  const auto places = a.places.find(shown.held);
  if (places == a.places.end()) return fields;
  fields.push_back(
      {field_names::stress_error, 1,
       error_percent_of_nodes(a.mesh, places->second, a.results.hot_spots, shown.test)});
  const std::vector<bool> judged = judged_nodes(a.mesh, places->second);
  // a life where stress may not be judged would be read as one
  const auto hide_unjudged = [&](std::vector<double> &values) {
    for (std::size_t n = 0; n < values.size(); ++n)
      if (!judged[n]) values[n] = std::nan("");
  };
  hide_unjudged(fields[2].values);
  if (!shown.utilisation.empty()) {
    PointField used{field_names::utilisation, 1, shown.utilisation};
    hide_unjudged(used.values);
    fields.insert(fields.begin(), std::move(used));
  }
  fields.push_back({field_names::rated, 1, {judged.begin(), judged.end()}});
  return fields;
}

Jobs surface_jobs(const Analysis &a, const std::string &folder) {
  Jobs jobs;
  make_folder(folder + "/surface");
  const auto surfaces = surfaces_by_part(a.mesh);
  const auto whole = std::make_shared<const SurfaceFiles>(a.mesh, a.surface);
  for (const TestFields &shown : a.fields) {
    const std::string stem = file_stem(shown.test);
    const auto fields = std::make_shared<const std::vector<PointField>>(rating_fields(a, shown));
    std::vector<CollectionFile> blocks;
    for (const auto &[part, surface] : surfaces) {
      const std::string file = "surface/" + stem + "_" + part + ".vtp";
      jobs.push_back([&shown, fields, surface = surface, path = folder + "/" + file] {
        std::vector<PointField> on_part;
        for (const PointField &field : *fields) on_part.push_back(at(field, surface->quads.nodes));
        surface->files.write(path, on_part, {{"rig test", shown.test}});
      });
      blocks.push_back({0, file, part});
    }
    const std::string spots = "surface/" + stem + "_hot_spots.vtp";
    blocks.push_back({0, spots, "hot spots"});
    jobs.push_back([&, folder, spots, stem, blocks] {
      write_hot_spots(folder + "/" + spots, of_test(a.results.hot_spots, shown.test));
      write_blocks(folder + "/surface_" + stem + ".vtm", blocks);
    });
    if (!shown.turn.steps.empty()) add_turn(jobs, whole, shown, folder);
  }
  jobs.push_back([&, folder] { write_hot_spots(folder + "/hot_spots.vtp", a.results.hot_spots); });
  return jobs;
}

}  // namespace felloe
