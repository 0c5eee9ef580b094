// SPDX-License-Identifier: GPL-3.0-or-later
// A vector of numbers whose new elements are not set.
#pragma once
#include <memory>
#include <utility>
#include <vector>

namespace felloe::detail {

/// std::allocator that leaves elements of numbers as they come when nothing is said about them.
template <class T>
struct UnsetNumbers : std::allocator<T> {
  template <class U>
  struct rebind {
    using other = UnsetNumbers<U>;
  };
  template <class U, class... Arguments>
  void construct(U *at, Arguments &&...arguments) {
    if constexpr (sizeof...(Arguments) == 0)
      ::new (static_cast<void *>(at)) U;
    else
      ::new (static_cast<void *>(at)) U(std::forward<Arguments>(arguments)...);
  }
};

/// For large arrays that several threads fill: zeroed first, every page would be touched by one
/// thread, which takes longer than the filling.
template <class T>
using RawVector = std::vector<T, UnsetNumbers<T>>;

}  // namespace felloe::detail
