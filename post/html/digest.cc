// SPDX-License-Identifier: GPL-3.0-or-later
// SHA-256 and base64 (OpenSSL).
#include "post/html/digest.h"

#include <openssl/evp.h>

#include <cstdio>
#include <stdexcept>

namespace felloe {
namespace {

const unsigned char *as_bytes(const std::string &text) {
  return reinterpret_cast<const unsigned char *>(text.data());
}

std::string sha256(const std::string &bytes) {
  std::string digest(32, '\0');
  unsigned size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), reinterpret_cast<unsigned char *>(digest.data()),
                 &size, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not available in this OpenSSL");
  return digest;
}

}  // namespace

std::string sha256_hex(const std::string &bytes) {
  std::string hex;
  for (const char c : sha256(bytes)) {
    char two[3];
    std::snprintf(two, sizeof two, "%02x", static_cast<unsigned>(static_cast<unsigned char>(c)));
    hex += two;
  }
  return hex;
}

std::string sha256_base64(const std::string &bytes) { return base64(sha256(bytes)); }

std::string base64(const std::string &bytes) {
  std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');  // EVP_EncodeBlock ends with a zero
  EVP_EncodeBlock(reinterpret_cast<unsigned char *>(text.data()), as_bytes(bytes),
                  static_cast<int>(bytes.size()));
  text.pop_back();
  return text;
}

}  // namespace felloe
