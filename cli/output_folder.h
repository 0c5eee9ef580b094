// SPDX-License-Identifier: GPL-3.0-or-later
// The result folder appears whole or not at all.
#pragma once
#include <functional>
#include <memory>
#include <string>

#include "cli/interruption.h"

namespace felloe {

/// Everything is written into a folder beside the target, which is renamed into place at the end.
/// An object that goes out of scope unpublished removes what it made.
class OutputFolder {
 public:
  /// Makes the folder beside the target. Throws Error when the target is a file or a folder that
  /// holds something else than earlier results (results.json marks those), or when its parent
  /// can't be written.
  explicit OutputFolder(const std::string &target);
  ~OutputFolder();
  OutputFolder(const OutputFolder &) = delete;
  OutputFolder &operator=(const OutputFolder &) = delete;

  /// Where files go until publish(), without a slash at the end.
  const std::string &path() const { return partial_; }
  /// Runs a writer with path(). An Error that it throws names the target instead of path(): that is
  /// the only name that the user knows.
  void fill(const std::function<void(const std::string &folder)> &writer) const;
  /// Writes path()/name and checks it; makes folders in the name ("pictures/front.png").
  void write(const std::string &name, const std::string &text) const;
  /// Moves the folder to the target, in place of earlier results. Throws Error when that fails; the
  /// earlier results then stay.
  void publish();

 private:
  void rename_into_place() const;
  void replace_stepwise() const;

  std::string target_, partial_;
  bool published_ = false;
  std::unique_ptr<RemovedOnInterruption> removed_on_interruption_;
};

}  // namespace felloe
