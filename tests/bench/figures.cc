// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/figures.h"

#include <cstdio>

namespace felloe::bench {
namespace {

std::string quoted(const std::string &text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += static_cast<unsigned char>(c) < ' ' ? ' ' : c;
  }
  return out + '"';
}

std::string number(double value, const char *format) {
  if (!std::isfinite(value)) return "null";
  char text[40];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

}  // namespace

void print_heading(const Machine &m) {
  std::printf("processor   %s, %d cores, %d doubles a SIMD register\n", m.processor.c_str(),
              m.cores, m.lanes);
  std::printf("memory      triad %.1f GB/s on one core, %.1f GB/s on all\n", m.bandwidth_one_core,
              m.bandwidth);
  std::printf("BLAS        %s\n\n", m.blas.c_str());
  std::fflush(stdout);
}

void print_line(const Figure &f) {
  const std::string value =
      std::isfinite(f.value) ? number(f.value, "%.4g") + " " + f.unit : "not measured";
  std::printf("%-34s %14s  %s\n", f.key.c_str(), value.c_str(), f.against.c_str());
  std::fflush(stdout);
}

std::string json_object(const Machine &m, const std::vector<Figure> &figures) {
  std::string text = "{\n";
  for (const Figure &f : figures)
    text += "  " + quoted(f.key) + ": " + number(f.value, "%.6g") + ",\n";
  text += "  \"notes\": {\n";
  for (std::size_t i = 0; i < figures.size(); ++i)
    text += "    " + quoted(figures[i].key) + ": " + quoted(figures[i].against) +
            (i + 1 < figures.size() ? ",\n" : "\n");
  text += "  },\n  \"machine\": {\"processor\": " + quoted(m.processor) +
          ", \"cores\": " + std::to_string(m.cores) +
          ", \"simd_doubles\": " + std::to_string(m.lanes) +
          ", \"triad_GB_per_s\": " + number(m.bandwidth, "%.4g") +
          ", \"triad_one_core_GB_per_s\": " + number(m.bandwidth_one_core, "%.4g") +
          ", \"blas\": " + quoted(m.blas) + "}\n}\n";
  return text;
}

}  // namespace felloe::bench
