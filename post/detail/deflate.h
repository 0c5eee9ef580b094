// SPDX-License-Identifier: GPL-3.0-or-later
// Compression that every reader knows, by the fastest library for it.
#pragma once
#include <cstddef>
#include <string>

namespace felloe::detail {

/// A zlib stream (RFC 1950) of the bytes. level 1 is the fastest, 12 the smallest.
std::string zlib_stream(const void *bytes, std::size_t n, int level);
/// Into `out` of `room` bytes; how many it took, 0 when there is too little room.
std::size_t zlib_stream(const void *bytes, std::size_t n, int level, void *out, std::size_t room);
/// Room that is always enough.
std::size_t zlib_room(std::size_t n);

}  // namespace felloe::detail
