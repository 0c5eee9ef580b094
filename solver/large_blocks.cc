// SPDX-License-Identifier: GPL-3.0-or-later
// operator new of every program with a solver: large blocks lie in large pages.
//
// A direct solve takes a gigabyte or two and goes through most of it once or twice, so that the
// system's work of handing it out shows: on a virtual machine, pages of 4 kB took a quarter of the
// whole solve's processor time more than pages of 2 MB.
#include <sys/mman.h>

#include <cstdlib>
#include <new>

namespace {

constexpr std::size_t page = std::size_t{2} << 20;  ///< size of a large page [B]
constexpr std::size_t least = 2 * page;             ///< that is worth it

/// Whole pages: the rest at both ends would be as many small ones as two large ones hold.
void *block_of(std::size_t n) {
  if (n < least) return std::malloc(n > 0 ? n : 1);
  const std::size_t whole_pages = (n + page - 1) / page * page;
  void *block = std::aligned_alloc(page, whole_pages);
  if (block) madvise(block, whole_pages, MADV_HUGEPAGE);  // a wish: small pages do as well
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
