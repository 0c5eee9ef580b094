// SPDX-License-Identifier: GPL-3.0-or-later
// Writing a file so that it appears whole or not at all.
#include "post/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "mesher/error.h"

namespace felloe {
namespace {

[[noreturn]] void fail(const std::string &path, int reason) {
  throw Error(path + ": could not be written: " + std::strerror(reason) +
              "; free some space or choose another place");
}

/// 0 or the errno of the first call that failed. The descriptor is closed in any case: a full disk
/// may show itself only there.
int write_all(int descriptor, const std::string &bytes, bool flush) {
  int reason = 0;
  for (std::size_t done = 0; done < bytes.size() && reason == 0;) {
    const ssize_t n = ::write(descriptor, bytes.data() + done, bytes.size() - done);
    if (n >= 0)
      done += static_cast<std::size_t>(n);
    else if (errno != EINTR)
      reason = errno;
  }
  if (flush && reason == 0 && ::fsync(descriptor) != 0) reason = errno;
  if (::close(descriptor) != 0 && reason == 0) reason = errno;
  return reason;
}

}  // namespace

void write_whole_file(const std::string &path, const std::string &bytes) {
  std::error_code ignored;
  const auto status = std::filesystem::status(path, ignored);
  const bool special = std::filesystem::exists(status) && !std::filesystem::is_regular_file(status);
  const std::string target =
      special ? path : path + ".part" + std::to_string(static_cast<long>(::getpid()));
  const int flags = special ? O_WRONLY : O_WRONLY | O_CREAT | O_TRUNC;
  const int descriptor = ::open(target.c_str(), flags | O_CLOEXEC, 0666);
  if (descriptor < 0) fail(path, errno);
  int reason = write_all(descriptor, bytes, !special);
  if (!special) {
    if (reason == 0 && std::rename(target.c_str(), path.c_str()) != 0) reason = errno;
    if (reason != 0) ::unlink(target.c_str());
  }
  if (reason != 0) fail(path, reason);
}

void make_folder(const std::string &folder) {
  std::error_code reason;
  std::filesystem::create_directories(folder, reason);
  if (reason || !std::filesystem::is_directory(folder, reason))
    throw Error(folder + ": the folder could not be made: " +
                (reason ? reason.message() : "something else has that name") +
                "; choose another place");
}

}  // namespace felloe
