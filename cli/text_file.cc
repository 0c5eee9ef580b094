// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/text_file.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "mesher/error.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

std::string reason(int code) {
  switch (code) {
    case ENOENT:
      return "there is no such file; check the path";
    case EACCES:
      return "permission denied; check the access rights";
    case ENOTDIR:
      return "part of the path is a file, not a folder; check the path";
    default:
      return std::strerror(code);
  }
}

}  // namespace

std::string read_text_file(const std::string &path) {
  if (path.empty()) throw Error("a file's name is empty; give the name");
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    const bool holds_case = fs::exists(path + "/case.toml", ignored);
    throw Error(path + ": this is a folder; give the file itself" +
                (holds_case ? ", for example " + (fs::path(path) / "case.toml").string() : ""));
  }
  std::FILE *file = std::fopen(path.c_str(), "rb");
  if (!file) throw Error(path + ": can't be read: " + reason(errno));
  std::string text;
  char block[65536];
  std::size_t n;
  while ((n = std::fread(block, 1, sizeof block, file)) > 0) text.append(block, n);
  const int code = std::ferror(file) ? errno : 0;
  std::fclose(file);
  if (code) throw Error(path + ": can't be read: " + reason(code));
  return text;
}

}  // namespace felloe
