// SPDX-License-Identifier: GPL-3.0-or-later
// A private X server for pictures, and drawing in a child process.
#pragma once
#include <sys/types.h>

#include <chrono>
#include <functional>
#include <string>

namespace felloe {

/// An Xvfb of our own that lives as long as this object; it ends with us in any case. The
/// environment of this process is not touched.
class PrivateDisplay {
 public:
  PrivateDisplay();  ///< starts it and waits up to 10 s; see name()
  ~PrivateDisplay();
  PrivateDisplay(const PrivateDisplay &) = delete;
  PrivateDisplay &operator=(const PrivateDisplay &) = delete;

  const std::string &name() const { return name_; }      ///< ":5"; empty: not started
  const std::string &reason() const { return reason_; }  ///< why it was not started

 private:
  void stop();
  std::string name_, reason_;
  pid_t process_ = -1;
};

/// Runs `work` in a child process with DISPLAY set to `display`, because graphics libraries may
/// abort or hang the process they run in. Its terminal output is kept back. Start it while no other
/// thread runs: the child has none of them, but all of their locks.
class ChildProcess {
 public:
  /// Returns at once. The work may take so many seconds from now.
  ChildProcess(const std::string &display, const std::function<void()> &work, double seconds);
  ~ChildProcess();  ///< ends it when nobody has waited for it
  ChildProcess(const ChildProcess &) = delete;
  ChildProcess &operator=(const ChildProcess &) = delete;

  /// Returns "" when the work came to its end, else why not (exception, signal, time-out) in one
  /// line. An Error that the work throws leaves here as an Error. To be called once.
  std::string wait();

 private:
  std::string failure_;
  double seconds_;
  std::chrono::steady_clock::time_point deadline_;
  pid_t process_ = -1;
  int output_ = -1;
};

/// Starts one and waits for it.
std::string in_child_process(const std::string &display, const std::function<void()> &work,
                             double seconds);

}  // namespace felloe
