// SPDX-License-Identifier: GPL-3.0-or-later
// operator new of every program with a solver: large blocks lie in large pages.
//
// A direct solve takes a gigabyte or two and goes through most of it once or twice, so that the
// system's work of handing it out shows: on a virtual machine, pages of 4 kB took a quarter of the
// whole solve's processor time more than pages of 2 MB.
#include <malloc.h>
#include <sys/mman.h>

#include <cstdlib>
#include <new>

namespace {

constexpr std::size_t page = std::size_t{2} << 20;  ///< size of a large page [B]
constexpr std::size_t least = 2 * page;             ///< that is worth it

/// Large blocks are mapped one by one, so that they go back to the system as soon as they are
/// freed; the C library would raise its limit by itself.
const int mapped_from = mallopt(M_MMAP_THRESHOLD, static_cast<int>(least));

void *block_of(std::size_t n) {
  if (n < least) return std::malloc(n > 0 ? n : 1);
  const std::size_t whole_pages = (n + page - 1) / page * page;
  if (whole_pages < n) return nullptr;  // more than there can be
  void *block = std::aligned_alloc(page, whole_pages);
  if (block) madvise(block, whole_pages, MADV_HUGEPAGE);  // a wish: small ones do as well
  return block;
}

}  // namespace

void *operator new(std::size_t n) {
  for (;;) {
    if (void *block = block_of(n)) return block;
    const std::new_handler handler = std::get_new_handler();
    if (!handler) throw std::bad_alloc();
    handler();
  }
}

void operator delete(void *block) noexcept { std::free(block); }
void operator delete(void *block, std::size_t) noexcept { std::free(block); }
