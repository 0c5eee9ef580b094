// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/text_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

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
    case EPERM:
      return "permission denied; check the access rights";
    case ENOSPC:
    case EDQUOT:
      return "the disk is full; free some space or choose another place";
    case EFBIG:
      return "the file would grow over the size limit of this process; raise the limit";
    case ENOTDIR:
      return "part of the path is a file, not a folder; choose another place";
    case EISDIR:
      return "this is a folder; a file is needed";
    case EROFS:
      return "the file system is read-only; choose another place";
    default:
      return std::strerror(code);
  }
}

[[noreturn]] void fail(const std::string &path, const std::string &what, int code) {
  throw Error(path + ": " + what + ": " + reason(code));
}

}  // namespace

std::string read_text_file(const std::string &path) {
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    const bool holds_case = fs::exists(path + "/case.toml", ignored);
    throw Error(path + ": this is a folder; give the case file itself" +
                (holds_case ? ", for example " + (fs::path(path) / "case.toml").string() : ""));
  }
  std::FILE *file = std::fopen(path.c_str(), "rb");
  if (!file) fail(path, "can't be read", errno);
  std::string text;
  char block[65536];
  std::size_t n;
  while ((n = std::fread(block, 1, sizeof block, file)) > 0) text.append(block, n);
  const int code = std::ferror(file) ? errno : 0;
  std::fclose(file);
  if (code) fail(path, "can't be read", code);
  return text;
}

void write_text_file(const std::string &path, const std::string &text) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (file < 0) fail(path, "can't be written", errno);
  struct stat kind;
  const bool regular = ::fstat(file, &kind) == 0 && S_ISREG(kind.st_mode);
  int code = 0;
  for (std::size_t done = 0; done < text.size() && !code;) {
    const auto n = ::write(file, text.data() + done, text.size() - done);
    if (n >= 0)
      done += std::size_t(n);
    else if (errno != EINTR)
      code = errno;
  }
  // A disk can report that it is full as late as here.
  if (!code && regular && ::fsync(file) != 0) code = errno;
  if (::close(file) != 0 && !code) code = errno;
  if (!code) return;
  if (regular) ::unlink(path.c_str());
  fail(path, "can't be written", code);
}

void write_whole_file(const std::string &path, const std::string &text) {
  std::error_code code;
  if (fs::is_directory(path, code)) fail(path, "can't be written", EISDIR);
  // Devices and pipes take the text as it comes.
  if (fs::exists(path, code) && !fs::is_regular_file(path, code))
    return write_text_file(path, text);
  const std::string beside = path + ".partial-" + std::to_string(::getpid());
  try {
    write_text_file(beside, text);
  } catch (const Error &e) {
    // The user knows the target's name, not the name beside it.
    const std::string what = e.what();
    throw Error(path + what.substr(beside.size()));
  }
  fs::rename(beside, path, code);
  if (!code) return;
  ::unlink(beside.c_str());
  fail(path, "can't be written", code.value());
}

}  // namespace felloe
