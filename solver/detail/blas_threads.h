// SPDX-License-Identifier: GPL-3.0-or-later
// BLAS on one processor while we spread the work ourselves.
#pragma once

namespace felloe::detail {

/// While one lives, BLAS routines run on the calling thread alone (OpenBLAS; others are left as
/// they are). They may be nested and live on several threads.
class OneBlasThread {
 public:
  OneBlasThread();
  ~OneBlasThread();
  OneBlasThread(const OneBlasThread &) = delete;
  OneBlasThread &operator=(const OneBlasThread &) = delete;
};

}  // namespace felloe::detail
