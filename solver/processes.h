// SPDX-License-Identifier: GPL-3.0-or-later
// The processes of a run under mpirun.
#pragma once
#include <memory>

namespace felloe {

/// Starts MPI; one at the beginning of main(), before any model. A program without it, or without
/// mpirun, is a single process.
class Processes {
 public:
  Processes(int &argc, char **&argv);
  ~Processes();
  Processes(const Processes &) = delete;
  Processes &operator=(const Processes &) = delete;

  int count() const;
  int number() const;  ///< of this process: 0 ... count() - 1
  void wait() const;   ///< until all have come here

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
