// SPDX-License-Identifier: GPL-3.0-or-later
// The one exception for everything that the user can repair.
#pragma once
#include <stdexcept>
#include <string>

namespace felloe {

/// Something that the user can repair. The text follows one grammar:
/// where: what was found: why not; what is accepted or what to do.
/// The program prints it and ends with exit code 2.
class Error : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Runs f; an Error thrown inside leaves with "place: " in front of its text.
template <class F>
decltype(auto) in_context(const std::string &place, F &&f) {
  try {
    return f();
  } catch (const Error &e) {
    throw Error(place + ": " + e.what());
  }
}

}  // namespace felloe
