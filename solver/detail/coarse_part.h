// SPDX-License-Identifier: GPL-3.0-or-later
// What one share of the work has of the coarse problem.
#pragma once
#include <memory>
#include <vector>

#include "solver/detail/cell_operator.h"
#include "solver/detail/coarse_unknowns.h"
#include "solver/detail/partial_cholesky.h"

namespace felloe::detail {

/// The coarse problem and what its set-up looks at, of the whole mesh.
struct CoarseInput {
  const CellColumns &columns;
  const CoarseColumns &coarse;
  const CoarseUnknowns &unknowns;
  const Admissible &everywhere;
  const std::vector<Lame> &of_cells;
};

/// Matrix of the share's cells and ties. Its inside is eliminated; what stays between shares is a
/// dense matrix on the border. Transfer for the places whose source cell is the share's.
class CoarsePart {
 public:
  CoarsePart(const CoarseInput &, int share);

  /// Adds the share's cells, which are the batches first ... last - 1, and its ties.
  void assemble(const CoarseInput &, const CellOperator<double> &, long first, long last);
  /// Eliminates the inside and adds what stays to the border's matrix, dense. Throws
  /// NotPositiveDefinite.
  void factor(const CoarseUnknowns &, std::vector<double> &border_matrix);
  /// Keeps what transfer needs. `own` are the columns of this process.
  void finish(const CoarseInput &, const CellColumns &own);

  /// Takes residuals over and adds the condensed ones to those on the border.
  void restrict_and_condense(const float *r, double *border);
  /// The correction at the share's places from the unknowns on the border.
  void recover_and_prolong(const double *border, float *e) const;

  double entries() const { return factor_ ? factor_->entries() : 0; }  ///< of the factor

 private:
  using Motion = std::array<double, 6>;
  struct Entity {
    int number = 0;           ///< among all
    int first = 0, size = 0;  ///< unknowns, among the share's
  };
  void number_entities(const CoarseInput &);
  void make_pattern(const CoarseInput &);
  std::vector<int> carriers_of(const CoarseInput &, const int *places, int n) const;
  void add_cells(const CoarseInput &, const CellOperator<double> &, long first, long last);
  void add_ties(const CoarseInput &);
  void add(const CoarseInput &, int row_column, int column_column,
           const std::array<Motion, 6> &block);

  void keep_all(const std::vector<int> &number, long n_border, std::vector<double> &border_matrix);
  void eliminate_inside(const std::vector<long> &stays, const std::vector<int> &group,
                        const std::vector<int> &number, long n_border,
                        std::vector<double> &border_matrix);

  int share_;
  std::vector<Entity> entity_;  ///< ascending numbers
  std::vector<int> entity_of_;  ///< of each entity's number: index in entity_, or -1; for set-up
  std::vector<std::vector<int>> below_;  ///< of each entity: coupled ones not before it; for set-up
  SymmetricMatrix matrix_;               ///< for set-up
  std::unique_ptr<PartialCholesky> factor_;
  std::vector<long> stays_;  ///< the unknowns that stay, as the factor orders them
  std::vector<int> border_;  ///< their numbers on the border

  std::vector<int> place_;          ///< of this process
  std::vector<int> start_;          ///< of each place: its first carrier; one more at the end
  std::vector<Carrier> carrier_;    ///< columns numbered within the share
  std::vector<Follower> follower_;  ///< of the share's columns; entity: its first unknown, or -1
  std::vector<int> size_;           ///< of each column: unknowns that it follows
  long n_unknowns_ = 0;
  std::vector<double> right_;
  RawVector<double> eliminated_;
};

}  // namespace felloe::detail
