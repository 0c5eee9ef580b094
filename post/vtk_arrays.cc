// SPDX-License-Identifier: GPL-3.0-or-later
// Fields and texts as arrays of VTK.
#include "post/detail/vtk_arrays.h"

#include <vtkZLibDataCompressor.h>

#include <limits>
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

  const ZlibBlocks *known = nullptr;
  ZlibBlocks *learned = nullptr;

 protected:
  std::size_t CompressBuffer(const unsigned char *bytes, std::size_t n, unsigned char *out,
                             std::size_t room) override {
    const std::string block(reinterpret_cast<const char *>(bytes), n);
    if (known != nullptr) {
      const auto found = known->find(block);
      if (found != known->end() && found->second.size() <= room)
        return found->second.copy(reinterpret_cast<char *>(out), room);
    }
    const std::size_t size = zlib_stream(bytes, n, GetCompressionLevel(), out, room);
    if (learned != nullptr) (*learned)[block].assign(reinterpret_cast<const char *>(out), size);
    return size;
  }
};

/// In memory: VTK's own file writing reports a full disk by a message, not by a failure.
std::string in_memory(vtkXMLWriter &writer) {
  writer.SetDataModeToAppended();
  writer.EncodeAppendedDataOff();
  writer.SetCompressionLevel(1);  // level 5 takes four times as long for a few percent
  writer.WriteToOutputStringOn();
  if (writer.Write() != 1) throw Error("VTK refuses the fields");
  return writer.GetOutputString();
}

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
  const double most = field.name == field_names::life ? infinite_life_in_fields
                                                      : std::numeric_limits<double>::max();
  float *const out = array->GetPointer(0);
  for (std::size_t i = 0; i < field.values.size(); ++i) {
    const double value = field.values[i];
    out[i] = static_cast<float>(value > most ? infinite_life_in_fields : value);
  }
  return array;
}

void add_fields(vtkDataSetAttributes *data, const std::vector<PointField> &fields,
                std::size_t places) {
  for (const PointField &field : fields) {
    data->AddArray(array_of(field, places));
    const char *const name = field.name.c_str();
    if (field.components == 1 && !data->GetScalars()) data->SetActiveScalars(name);
    if (field.components == 3 && !data->GetVectors()) data->SetActiveVectors(name);
    if (field.components == 6 && !data->GetTensors()) data->SetActiveTensors(name);
  }
}

vtkNew<vtkStringArray> texts_of(const std::string &name, const std::vector<std::string> &texts) {
  vtkNew<vtkStringArray> array;
  array->SetName(name.c_str());
  for (const std::string &text : texts) array->InsertNextValue(text);
  return array;
}

vtkNew<vtkStringArray> part_names() { return texts_of("part names", {"disc", "rim", "weld"}); }

ZlibBlocks zlib_blocks(vtkXMLWriter &writer) {
  ZlibBlocks blocks;
  vtkNew<FastZlib> zlib;
  zlib->learned = &blocks;
  writer.SetCompressor(zlib);
  in_memory(writer);
  return blocks;
}

void write_compressed(vtkXMLWriter &writer, const std::string &path, Compressor compressor,
                      const ZlibBlocks &known) {
  if (compressor == Compressor::zlib) {
    vtkNew<FastZlib> zlib;
    zlib->known = &known;
    writer.SetCompressor(zlib);
  } else {
    writer.SetCompressorTypeToLZ4();
  }
  std::string bytes;
  try {
    bytes = in_memory(writer);
  } catch (const Error &e) {
    throw Error(path + ": could not be written: " + e.what());
  }
  write_whole_file(path, bytes);
}

}  // namespace felloe::detail
