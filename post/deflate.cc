// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/detail/deflate.h"

#include <libdeflate.h>

#include <memory>
#include <new>

namespace felloe::detail {
namespace {

using Compressor = std::unique_ptr<libdeflate_compressor, decltype(&libdeflate_free_compressor)>;

/// One a thread and level: making it clears a good part of a megabyte.
libdeflate_compressor *compressor(int level) {
  thread_local Compressor kept(nullptr, libdeflate_free_compressor);
  thread_local int level_of_kept = 0;
  if (!kept || level_of_kept != level) {
    kept.reset(libdeflate_alloc_compressor(level));
    level_of_kept = level;
  }
  if (!kept) throw std::bad_alloc();
  return kept.get();
}

}  // namespace

std::size_t zlib_room(std::size_t n) { return libdeflate_zlib_compress_bound(nullptr, n); }

std::size_t zlib_stream(const void *bytes, std::size_t n, int level, void *out, std::size_t room) {
  return libdeflate_zlib_compress(compressor(level), bytes, n, out, room);
}

std::string zlib_stream(const void *bytes, std::size_t n, int level) {
  std::string out(zlib_room(n), '\0');
  out.resize(zlib_stream(bytes, n, level, out.data(), out.size()));
  return out;
}

}  // namespace felloe::detail
