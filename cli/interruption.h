// SPDX-License-Identifier: GPL-3.0-or-later
// Ctrl-C leaves no half-written folder behind.
#pragma once
#include <string>

namespace felloe {

/// While it lives, SIGINT, SIGTERM and SIGHUP remove the folder before they end the program as they
/// always do. One at a time; signals that were ignored before stay ignored.
class RemovedOnInterruption {
 public:
  explicit RemovedOnInterruption(const std::string &folder);
  ~RemovedOnInterruption();
  RemovedOnInterruption(const RemovedOnInterruption &) = delete;
  RemovedOnInterruption &operator=(const RemovedOnInterruption &) = delete;
};

}  // namespace felloe
