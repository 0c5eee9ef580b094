// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/output_folder.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

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
  const bool earlier = fs::exists(target_, code) && !fs::is_empty(target_, code);
  // Exchanging both names leaves no moment without results; the earlier ones then bear the name
  // beside the target.
  if (earlier &&
      ::renameat2(AT_FDCWD, partial_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0) {
    published_ = true;
    fs::remove_all(partial_, code);
    removed_on_interruption_.reset();
    return;
  }
  earlier ? replace_stepwise() : rename_into_place();
  published_ = true;
  removed_on_interruption_.reset();
}

void OutputFolder::rename_into_place() const {
  if (::rename(partial_.c_str(), target_.c_str()) != 0)
    throw Error(target_ + ": the results can't be moved into place: " + std::strerror(errno));
}

/// For file systems that can't exchange names.
void OutputFolder::replace_stepwise() const {
  const std::string old = unique_sibling(target_, "old");
  if (::rename(target_.c_str(), old.c_str()) != 0) {
    const int reason = errno;
    ::rmdir(old.c_str());
    throw Error(target_ + ": the earlier results can't be replaced: " + std::strerror(reason));
  }
  try {
    rename_into_place();
  } catch (const Error &) {
    ::rename(old.c_str(), target_.c_str());
    throw;
  }
  std::error_code ignored;
  fs::remove_all(old, ignored);
}

}  // namespace felloe
