// SPDX-License-Identifier: GPL-3.0-or-later
// Supports, rigid adapter and press fit of one harmonic as linear relations between unknowns.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "solver/harmonic_model.h"

namespace felloe::detail {

/// Rigid motion of harmonic 0 or 1 at the point (r, z).
/// n = 0: axial shift (0, 0, 1) and twist (0, r, 0); n = 1: shift along theta = 0 (1, -1, 0) and
/// tilt (-z, z, r), which moves u_z = r cos theta, u_x = -z.
HarmonicVector rigid_motion(int n, int motion, const Vec2 &rz);

/// Every unknown of the section as a combination of independent ones plus a given part:
/// u = T q + g. Independent unknowns are the free nodal amplitudes and the adapter's two motions.
class HarmonicConstraints {
 public:
  /// torsion: for n = 0, whether the torsion amplitude V takes part; else it is held at zero.
  /// joined: press-fit pairs that move together in V and W as well.
  HarmonicConstraints(const SectionMesh &, const HarmonicSupports &, int n, bool torsion,
                      const std::vector<PressFitPair> &joined = {});

  struct Row {
    int size = 0;
    std::array<int, 2> index{};  ///< independent unknowns
    std::array<double, 2> factor{};
  };
  int n_free() const { return n_free_; }
  const Row &row(int unknown) const { return rows_[unknown]; }
  bool held(int unknown) const { return kind_[unknown] == Kind::held; }
  /// Independent unknowns of the adapter's shift and rotation; -1: none.
  std::array<int, 2> adapter() const { return adapter_; }

  /// The given part g for a radial interference [mm].
  std::vector<double> given(double interference) const;
  /// u = T q + g.
  std::vector<double> expanded(const std::vector<double> &q, double interference) const;
  /// T^T f.
  std::vector<double> reduced(const std::vector<double> &forces) const;

  /// Whether a part of the section can still move rigidly.
  bool free_rigid_motion() const;
  /// Throws Error naming the motion when a part of the section can still move rigidly.
  void check_no_rigid_motion_left() const;

 private:
  enum class Kind { free, held, adapter, tied };
  void hold(const HarmonicSupports &, bool torsion);
  void attach_adapter(const HarmonicSupports &);
  void hold_axis();
  void tie_press_fit();
  void tie(int slave, int master, double gap);
  void number_unknowns(bool torsion);

  const SectionMesh &mesh_;
  int n_;
  std::vector<Kind> kind_;
  std::vector<double> value_;  ///< of held unknowns
  std::vector<int> master_;    ///< of tied unknowns
  std::vector<double> ratio_;  ///< tied: u = ratio x master + gap x interference
  std::vector<double> gap_;
  std::vector<Row> rows_;
  std::array<int, 2> adapter_{-1, -1};
  int n_free_ = 0;
};

}  // namespace felloe::detail
