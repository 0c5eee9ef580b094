// SPDX-License-Identifier: GPL-3.0-or-later
// Fields and texts as arrays of VTK.
#pragma once
#include <vtkDataSetAttributes.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkStringArray.h>
#include <vtkXMLWriter.h>

#include <string>
#include <unordered_map>
#include <vector>

#include "post/field_output.h"

namespace felloe::detail {

/// Components named X Y Z or XX YY ZZ XY YZ XZ; infinity, and a life beyond it, becomes
/// infinite_life_in_fields. std::logic_error when the field has not `places` places.
vtkNew<vtkFloatArray> array_of(const PointField &, std::size_t places);

/// Adds the fields. The first of one, three and six components is what a viewer colours and moves
/// the mesh by before anything is chosen.
void add_fields(vtkDataSetAttributes *, const std::vector<PointField> &, std::size_t places);

vtkNew<vtkStringArray> texts_of(const std::string &name, const std::vector<std::string> &texts);

/// Names of the values of "part".
vtkNew<vtkStringArray> part_names();

/// zlib: known to readers of every family. lz4: VTK's own only, several times as fast.
enum class Compressor { zlib, lz4 };

/// Blocks of bytes that several files hold, and what zlib made of each.
using ZlibBlocks = std::unordered_map<std::string, std::string>;

/// All blocks of the writer's data. Error when VTK refuses them.
ZlibBlocks zlib_blocks(vtkXMLWriter &);

/// Compressed binary, written by way of write_whole_file; blocks that are known to zlib take no
/// time. Error when that fails.
void write_compressed(vtkXMLWriter &, const std::string &path, Compressor,
                      const ZlibBlocks &known = {});

}  // namespace felloe::detail
