// SPDX-License-Identifier: GPL-3.0-or-later
// The exchange by deal.II's partitioner.
#include "solver/detail/node_exchange.h"

#include <deal.II/base/array_view.h>
#include <deal.II/base/index_set.h>
#include <deal.II/base/mpi.h>
#include <deal.II/base/partitioner.h>

#include <algorithm>

namespace felloe::detail {

namespace mpi = dealii::Utilities::MPI;
using dealii::ArrayView;

struct NodeExchange::Impl {
  mpi::Partitioner partitioner;
  unsigned int n_owned = 0, n_ghosts = 0, n_imported = 0;
};

NodeExchange::NodeExchange(const CellColumns &whole, const CellColumns &own, int first_share) {
  const auto size = 3u * static_cast<unsigned int>(whole.n_places());
  const auto first = 3u * static_cast<unsigned int>(whole.start[whole.first_column[first_share]]);
  auto impl = std::make_shared<Impl>();
  impl->n_owned = 3u * static_cast<unsigned int>(own.n_owned_places());
  dealii::IndexSet owned(size), ghosts(size);
  owned.add_range(first, first + impl->n_owned);
  for (int p = own.n_owned_places(); p < own.n_places(); ++p) {
    const auto at = 3u * static_cast<unsigned int>(whole.place[own.node[p]]);
    ghosts.add_range(at, at + 3);
  }
  ghosts.compress();
  impl->partitioner.reinit(owned, ghosts, MPI_COMM_WORLD);
  impl->n_ghosts = impl->partitioner.n_ghost_indices();
  impl->n_imported = impl->partitioner.n_import_indices();
  impl_ = impl;
}

template <class T>
void NodeExchange::fill_ghosts(T *u) const {
  if (!impl_) return;
  const Impl &x = *impl_;
  std::vector<T> packed(x.n_imported);
  std::vector<MPI_Request> requests;
  const ArrayView<T> ghosts(u + x.n_owned, x.n_ghosts);
  x.partitioner.export_to_ghosted_array_start(0, ArrayView<const T>(u, x.n_owned),
                                              ArrayView<T>(packed.data(), packed.size()), ghosts,
                                              requests);
  x.partitioner.export_to_ghosted_array_finish(ghosts, requests);
}

template <class T>
void NodeExchange::add_ghosts(T *f) const {
  if (!impl_) return;
  const Impl &x = *impl_;
  std::vector<T> packed(x.n_imported);
  std::vector<MPI_Request> requests;
  const ArrayView<T> ghosts(f + x.n_owned, x.n_ghosts), imported(packed.data(), packed.size());
  x.partitioner.import_from_ghosted_array_start(dealii::VectorOperation::add, 1, ghosts, imported,
                                                requests);
  x.partitioner.import_from_ghosted_array_finish(dealii::VectorOperation::add,
                                                 ArrayView<const T>(packed.data(), packed.size()),
                                                 ArrayView<T>(f, x.n_owned), ghosts, requests);
  std::fill(f + x.n_owned, f + x.n_owned + x.n_ghosts, T(0));
}

template void NodeExchange::fill_ghosts(double *) const;
template void NodeExchange::fill_ghosts(float *) const;
template void NodeExchange::add_ghosts(double *) const;
template void NodeExchange::add_ghosts(float *) const;

void NodeExchange::sum(double *values, std::size_t n) const {
  if (!impl_) return;
  // Pieces that a message can hold.
  constexpr std::size_t piece = 1 << 26;
  for (std::size_t first = 0; first < n; first += piece) {
    const std::size_t size = std::min(piece, n - first);
    mpi::sum(ArrayView<const double>(values + first, size), MPI_COMM_WORLD,
             ArrayView<double>(values + first, size));
  }
}

int n_processes() {
  return dealii::Utilities::MPI::job_supports_mpi()
             ? static_cast<int>(mpi::n_mpi_processes(MPI_COMM_WORLD))
             : 1;
}

int this_process() {
  return dealii::Utilities::MPI::job_supports_mpi()
             ? static_cast<int>(mpi::this_mpi_process(MPI_COMM_WORLD))
             : 0;
}

}  // namespace felloe::detail
