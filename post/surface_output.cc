// SPDX-License-Identifier: GPL-3.0-or-later
// Surfaces, rated points and their blocks for viewers that read VTK files.
#include "post/surface_output.h"

#include <fmt/format.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include <cmath>

#include "post/detail/vtk_arrays.h"
#include "post/html/text.h"
#include "post/whole_file.h"

namespace felloe {

struct SurfaceFiles::Shared {
  Shared(const Mesh &mesh, const SurfaceQuads &surface) : n_nodes(surface.nodes.size()) {
    vtkNew<vtkPoints> points;  // single precision, VTK's default
    points->SetNumberOfPoints(static_cast<vtkIdType>(n_nodes));
    for (std::size_t i = 0; i < n_nodes; ++i)
      points->SetPoint(static_cast<vtkIdType>(i), mesh.nodes[surface.nodes[i]].data());
    vtkNew<vtkCellArray> cells;
    vtkNew<vtkIntArray> parts;
    parts->SetName(field_names::part);
    for (std::size_t q = 0; q < surface.quads.size(); ++q) {
      cells->InsertNextCell(4);
      for (const int place : surface.quads[q]) cells->InsertCellPoint(place);
      parts->InsertNextValue(static_cast<int>(surface.parts[q]));
    }
    data->SetPoints(points);
    data->SetPolys(cells);
    data->GetCellData()->AddArray(parts);
  }

  std::size_t n_nodes;
  vtkNew<vtkPolyData> data;
};

SurfaceFiles::SurfaceFiles(const Mesh &mesh, const SurfaceQuads &surface)
    : shared_(std::make_unique<Shared>(mesh, surface)) {}
SurfaceFiles::~SurfaceFiles() = default;

void SurfaceFiles::write(const std::string &path, const std::vector<PointField> &fields,
                         const std::vector<std::pair<std::string, std::string>> &about) const {
  vtkNew<vtkPolyData> out;
  out->ShallowCopy(shared_->data.Get());
  vtkNew<vtkFieldData> texts;
  texts->AddArray(detail::part_names());
  for (const auto &[name, text] : about) texts->AddArray(detail::texts_of(name, {text}));
  out->SetFieldData(texts);
  detail::add_fields(out->GetPointData(), fields, shared_->n_nodes);
  vtkNew<vtkXMLPolyDataWriter> writer;
  writer->SetInputData(out);
  detail::write_compressed(*writer, path, detail::Compressor::lz4);
}

void write_hot_spots(const std::string &path, const std::vector<HotSpot> &spots) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> vertices;
  for (const HotSpot &spot : spots) {
    vertices->InsertNextCell(1);
    vertices->InsertCellPoint(points->InsertNextPoint(spot.position.data()));
  }
  vtkNew<vtkPolyData> out;
  out->SetPoints(points);
  out->SetVerts(vertices);
  const auto number = [&](const char *name, double (*figure)(const HotSpot &)) {
    PointField field{name, 1, {}};
    for (const HotSpot &spot : spots) field.values.push_back(figure(spot));
    out->GetPointData()->AddArray(detail::array_of(field, spots.size()));
  };
  const auto text = [&](const char *name, std::string (*words)(const HotSpot &)) {
    std::vector<std::string> all;
    for (const HotSpot &spot : spots) all.push_back(words(spot));
    out->GetPointData()->AddArray(detail::texts_of(name, all));
  };
  text("label", [](const HotSpot &s) {
    const std::string used =
        utilisation(s) > 0 ? fmt::format("{:.0f} % of allowed, ", 100 * utilisation(s)) : "";
    return fmt::format("{} {}: {:.0f} MPa, {}{}", s.id, s.feature, s.amplitude, used,
                       s.verdict == Verdict::pass   ? "PASS"
                       : s.verdict == Verdict::fail ? "FAIL"
                                                    : "not rated");
  });
  text("place", [](const HotSpot &s) { return s.feature; });
  text("side", [](const HotSpot &s) { return s.side; });
  text("rig test", [](const HotSpot &s) { return s.test; });
  text("verdict", [](const HotSpot &s) { return to_string(s.verdict); });
  text("criterion", [](const HotSpot &s) { return s.criterion; });
  text("curve", [](const HotSpot &s) { return s.curve; });
  number("number", [](const HotSpot &s) { return double(s.id); });
  number(field_names::utilisation,
         [](const HotSpot &s) { return utilisation(s) > 0 ? 100 * utilisation(s) : std::nan(""); });
  number(field_names::stress_amplitude, [](const HotSpot &s) { return s.amplitude; });
  number(field_names::mean_stress, [](const HotSpot &s) { return s.mean; });
  number(field_names::stress_error,
         [](const HotSpot &s) { return s.error_percent < 0 ? std::nan("") : s.error_percent; });
  number(field_names::life, [](const HotSpot &s) { return s.life_design; });
  number("required cycles", [](const HotSpot &s) { return s.required_cycles; });
  const bool rated = !spots.empty() && utilisation(spots.front()) > 0;
  out->GetPointData()->SetActiveScalars(rated ? field_names::utilisation
                                              : field_names::stress_amplitude);
  vtkNew<vtkXMLPolyDataWriter> writer;
  writer->SetInputData(out);
  detail::write_compressed(*writer, path, detail::Compressor::lz4);
}

void write_blocks(const std::string &path, const std::vector<CollectionFile> &files) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"vtkMultiBlockDataSet\" version=\"1.0\" "
      "byte_order=\"LittleEndian\">\n  <vtkMultiBlockDataSet>\n";
  for (std::size_t i = 0; i < files.size(); ++i)
    text += fmt::format("    <DataSet index=\"{}\" name=\"{}\" file=\"{}\"/>\n", i,
                        html_text(files[i].name), html_text(files[i].file));
  write_whole_file(path, text + "  </vtkMultiBlockDataSet>\n</VTKFile>\n");
}

}  // namespace felloe
