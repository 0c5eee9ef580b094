// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the pictures that a run has drawn.
#include "post/picture_input.h"

#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkPNGReader.h>

#include <filesystem>

#include "mesher/error.h"

namespace felloe {

StoredPicture read_picture(const std::string &path) {
  std::error_code ignored;
  vtkNew<vtkPNGReader> reader;
  if (!std::filesystem::is_regular_file(path, ignored) || !reader->CanReadFile(path.c_str()))
    throw Error(path + ": no such picture, or no PNG");
  reader->SetFileName(path.c_str());
  reader->Update();
  vtkImageData *image = reader->GetOutput();
  int size[3];
  image->GetDimensions(size);
  StoredPicture out;
  out.width = size[0];
  out.height = size[1];
  for (int y = 0; y < size[1]; ++y)
    for (int x = 0; x < size[0]; ++x) {
      const auto *in = static_cast<const unsigned char *>(image->GetScalarPointer(x, y, 0));
      out.pixels.push_back({in[0], in[1], in[2]});
    }
  for (std::size_t i = 0; i < reader->GetNumberOfTextChunks(); ++i)
    out.texts[reader->GetTextKey(int(i))] = reader->GetTextValue(int(i));
  return out;
}

}  // namespace felloe
