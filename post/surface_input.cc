// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the surfaces and points that a run has stored.
#include "post/surface_input.h"

#include <vtkCellArray.h>
#include <vtkCompositeDataSet.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkInformation.h>
#include <vtkMultiBlockDataSet.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkStringArray.h>
#include <vtkXMLMultiBlockDataReader.h>
#include <vtkXMLPolyDataReader.h>

#include <filesystem>

#include "mesher/error.h"

namespace felloe {
namespace {

std::map<std::string, std::vector<std::string>> texts_in(vtkFieldData &stored) {
  std::map<std::string, std::vector<std::string>> texts;
  for (int i = 0; i < stored.GetNumberOfArrays(); ++i)
    if (auto *array = vtkStringArray::SafeDownCast(stored.GetAbstractArray(i)))
      for (vtkIdType k = 0; k < array->GetNumberOfValues(); ++k)
        texts[array->GetName()].push_back(array->GetValue(k));
  return texts;
}

StoredSurface surface_of(vtkPolyData &stored) {
  StoredSurface out;
  for (vtkIdType i = 0; i < stored.GetNumberOfPoints(); ++i) {
    Vec3 x;
    stored.GetPoint(i, x.data());
    out.points.push_back(x);
  }
  vtkIdType n = 0;
  const vtkIdType *corners = nullptr;
  for (stored.GetPolys()->InitTraversal(); stored.GetPolys()->GetNextCell(n, corners);)
    out.quads.emplace_back(corners, corners + n);
  for (int i = 0; i < stored.GetPointData()->GetNumberOfArrays(); ++i)
    if (vtkDataArray *array = stored.GetPointData()->GetArray(i)) {
      PointField field{array->GetName(), array->GetNumberOfComponents(), {}};
      for (vtkIdType k = 0; k < array->GetNumberOfTuples(); ++k)
        for (int c = 0; c < field.components; ++c)
          field.values.push_back(array->GetComponent(k, c));
      out.point_fields.push_back(std::move(field));
    }
  if (vtkDataArray *active = stored.GetPointData()->GetScalars())
    out.coloured_by = active->GetName();
  out.point_texts = texts_in(*stored.GetPointData());
  out.about = texts_in(*stored.GetFieldData());
  return out;
}

template <class Reader>
void read(Reader &reader, const std::string &path) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(path, ignored) || !reader.CanReadFile(path.c_str()))
    throw Error(path + ": no such file, or none that VTK reads; run the case again");
  reader.SetFileName(path.c_str());
  reader.Update();
  if (reader.GetErrorCode() != 0) throw Error(path + ": could not be read to its end");
}

}  // namespace

StoredSurface read_surface(const std::string &path) {
  vtkNew<vtkXMLPolyDataReader> reader;
  read(*reader, path);
  return surface_of(*reader->GetOutput());
}

std::vector<std::pair<std::string, StoredSurface>> read_blocks(const std::string &path) {
  vtkNew<vtkXMLMultiBlockDataReader> reader;
  read(*reader, path);
  auto *blocks = vtkMultiBlockDataSet::SafeDownCast(reader->GetOutput());
  std::vector<std::pair<std::string, StoredSurface>> all;
  for (unsigned i = 0; blocks != nullptr && i < blocks->GetNumberOfBlocks(); ++i)
    if (auto *block = vtkPolyData::SafeDownCast(blocks->GetBlock(i)))
      all.emplace_back(blocks->GetMetaData(i)->Get(vtkCompositeDataSet::NAME()),
                       surface_of(*block));
  return all;
}

}  // namespace felloe
