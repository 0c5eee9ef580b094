// SPDX-License-Identifier: GPL-3.0-or-later
// Fields and texts as arrays of VTK.
#include "post/detail/vtk_arrays.h"

#include <vtkZLibDataCompressor.h>

#include <cmath>
#include <stdexcept>

#include "mesher/error.h"
#include "post/detail/deflate.h"
#include "post/whole_file.h"

namespace felloe::detail {
namespace {

/// Writes what VTK's own compressor of that name reads, three times as fast. It keeps the name,
/// which stands in the file.
class FastZlib : public vtkZLibDataCompressor {
 public:
  static FastZlib *New() {
    auto *made = new FastZlib;
    made->InitializeObjectBase();
    return made;
  }
  std::size_t GetMaximumCompressionSpace(std::size_t n) override { return zlib_room(n); }

 protected:
  std::size_t CompressBuffer(const unsigned char *bytes, std::size_t n, unsigned char *out,
                             std::size_t room) override {
    return zlib_stream(bytes, n, GetCompressionLevel(), out, room);
  }
};

}  // namespace

vtkNew<vtkFloatArray> array_of(const PointField &field, std::size_t places) {
  if (field.components < 1 || field.values.size() != places * field.components)
    throw std::logic_error("field '" + field.name + "' does not fit the mesh");
  vtkNew<vtkFloatArray> array;
  array->SetName(field.name.c_str());
  array->SetNumberOfComponents(field.components);
  array->SetNumberOfTuples(static_cast<vtkIdType>(places));
  const char *const vector_names[] = {"X", "Y", "Z"};
  const char *const tensor_names[] = {"XX", "YY", "ZZ", "XY", "YZ", "XZ"};
  for (int c = 0; c < field.components; ++c)
    if (field.components == 3 || field.components == 6)
      array->SetComponentName(c, field.components == 3 ? vector_names[c] : tensor_names[c]);
  float *const out = array->GetPointer(0);
  for (std::size_t i = 0; i < field.values.size(); ++i) {
    const double value = field.values[i];
    out[i] = static_cast<float>(value == HUGE_VAL ? infinite_life_in_fields : value);
  }
  return array;
}

vtkNew<vtkStringArray> texts_of(const std::string &name, const std::vector<std::string> &texts) {
  vtkNew<vtkStringArray> array;
  array->SetName(name.c_str());
  for (const std::string &text : texts) array->InsertNextValue(text);
  return array;
}

vtkNew<vtkStringArray> part_names() { return texts_of("part names", {"disc", "rim", "weld"}); }

void write_compressed(vtkXMLWriter &writer, const std::string &path, Compressor compressor) {
  writer.SetDataModeToAppended();
  writer.EncodeAppendedDataOff();
  if (compressor == Compressor::zlib) {
    vtkNew<FastZlib> zlib;
    writer.SetCompressor(zlib);
  } else {
    writer.SetCompressorTypeToLZ4();
  }
  writer.SetCompressionLevel(1);  // level 5 takes four times as long for a few percent
  // In memory first: VTK's own file writing reports a full disk by a message, not by a failure.
  writer.WriteToOutputStringOn();
  if (writer.Write() != 1) throw Error(path + ": could not be written: VTK refuses the fields");
  write_whole_file(path, writer.GetOutputString());
}

}  // namespace felloe::detail
