// SPDX-License-Identifier: GPL-3.0-or-later
// MPI by deal.II.
#include "solver/processes.h"

#include <deal.II/base/mpi.h>

#include "solver/detail/node_exchange.h"

namespace felloe {

struct Processes::Impl {
  dealii::Utilities::MPI::MPI_InitFinalize mpi;

  Impl(int &argc, char **&argv) : mpi(argc, argv, 1) {}
};

Processes::Processes(int &argc, char **&argv) : impl_(std::make_unique<Impl>(argc, argv)) {}
Processes::~Processes() = default;

int Processes::count() const { return detail::n_processes(); }
int Processes::number() const { return detail::this_process(); }
void Processes::wait() const { MPI_Barrier(MPI_COMM_WORLD); }

}  // namespace felloe
