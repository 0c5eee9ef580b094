# SPDX-License-Identifier: GPL-3.0-or-later
"""Solves an exported problem with DOLFINx and PETSc: library.py FOLDER mumps|gamg SECONDS

Hexahedra of 27 nodes as geometry and as displacement space, 3 x 3 x 3 Gauss points: the same
matrix as ours up to rounding. Prints lines "key value". Runs under mpirun as well.
mumps: symmetric factorisation, all loads as one block. gamg: conjugate gradients with
smoothed-aggregation multigrid and the six rigid motions, one load, at most SECONDS.
"""
import logging
import sys
import time

import basix
import numpy as np
import ufl
from dolfinx import fem
from dolfinx.mesh import create_mesh
from mpi4py import MPI
from petsc4py import PETSc

logging.disable(logging.INFO)  # the compiler's command lines
comm = MPI.COMM_WORLD


def share(n):
    """First and last item of this process."""
    return comm.rank * n // comm.size, (comm.rank + 1) * n // comm.size


def read(folder, name, width, begin=0, end=None):
    kind = np.float64 if name.endswith("f64") else np.int64
    size = np.dtype(kind).itemsize * width
    count = -1 if end is None else (end - begin) * width
    return np.fromfile(f"{folder}/{name}", kind, count, offset=begin * size).reshape(-1, width)


def mesh_of(folder, n_nodes, n_cells):
    # position of the library's nodes in lexicographic order
    points = basix.create_element(basix.ElementFamily.P, basix.CellType.hexahedron, 2,
                                  basix.LagrangeVariant.equispaced).points
    ijk = np.rint(2 * points).astype(int)
    ours = ijk[:, 0] + 3 * ijk[:, 1] + 9 * ijk[:, 2]
    cells = read(folder, "cells.i64", 27, *share(n_cells))[:, ours]
    nodes = read(folder, "nodes.f64", 3, *share(n_nodes))
    element = ufl.VectorElement("Lagrange", ufl.Cell("hexahedron", geometric_dimension=3), 2)
    return create_mesh(comm, cells, nodes, ufl.Mesh(element))


def node_of_block(mesh, space, n_nodes):
    """Node of the file for every block of three unknowns, ghosts included."""
    n_blocks = space.dofmap.index_map.size_local + space.dofmap.index_map.num_ghosts
    nodes = np.full(n_blocks, -1, dtype=np.int64)
    original = np.asarray(mesh.geometry.input_global_indices)
    geometry = np.asarray(mesh.geometry.dofmap.array)
    nodes[np.asarray(space.dofmap.list.array)] = original[geometry]
    return nodes


def rigid_motions(space, matrix):
    n = space.dofmap.index_map.size_local
    x = space.tabulate_dof_coordinates()[:n]
    vectors = [matrix.createVecLeft() for _ in range(6)]
    for k, vector in enumerate(vectors):
        v = np.zeros((n, 3))
        if k < 3:
            v[:, k] = 1
        else:
            a, b = (k - 2) % 3, (k - 1) % 3  # rotation about axis k - 3
            v[:, a], v[:, b] = -x[:, b], x[:, a]
        vector.setArray(v.ravel())
    for i, v in enumerate(vectors):  # orthonormal
        for w in vectors[:i]:
            v.axpy(-v.dot(w), w)
        v.normalize()
    return PETSc.NullSpace().create(vectors=vectors, comm=comm)


