// SPDX-License-Identifier: GPL-3.0-or-later
// SHA-256 and base64 (OpenSSL).
#pragma once
#include <string>

namespace felloe {

/// 64 hexadecimal digits, as `sha256sum` prints them.
std::string sha256_hex(const std::string &bytes);

/// The digest in base64, as a Content-Security-Policy names a script or style.
std::string sha256_base64(const std::string &bytes);

std::string base64(const std::string &bytes);

}  // namespace felloe
