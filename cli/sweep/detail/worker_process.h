// SPDX-License-Identifier: GPL-3.0-or-later
// One child process: started on a processor of its own, listened to, waited for.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/sweep/workplace.h"

namespace felloe {

/// Processors that this process may run on.
std::vector<int> allowed_processors();

/// A child that ends with its parent. Killed and waited for when the object goes away.
class WorkerProcess {
 public:
  /// processor: < 0: anywhere. body: runs in the child; its value is the exit code.
  WorkerProcess(int processor, const std::function<int()> &body);
  ~WorkerProcess();
  WorkerProcess(const WorkerProcess &) = delete;
  WorkerProcess &operator=(const WorkerProcess &) = delete;

  const Workplace &place() const { return place_; }
  int processor() const { return processor_; }
  /// Readable when the child says something or ends.
  int ear() const { return ear_; }
  /// Takes in what it said; keeps the end of it.
  void listen();
  const std::string &last_words() const { return words_; }
  /// Its wait status once it has ended.
  std::optional<int> ended();
  void signal(int number) const;

 private:
  int processor_, ear_ = -1;
  Workplace place_;
  std::string words_;
  bool waited_ = false;
};

}  // namespace felloe
