// SPDX-License-Identifier: GPL-3.0-or-later
// Fields and texts as arrays of VTK.
#pragma once
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkStringArray.h>
#include <vtkXMLWriter.h>

#include <string>
#include <vector>

#include "post/field_output.h"

namespace felloe::detail {

/// Components named X Y Z or XX YY ZZ XY YZ XZ; infinity becomes infinite_life_in_fields.
/// std::logic_error when the field has not `places` places.
vtkNew<vtkFloatArray> array_of(const PointField &, std::size_t places);

vtkNew<vtkStringArray> texts_of(const std::string &name, const std::vector<std::string> &texts);

/// Names of the values of "part".
vtkNew<vtkStringArray> part_names();

/// zlib: known to readers of every family. lz4: VTK's own only, several times as fast.
enum class Compressor { zlib, lz4 };

/// Compressed binary, written by way of write_whole_file. Error when that fails.
void write_compressed(vtkXMLWriter &, const std::string &path, Compressor);

}  // namespace felloe::detail