def main(folder, solver, limit):
    PETSc.Sys.pushErrorHandler("python")
    n_nodes, n_cells, n_held, n_loads = (int(w) for w in open(f"{folder}/sizes.txt").read().split())
    clock = time.perf_counter
    start = clock()
    mesh = mesh_of(folder, n_nodes, n_cells)
    mesh_seconds = clock() - start

    # compiled before the clock runs
    space = fem.VectorFunctionSpace(mesh, ("Lagrange", 2))
    constants = fem.VectorFunctionSpace(mesh, ("DG", 0), dim=2)
    lame = fem.Function(constants)
    u, v = ufl.TrialFunction(space), ufl.TestFunction(space)
    strain = lambda w: ufl.sym(ufl.grad(w))
    stress = lame[0] * ufl.tr(strain(u)) * ufl.Identity(3) + 2 * lame[1] * strain(u)
    form = fem.form(ufl.inner(stress, strain(v)) * ufl.dx(metadata={"quadrature_degree": 5}))

    cell_of = np.asarray(mesh.topology.original_cell_index)
    values = read(folder, "lame.f64", 2)[cell_of]
    lame.x.array.reshape(-1, 2)[np.asarray(constants.dofmap.list.array)] = values

    nodes = node_of_block(mesh, space, n_nodes)
    held = np.isin(nodes, read(folder, "held.i64", 1).ravel())
    n_own = space.dofmap.index_map.size_local
    support = fem.dirichletbc(np.zeros(3), np.flatnonzero(held).astype(np.int32), space)

    comm.barrier()
    start = clock()
    matrix = fem.petsc.assemble_matrix(form, bcs=[support])
    matrix.assemble()
    matrix.setOption(PETSc.Mat.Option.SYMMETRIC, True)
    matrix.setOption(PETSc.Mat.Option.SPD, True)
    assembly_seconds = clock() - start

    forces = np.memmap(f"{folder}/forces.f64", np.float64, "r", shape=(n_loads, n_nodes, 3))
    loads = []
    for load in forces:
        f = np.array(load[nodes[:n_own]])
        f[held[:n_own]] = 0
        loads.append(f.ravel())

    ksp = PETSc.KSP().create(comm)
    ksp.setOperators(matrix)
    pc = ksp.getPC()
    found = []
    iterations = 0
    if solver == "mumps":
        start = clock()
        ksp.setType("preonly")
        pc.setType("cholesky")
        pc.setFactorSolverType("mumps")
        pc.setFactorSetUpSolverType()
        factor = pc.getFactorMatrix()
        factor.setMumpsIcntl(7, 5)  # nested dissection of the whole graph
        pc.setUp()
        factor_seconds = clock() - start
        right = PETSc.Mat().createDense([matrix.getSizes()[0], [None, n_loads]], comm=comm)
        right.setUp()
        right.getDenseArray()[:, :] = np.array(loads).T
        right.assemble()
        left = right.duplicate()
        start = clock()
        factor.matSolve(right, left)
        solve_seconds = clock() - start
        found = list(np.array(left.getDenseArray()).T)
        print_once("factor_entries", factor.getMumpsInfog(29))
        done = 1
    else:
        start = clock()
        matrix.setBlockSize(3)
        matrix.setNearNullSpace(rigid_motions(space, matrix))
        ksp.setType("cg")
        ksp.setNormType(PETSc.KSP.NormType.UNPRECONDITIONED)
        pc.setType("gamg")
        options = PETSc.Options()
        options["pc_gamg_type"] = "agg"
        options["pc_gamg_coarse_eq_limit"] = 1000
        options["mg_levels_ksp_type"] = "chebyshev"
        options["mg_levels_pc_type"] = "jacobi"
        options["mg_levels_esteig_ksp_type"] = "cg"
        ksp.setFromOptions()
        pc.setUp()
        factor_seconds = clock() - start
        b, x = matrix.createVecRight(), matrix.createVecLeft()
        b.setArray(loads[2])  # the radial load at the angle 0
        ksp.setTolerances(rtol=1e-8, max_it=100000)
        start = clock()

        def test(_, it, norm):
            if norm <= 1e-8 * b.norm():
                return 2
            return -3 if clock() - start > limit else 0

        ksp.setConvergenceTest(test)
        ksp.solve(b, x)
        solve_seconds = clock() - start
        iterations = ksp.getIterationNumber()
        done = 1 if ksp.getConvergedReason() > 0 else 0
        found, loads = [np.array(x.getArray())], [loads[2]]

    worst_residual = worst_difference = 0
    ours = np.memmap(f"{folder}/displacements.f64", np.float64, "r", shape=(n_loads, n_nodes, 3))
    b, x = matrix.createVecRight(), matrix.createVecLeft()
    for k, (load, solution) in enumerate(zip(loads, found)):
        x.setArray(solution)
        matrix.mult(x, b)
        largest = lambda a: comm.allreduce(float(np.abs(a).max(initial=0)), MPI.MAX)
        total = lambda a: comm.allreduce(float(np.dot(a, a)))
        worst_residual = max(worst_residual,
                             (total(b.getArray() - load) / total(np.asarray(load))) ** 0.5)
        mine = np.array(ours[k if solver == "mumps" else 2][nodes[:n_own]]).ravel()
        worst_difference = max(worst_difference, largest(mine - solution) / largest(mine))
    print_once("dofs", matrix.getSize()[0])
    print_once("processes", comm.size)
    print_once("done", done)
    print_once("loads", len(found))
    print_once("iterations", iterations)
    print_once("mesh_seconds", mesh_seconds)
    print_once("assembly_seconds", assembly_seconds)
    print_once("factor_seconds", factor_seconds)
    print_once("solve_seconds", solve_seconds)
    print_once("residual", worst_residual)
    print_once("difference", worst_difference)


def print_once(key, value):
    if comm.rank == 0:
        print(key, value, flush=True)


main(sys.argv[1], sys.argv[2], float(sys.argv[3]))
