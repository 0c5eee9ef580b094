// SPDX-License-Identifier: GPL-3.0-or-later
// Runs the built program as a user would, in a folder of its own.
#pragma once
#include <fcntl.h>
#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

namespace felloe::test {

namespace fs = std::filesystem;

inline std::string contents(const fs::path &file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A new empty folder that goes away with the object.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "felloe-test-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  fs::path operator/(const std::string &name) const { return path_ / name; }
  const fs::path &path() const { return path_; }
  void write(const std::string &name, const std::string &text) const {
    fs::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << text;
  }
  /// Every file and folder below, relative.
  std::set<std::string> listing() const {
    std::set<std::string> all;
    for (const auto &e : fs::recursive_directory_iterator(path_))
      all.insert(fs::relative(e.path(), path_).string());
    return all;
  }

 private:
  fs::path path_;
};

struct Outcome {
  int exit_code = -1;
  std::string out, err;
};

/// Runs the program in `folder`. file_limit: largest file that it may write [bytes], 0: any.
/// stdout_to: a path instead of a collected text.
inline Outcome felloe_in(const fs::path &folder, const std::vector<std::string> &arguments,
                         rlim_t file_limit = 0, const std::string &stdout_to = {}) {
  const Folder streams;
  const std::string out = stdout_to.empty() ? (streams / "out").string() : stdout_to;
  const std::string err = (streams / "err").string();
  std::vector<char *> argv = {const_cast<char *>(FELLOE_PROGRAM)};
  for (const auto &a : arguments) argv.push_back(const_cast<char *>(a.c_str()));
  argv.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    if (::chdir(folder.c_str()) != 0) ::_exit(125);
    ::dup2(::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), 1);
    ::dup2(::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), 2);
    if (file_limit > 0) {
      const rlimit limit = {file_limit, file_limit};
      ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    ::execv(argv[0], argv.data());
    ::_exit(126);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, contents(streams / "out"), contents(err)};
}

inline std::string test_wheel() { return contents(fs::path(FELLOE_TEST_FILES) / "wheel.toml"); }

/// The text with one occurrence replaced; fails the test when it is not there.
inline std::string with(std::string text, const std::string &from, const std::string &to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "not in the test case: " << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

inline std::size_t lines(const std::string &text) {
  return std::size_t(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace felloe::test
