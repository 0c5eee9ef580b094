// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the meshes and fields that a run has stored.
#include "post/field_input.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPUnstructuredGridReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <cmath>
#include <filesystem>

#include "mesher/error.h"
#include "post/detail/vtk_hexahedron.h"

namespace felloe {
namespace {

void must_exist(const std::string &path) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(path, ignored))
    throw Error(path +
                ": no such file: the run that should have written it is missing; run the "
                "case again");
}

/// Keeps VTK's own messages off the terminal: ours says what to do.
class QuietVtk {
 public:
  QuietVtk() { vtkObject::GlobalWarningDisplayOff(); }
  ~QuietVtk() { vtkObject::SetGlobalWarningDisplay(before_); }
  QuietVtk(const QuietVtk &) = delete;
  QuietVtk &operator=(const QuietVtk &) = delete;

 private:
  const vtkTypeBool before_ = vtkObject::GetGlobalWarningDisplay();
};

[[noreturn]] void damaged(const std::string &path, const std::string &what) {
  throw Error(path + ": " + what +
              ": the file is damaged or not of this program; run the case "
              "again");
}

PointField field_of(vtkDataArray &array) {
  PointField field;
  field.name = array.GetName() ? array.GetName() : "";
  field.components = array.GetNumberOfComponents();
  field.values.reserve(static_cast<std::size_t>(array.GetNumberOfValues()));
  for (vtkIdType i = 0; i < array.GetNumberOfTuples(); ++i)
    for (int c = 0; c < field.components; ++c) field.values.push_back(array.GetComponent(i, c));
  return field;
}

std::vector<PointField> fields_of(vtkFieldData &stored) {
  std::vector<PointField> fields;
  for (int i = 0; i < stored.GetNumberOfArrays(); ++i)
    if (vtkDataArray *array = stored.GetArray(i)) fields.push_back(field_of(*array));
  return fields;
}

void read_cells(Mesh &mesh, vtkUnstructuredGrid &grid, const std::string &path) {
  for (vtkIdType c = 0; c < grid.GetNumberOfCells(); ++c) {
    if (grid.GetCellType(c) != VTK_TRIQUADRATIC_HEXAHEDRON)
      damaged(path, "cell " + std::to_string(c) + " is no hexahedron of 27 nodes");
    vtkIdType n = 0;
    const vtkIdType *nodes = nullptr;
    grid.GetCellPoints(c, n, nodes);
    std::array<int, 27> cell{};
    for (int v = 0; v < 27; ++v) cell[detail::vtk_hexahedron_nodes[v]] = static_cast<int>(nodes[v]);
    mesh.cells.push_back(cell);
  }
}

}  // namespace

namespace {

template <class Reader>
vtkSmartPointer<vtkUnstructuredGrid> grid_in(const std::string &path) {
  vtkNew<Reader> reader;
  if (!reader->CanReadFile(path.c_str())) damaged(path, "no VTK unstructured grid");
  reader->SetFileName(path.c_str());
  reader->Update();
  vtkUnstructuredGrid *grid = reader->GetOutput();
  if (reader->GetErrorCode() != 0 || grid->GetNumberOfPoints() == 0)
    damaged(path, "could not be read to its end");
  return grid;
}

}  // namespace

StoredFields read_vtu(const std::string &path) {
  must_exist(path);
  const QuietVtk quiet;
  const auto grid = std::filesystem::path(path).extension() == ".pvtu"
                        ? grid_in<vtkXMLPUnstructuredGridReader>(path)
                        : grid_in<vtkXMLUnstructuredGridReader>(path);
  StoredFields out;
  for (vtkIdType i = 0; i < grid->GetNumberOfPoints(); ++i) {
    Vec3 x;
    grid->GetPoint(i, x.data());
    out.mesh.nodes.push_back(x);
  }
  read_cells(out.mesh, *grid, path);
  out.point_fields = fields_of(*grid->GetPointData());
  if (vtkDataArray *active = grid->GetPointData()->GetScalars())
    out.coloured_by = active->GetName();
  if (vtkDataArray *active = grid->GetPointData()->GetVectors()) out.moved_by = active->GetName();
  for (CellField &field : fields_of(*grid->GetCellData())) {
    if (field.name != field_names::part)
      out.cell_fields.push_back(std::move(field));
    else
      for (const double part : field.values) out.mesh.parts.push_back(static_cast<Part>(int(part)));
  }
  return out;
}

double viewer_volume(const std::string &path) {
  must_exist(path);
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName(path.c_str());
  reader->Update();
  const std::array<double, 3> gauss{0.5 - std::sqrt(0.15), 0.5, 0.5 + std::sqrt(0.15)};
  const std::array<double, 3> weights{5 / 18., 8 / 18., 5 / 18.};
  double volume = 0;
  for (vtkIdType c = 0; c < reader->GetOutput()->GetNumberOfCells(); ++c) {
    vtkCell *cell = reader->GetOutput()->GetCell(c);
    for (int q = 0; q < 27; ++q) {
      const double at[3] = {gauss[q % 3], gauss[q / 3 % 3], gauss[q / 9]};
      std::array<double, 3 * 27> slopes;  // of all nodes along a, then b, then c
      cell->InterpolateDerivs(at, slopes.data());
      std::array<Vec3, 3> along{};
      for (int d = 0; d < 3; ++d)
        for (int v = 0; v < 27; ++v) {
          Vec3 x;
          cell->GetPoints()->GetPoint(v, x.data());
          along[d] = add(along[d], scale(slopes[27 * d + v], x));
        }
      volume += weights[q % 3] * weights[q / 3 % 3] * weights[q / 9] *
                dot(along[0], cross(along[1], along[2]));
    }
  }
  return volume;
}

const PointField &point_field(const StoredFields &stored, const std::string &name) {
  std::string names;
  for (const PointField &field : stored.point_fields) {
    if (field.name == name) return field;
    names += (names.empty() ? "'" : ", '") + field.name + "'";
  }
  throw Error("stored fields: no field '" + name + "'; there are " + names);
}

}  // namespace felloe
