// SPDX-License-Identifier: GPL-3.0-or-later
// BLAS on one processor while we spread the work ourselves.
#pragma once

namespace felloe::detail {

/// While it lives, BLAS routines run on the calling thread alone (OpenBLAS; others are left as they
/// are).
class OneBlasThread {
 public:
  OneBlasThread();
  ~OneBlasThread();
  OneBlasThread(const OneBlasThread &) = delete;
  OneBlasThread &operator=(const OneBlasThread &) = delete;

 private:
  int before_ = 0;
};

}  // namespace felloe::detail
