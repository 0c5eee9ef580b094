// SPDX-License-Identifier: GPL-3.0-or-later
// MPI by deal.II.
#include "solver/processes.h"

#include <deal.II/base/mpi.h>

#include <algorithm>
#include <cstdlib>

#include "mesher/error.h"
#include "solver/detail/node_exchange.h"

namespace felloe {
namespace {

namespace mpi = dealii::Utilities::MPI;

/// What Open MPI's mpirun, PMIx and PMI launchers (srun) leave in the environment.
bool started_by_launcher() {
  for (const char *name : {"OMPI_COMM_WORLD_SIZE", "PMIX_RANK", "PMI_RANK"})
    if (std::getenv(name)) return true;
  return false;
}

/// Marks failures that all processes know of.
struct KnownToAll {
  virtual ~KnownToAll() = default;
};
struct AgreedError : Error, KnownToAll {
  using Error::Error;
};
struct AgreedBug : std::runtime_error, KnownToAll {
  using std::runtime_error::runtime_error;
};

struct Failure {
  enum Kind { none, error, elsewhere, bug } kind = none;
  std::string text;
};

/// Runs the body. Failures that all know of pass.
Failure failure_of(const std::function<void()> &body) {
  try {
    body();
    return {};
  } catch (const KnownToAll &) {
    throw;
  } catch (const detail::FailedElsewhere &e) {
    return {Failure::elsewhere, e.what()};
  } catch (const Error &e) {
    return {Failure::error, e.what()};
  } catch (const std::exception &e) {
    return {Failure::bug, e.what()};
  }
}

}  // namespace

struct Processes::Impl {
  dealii::Utilities::MPI::MPI_InitFinalize mpi;

  Impl(int &argc, char **&argv) : mpi(argc, argv, 1) {}
};

Processes::Processes(int &argc, char **&argv) {
  if (started_by_launcher()) impl_ = std::make_unique<Impl>(argc, argv);
}
Processes::~Processes() = default;

int Processes::count() { return detail::n_processes(); }
int Processes::number() { return detail::this_process(); }
void Processes::wait() {
  if (count() > 1) MPI_Barrier(MPI_COMM_WORLD);
}

void Processes::together(const std::function<void()> &body) {
  if (count() == 1) return body();
  const Failure failure = failure_of(body);
  // Those that have only heard of a failure come last.
  const int n = count(), nobody = 2 * n;
  const int rank = failure.kind == Failure::none        ? nobody
                   : failure.kind == Failure::elsewhere ? n + number()
                                                        : number();
  const int first = mpi::min(rank, MPI_COMM_WORLD);
  if (first == nobody) return;
  const auto root = static_cast<unsigned int>(first % n);
  const std::string text = mpi::broadcast(MPI_COMM_WORLD, failure.text, root);
  if (mpi::broadcast(MPI_COMM_WORLD, int(failure.kind), root) == Failure::bug)
    throw AgreedBug(text);
  throw AgreedError(text);
}

double Processes::of_first(double value) {
  return count() > 1 ? mpi::broadcast(MPI_COMM_WORLD, value) : value;
}
std::string Processes::of_first(const std::string &text) {
  return count() > 1 ? mpi::broadcast(MPI_COMM_WORLD, text) : text;
}
std::vector<double> Processes::of_first(const std::vector<double> &values) {
  if (count() == 1) return values;
  std::vector<double> all = values;
  all.resize(static_cast<std::size_t>(of_first(static_cast<double>(values.size()))));
  mpi::broadcast(all.data(), all.size(), 0, MPI_COMM_WORLD);
  return all;
}

}  // namespace felloe
