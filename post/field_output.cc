// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes and fields for viewers that read VTK files.
#include "post/field_output.h"

#include <fmt/format.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "post/detail/vtk_arrays.h"
#include "post/detail/vtk_hexahedron.h"
#include "post/html/text.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

vtkNew<vtkIntArray> parts_of(const Mesh &mesh) {
  vtkNew<vtkIntArray> parts;
  parts->SetName(field_names::part);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    parts->InsertNextValue(c < mesh.parts.size() ? static_cast<int>(mesh.parts[c]) : 0);
  return parts;
}

vtkNew<vtkUnstructuredGrid> grid_of(const Mesh &mesh) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  points->SetNumberOfPoints(static_cast<vtkIdType>(mesh.nodes.size()));
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i)
    points->SetPoint(static_cast<vtkIdType>(i), mesh.nodes[i].data());
  vtkNew<vtkCellArray> cells;
  cells->AllocateExact(static_cast<vtkIdType>(mesh.cells.size()),
                       static_cast<vtkIdType>(27 * mesh.cells.size()));
  for (const auto &cell : mesh.cells) {
    std::array<vtkIdType, 27> nodes;
    for (int v = 0; v < 27; ++v) nodes[v] = cell[detail::vtk_hexahedron_nodes[v]];
    cells->InsertNextCell(27, nodes.data());
  }
  vtkNew<vtkUnstructuredGrid> grid;
  grid->SetPoints(points);
  grid->SetCells(VTK_TRIQUADRATIC_HEXAHEDRON, cells);
  grid->GetCellData()->AddArray(parts_of(mesh));
  return grid;
}

vtkNew<vtkXMLUnstructuredGridWriter> writer_of(vtkUnstructuredGrid *grid) {
  vtkNew<vtkXMLUnstructuredGridWriter> writer;
  writer->SetInputData(grid);
  writer->SetIdTypeToInt32();  // half the bytes
  return writer;
}

/// Cells of a mesh and their nodes, renumbered.
struct Piece {
  Mesh mesh;
  std::vector<int> nodes;  ///< numbers in the whole mesh, ascending

  Piece(const Mesh &whole, const std::vector<int> &cells) {
    std::vector<int> number(whole.nodes.size(), -1);
    for (const int c : cells)
      for (const int n : whole.cells[c]) number[n] = 0;
    for (std::size_t n = 0; n < number.size(); ++n) {
      if (number[n] < 0) continue;
      number[n] = static_cast<int>(nodes.size());
      nodes.push_back(static_cast<int>(n));
      mesh.nodes.push_back(whole.nodes[n]);
    }
    for (const int c : cells) {
      mesh.cells.push_back(whole.cells[c]);
      for (int &n : mesh.cells.back()) n = number[n];
      if (!whole.parts.empty()) mesh.parts.push_back(whole.parts[c]);
    }
  }
};

/// The field at some of its places.
PointField at(const PointField &field, const std::vector<int> &places, std::size_t n_places) {
  if (field.values.size() != n_places * field.components)
    throw std::logic_error("field '" + field.name + "' does not fit the mesh");
  PointField some{field.name, field.components, {}};
  for (const int p : places)
    for (int c = 0; c < field.components; ++c)
      some.values.push_back(field.values[static_cast<std::size_t>(p) * field.components + c]);
  return some;
}

/// Scalars="..." Vectors="..." Tensors="...", as in the pieces (add_fields()).
std::string active_fields(const std::vector<PointField> &fields) {
  std::string text;
  for (const auto &[components, attribute] :
       {std::pair{1, "Scalars"}, std::pair{3, "Vectors"}, std::pair{6, "Tensors"}}) {
    const auto first = std::find_if(fields.begin(), fields.end(),
                                    [n = components](const auto &f) { return f.components == n; });
    if (first != fields.end()) text += fmt::format(" {}=\"{}\"", attribute, html_text(first->name));
  }
  return text;
}

/// <PDataArray>: what a file of pieces says of an array that stands in the pieces.
std::string array_line(const std::string &type, const std::string &name, int components) {
  return fmt::format("      <PDataArray type=\"{}\" Name=\"{}\" NumberOfComponents=\"{}\"/>\n",
                     type, html_text(name), components);
}

}  // namespace

