// SPDX-License-Identifier: GPL-3.0-or-later
// The worst plane of eight points at a time, in the widest instruction set of the processor.
#pragma once

namespace felloe {

constexpr int points_at_once = 8;   ///< one double of each fills a register of 64 bytes
constexpr int points_a_call = 512;  ///< most points that a kernel for harmonics takes

/// One number of eight points.
struct alignas(64) EightValues {
  double of[points_at_once];
};

/// Planes spread evenly over the half sphere, each with its neighbours.
struct PlaneGrid {
  int n = 0;
  const double *normal = nullptr;  ///< [plane][xyz]
  const int *neighbour = nullptr;  ///< [plane][6]; fewer: one of them again
};

enum class PlaneQuestion {
  normal_stress,     ///< largest fully reversed equivalent of the normal stress, weight: M of FKM
  shear_and_normal,  ///< largest (shear amplitude + weight largest normal stress)
  shear_and_limited_normal,  ///< the same, the normal stress's static part counted up to three
                             ///< times the larger of the two amplitudes
  shear,  ///< largest shear amplitude, of equals the plane with the largest normal stress
  normal_stress_by_rule  ///< largest equivalent of the normal stress by any rule
};

struct PlaneSearch {
  PlaneQuestion question = PlaneQuestion::normal_stress;
  double weight = 0;
  /// The rule: equivalents of n amplitudes and means.
  void (*rule)(const double *amplitude, const double *mean, double *equivalent, int n,
               const void *constants) = nullptr;
  const void *constants = nullptr;
};

/// What was found, and what that plane feels.
struct PlaneAnswers {
  EightValues normal[3];
  EightValues value;  ///< of the question
  EightValues normal_amplitude, normal_mean, shear_amplitude;
};

struct PlaneKernels {
  /// histories: six components each of mean, cosine and sine for every eight points; xx yy zz xy yz
  /// zx. Numbers behind the last point may be any; answers: one for every eight points.
  void (*harmonic)(const PlaneSearch &, const EightValues *histories, int n_points, PlaneAnswers *);
  /// Of eight points. states: six components a state; scratch: two values a state.
  void (*sampled)(const PlaneSearch &, const EightValues *states, int n_states,
                  EightValues *scratch, PlaneAnswers &);
};

/// The kernels for this processor.
const PlaneKernels &plane_kernels();
/// All that it can run, the plain one first.
struct NamedPlaneKernels {
  const char *name;
  const PlaneKernels *kernels;
};
int runnable_plane_kernels(NamedPlaneKernels (&found)[3]);

/// 181 planes: no direction is further than 7.3 degrees from one of them.
const PlaneGrid &plane_grid();
/// For a first look in single precision: 321 planes, 5.5 degrees.
const PlaneGrid &quick_plane_grid();
/// For crests and for those in doubt: 721 planes.
const PlaneGrid &fine_plane_grid();

}  // namespace felloe
