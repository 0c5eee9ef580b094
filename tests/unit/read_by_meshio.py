# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads a file of write_vtu() with a reader that shares no code with VTK, and compares nodes, cells
and fields with the formulas that they were written from (field_output_test.cc)."""
import sys

import meshio
import numpy

mesh = meshio.read(sys.argv[1])
x, y, z = mesh.points.T


def same(name, expected):
    found = mesh.point_data[name]
    assert found.shape == expected.shape, (name, found.shape, expected.shape)
    # single precision: 2^-24 of the value, of the largest one where it is near zero
    worst = numpy.abs(found - expected).max() / numpy.abs(expected).max()
    assert worst < 1e-7, (name, worst)


same("displacement [mm]", numpy.stack([1e-3 * x, -2e-3 * y, 3e-3 * z], axis=1))
same("stress [MPa]", numpy.stack([x, y, z, x + y, y - z, 2 * x], axis=1))
same("stress amplitude [MPa]", numpy.hypot(x, y))

(block,) = mesh.cells
assert block.type == "hexahedron27", block.type
assert len(block.data) == int(sys.argv[2]), len(block.data)
parts = mesh.cell_data["part"][0]
assert sorted(set(parts)) == [0, 1], set(parts)

# The 8 corners, 12 edge and 6 face middles of a cell lie where the element says: the sum of all
# corner-based middles is the corners' sum, so compare every middle node with its neighbours.
nodes = mesh.points[block.data]
size = numpy.linalg.norm(nodes[:, 0] - nodes[:, 6], axis=1)
edges = [(0, 1), (1, 2), (2, 3), (3, 0), (4, 5), (5, 6), (6, 7), (7, 4), (0, 4), (1, 5), (2, 6), (3, 7)]
for place, (a, b) in enumerate(edges):
    off = numpy.linalg.norm(nodes[:, 8 + place] - (nodes[:, a] + nodes[:, b]) / 2, axis=1)
    assert (off < 0.1 * size).all(), (place, (off / size).max())
middle = numpy.linalg.norm(nodes[:, 26] - nodes[:, :8].mean(axis=1), axis=1)
assert (middle < 0.1 * size).all(), (middle / size).max()