void write_vtu(const std::string &path, const Mesh &mesh, const std::vector<PointField> &fields,
               const std::vector<CellField> &cell_fields, const std::vector<int> &cells) {
  if (!cells.empty()) {
    const Piece piece(mesh, cells);
    std::vector<PointField> on_nodes;
    for (const PointField &f : fields) on_nodes.push_back(at(f, piece.nodes, mesh.nodes.size()));
    std::vector<CellField> in_cells;
    for (const CellField &f : cell_fields) in_cells.push_back(at(f, cells, mesh.cells.size()));
    return write_vtu(path, piece.mesh, on_nodes, in_cells);
  }
  VolumeFiles(mesh).write(path, fields, cell_fields);
}

struct VolumeFiles::Shared {
  explicit Shared(const Mesh &mesh)
      : n_nodes(mesh.nodes.size()), n_cells(mesh.cells.size()), grid(grid_of(mesh)) {
    blocks = detail::zlib_blocks(*writer_of(grid));
  }

  std::size_t n_nodes, n_cells;
  vtkNew<vtkUnstructuredGrid> grid;
  detail::ZlibBlocks blocks;
};

VolumeFiles::VolumeFiles(const Mesh &mesh) : shared_(std::make_unique<Shared>(mesh)) {}
VolumeFiles::~VolumeFiles() = default;

void VolumeFiles::write(const std::string &path, const std::vector<PointField> &fields,
                        const std::vector<CellField> &cell_fields) const {
  vtkNew<vtkUnstructuredGrid> grid;
  grid->ShallowCopy(shared_->grid.Get());
  detail::add_fields(grid->GetPointData(), fields, shared_->n_nodes);
  for (const CellField &field : cell_fields)
    grid->GetCellData()->AddArray(detail::array_of(field, shared_->n_cells));
  detail::write_compressed(*writer_of(grid), path, detail::Compressor::zlib, shared_->blocks);
}

void write_pvd(const std::string &path, const std::vector<CollectionFile> &files) {
  std::string text =
      "<?xml version=\"1.0\"?>\n"
      "<VTKFile type=\"Collection\" version=\"1.0\" byte_order=\"LittleEndian\">\n  <Collection>\n";
  for (const CollectionFile &f : files)
    text += fmt::format(
        "    <DataSet timestep=\"{}\" group=\"\" part=\"0\" name=\"{}\" file=\"{}\"/>\n", f.step,
        html_text(f.name), html_text(f.file));
  write_whole_file(path, text + "  </Collection>\n</VTKFile>\n");
}

std::vector<int> cells_of_piece(const Mesh &mesh, int piece, int n_pieces) {
  const std::size_t n = mesh.cells.size();
  std::vector<std::pair<double, int>> by_angle;
  for (std::size_t c = 0; c < n; ++c) {
    const Vec3 &middle = mesh.nodes[mesh.cells[c][13]];
    by_angle.emplace_back(std::atan2(middle[1], middle[0]), static_cast<int>(c));
  }
  std::sort(by_angle.begin(), by_angle.end());
  std::vector<int> cells;
  for (std::size_t k = n * piece / n_pieces; k < n * (piece + 1) / n_pieces; ++k)
    cells.push_back(by_angle[k].second);
  std::sort(cells.begin(), cells.end());
  return cells;
}

void write_pvtu(const std::string &path, const std::vector<std::string> &pieces,
                const std::vector<PointField> &fields) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"PUnstructuredGrid\" version=\"1.0\" "
      "byte_order=\"LittleEndian\">\n  <PUnstructuredGrid GhostLevel=\"0\">\n    <PPointData" +
      active_fields(fields) + ">\n";
  for (const PointField &f : fields) text += array_line("Float32", f.name, f.components);
  text += "    </PPointData>\n    <PCellData>\n" + array_line("Int32", field_names::part, 1) +
          "    </PCellData>\n    <PPoints>\n" + array_line("Float64", "Points", 3) +
          "    </PPoints>\n";
  for (const std::string &piece : pieces)
    text += fmt::format("    <Piece Source=\"{}\"/>\n", html_text(piece));
  write_whole_file(path, text + "  </PUnstructuredGrid>\n</VTKFile>\n");
}

}  // namespace felloe
