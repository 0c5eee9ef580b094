// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/output_folder.h"

#include <stdlib.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "mesher/error.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

bool replaceable(const std::string &target) {
  std::error_code code;
  if (!fs::exists(target, code)) return true;
  return fs::is_directory(target, code) &&
         (fs::is_empty(target, code) || fs::is_regular_file(target + "/results.json", code));
}

void check_target(const std::string &target) {
  std::error_code code;
  if (fs::exists(target, code) && !fs::is_directory(target, code))
    throw Error(target + ": is a file; results need a folder; choose another name");
  if (!replaceable(target))
    throw Error(target +
                ": the folder holds other files (no results.json of an earlier run); nothing was "
                "touched; choose another folder or empty this one");
}

std::string unique_sibling(const std::string &target, const char *what) {
  std::string name = target + "." + what + "-XXXXXX";
  if (!::mkdtemp(name.data())) {
    const int code = errno;
    throw Error(target + ": the folder can't be made: " + std::strerror(code) +
                "; choose a place where you may write");
  }
  return name;
}

}  // namespace

OutputFolder::OutputFolder(const std::string &target) {
  if (target.empty()) throw Error("-o: the name of the output folder is empty; give a name");
  std::error_code code;
  fs::path clean = fs::absolute(fs::path(target), code).lexically_normal();
  if (!clean.has_filename()) clean = clean.parent_path();
  target_ = clean.string();
  if (fs::is_symlink(target_, code)) target_ = fs::canonical(target_, code).string();
  if (target_.empty() || target_ == "/")
    throw Error(target + ": can't be an output folder; choose another name");
  check_target(target_);
  const fs::path parent = fs::path(target_).parent_path();
  if (!fs::is_directory(parent, code))
    throw Error(target + ": its parent folder " + parent.string() +
                " does not exist or is a file; make it first or choose another place");
  partial_ = unique_sibling(target_, "partial");
  removed_on_interruption_ = std::make_unique<RemovedOnInterruption>(partial_);
  // mkdtemp makes private folders; results get the rights of any new folder.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  ::chmod(partial_.c_str(), 0777 & ~mask);
}

OutputFolder::~OutputFolder() {
  std::error_code ignored;
  if (!published_) fs::remove_all(partial_, ignored);
}

void OutputFolder::fill(const std::function<void(const std::string &folder)> &writer) const {
  try {
    writer(partial_);
  } catch (const Error &e) {
    std::string what = e.what();
    for (auto at = what.find(partial_); at != std::string::npos; at = what.find(partial_))
      what.replace(at, partial_.size(), target_);
    throw Error(what);
  }
}

void OutputFolder::write(const std::string &name, const std::string &text) const {
  fill([&](const std::string &folder) {
    const fs::path file = fs::path(folder) / name;
    make_folder(file.parent_path().string());
    write_whole_file(file.string(), text);
  });
}

void OutputFolder::publish() {
  check_target(target_);  // somebody may have written there meanwhile
  std::error_code code;
  std::string old;
  if (fs::exists(target_, code) && !fs::is_empty(target_, code)) {
    old = unique_sibling(target_, "old");
    fs::rename(target_, old, code);
    if (code) {
      std::error_code ignored;
      fs::remove(old, ignored);
      throw Error(target_ + ": the earlier results can't be replaced: " + code.message());
    }
  }
  fs::rename(partial_, target_, code);
  if (code) {
    std::error_code ignored;
    if (!old.empty()) fs::rename(old, target_, ignored);
    throw Error(target_ + ": the results can't be moved into place: " + code.message());
  }
  published_ = true;
  removed_on_interruption_.reset();
  if (!old.empty()) fs::remove_all(old, code);
}

}  // namespace felloe
