// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of the free body, whichever way it is stored, in nodal components.
#pragma once
#include <array>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "solver/detail/assembly.h"
#include "solver/detail/constraint_map.h"
#include "solver/detail/sparse_vector.h"
#include "solver/elastic_model.h"

namespace felloe::detail {

/// Right-hand side in nodal components, before the reduction by C^T.
struct NodalLoad {
  SparseVector force;
  std::array<double, 6> on_adapter{};  ///< force and moment about the origin
};

/// C q in nodal components, and the adapter's motions.
struct NodalResponse {
  std::vector<double> displacement;
  std::array<double, 6> motion{};
};

/// Responses to several loads, each put together when it is asked for: those of many loads together
/// would take more memory than the factor.
class NodalResponses {
 public:
  virtual ~NodalResponses() = default;
  /// Of one load, into memory that is used again. From several threads at once.
  virtual void put(int load, NodalResponse &) const = 0;
};

/// A factored body under one set of supports.
class FactoredBody {
 public:
  virtual ~FactoredBody() = default;
  /// The responses live no longer than the factor.
  virtual std::unique_ptr<NodalResponses> solve(const std::vector<NodalLoad> &) const = 0;
  virtual double entries() const = 0;  ///< stored numbers
  /// Wall time inside solve() so far for what was left to factor until a load asked for it [s].
  virtual double late_factor_seconds() const { return 0; }
};

/// Everything that a body's stiffness is made from.
struct BodyInput {
  const Mesh &mesh;
  const std::vector<Axes> &axes;
  const std::vector<Lame> &of_cells;
  NodalFrame frame;
};

class Body {
 public:
  virtual ~Body() = default;
  /// K u of several on the calling thread, into products that are used again.
  virtual void multiply(const std::vector<const std::vector<double> *> &u,
                        std::vector<std::vector<double>> &products) const = 0;
  std::vector<double> multiply(const std::vector<double> &u) const {
    std::vector<std::vector<double>> product(1);
    multiply({&u}, product);
    return std::move(product.front());
  }
  /// Throws NotPositiveDefinite when a rigid motion is free.
  virtual std::unique_ptr<FactoredBody> factored(const Supports &, const ConstraintMap &) const = 0;
  /// Forces that move some nodal components, which the supports leave free, by one each: dense, n x
  /// n, column by column. Empty: this body cannot tell. Throws NotPositiveDefinite when a motion is
  /// free although they are held.
  virtual std::vector<double> condensed(const Supports &, const ConstraintMap &,
                                        const std::vector<long> &components) const {
    (void)components;
    return {};
  }
  virtual std::vector<double> node_stiffness() const = 0;  ///< see node_diagonals(), whole mesh
  virtual int n_sectors() const { return 1; }
  virtual bool is_mirrored() const { return false; }  ///< half a sector is stored
  /// Whether it can stand for the whole mesh under these supports.
  virtual bool suits(const Mesh &, const Supports &) const { return true; }
  virtual std::map<Part, double> part_volumes() const = 0;  ///< [mm3]
};

/// The whole matrix.
std::unique_ptr<Body> whole_body(const BodyInput &, const HexGeometry &);

/// One sector's matrix, used for all. Needs a mesh with symmetry >= 2 in the cylindrical frame
/// whose cut between sectors is clean: every node on one cut is a turned node of the other. Returns
/// null when the mesh is not of that kind.
std::unique_ptr<Body> sector_body(const BodyInput &);

/// Half a sector's matrix, used for all. Needs the cylindrical frame, a mirror plane in every
/// sector (which may be the whole wheel), equal cells and parts on both of its sides and no cell
/// astride of it. Returns null when the mesh is not of that kind.
std::unique_ptr<Body> wedge_body(const BodyInput &);

/// Supports that are the same in every sector; only those can be solved by sectors.
bool same_in_every_sector(const Mesh &, const Supports &);

}  // namespace felloe::detail
