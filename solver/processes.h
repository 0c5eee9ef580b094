// SPDX-License-Identifier: GPL-3.0-or-later
// The processes of a run under mpirun.
#pragma once
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace felloe {

/// One at the beginning of main(), before any model. Starts MPI when the environment shows that a
/// launcher (mpirun, srun) started this process, so that a program by itself does not wait for it.
/// Without one, or without a launcher, a program is a single process.
///
/// What has several processes as its subject is a call of all of them, in the same order.
class Processes {
 public:
  Processes(int &argc, char **&argv);
  ~Processes();
  Processes(const Processes &) = delete;
  Processes &operator=(const Processes &) = delete;

  static int count();
  static int number();  ///< of this process: 0 ... count() - 1
  static bool first() { return number() == 0; }
  static void wait();  ///< until all have come here

  /// Calls body on every process and waits for all. When it fails on some, every process throws
  /// what the first of those threw: an Error, or a std::runtime_error for anything else.
  static void together(const std::function<void()> &body);

  /// What the first process has.
  static double of_first(double value);
  static std::string of_first(const std::string &text);
  static std::vector<double> of_first(const std::vector<double> &values);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
