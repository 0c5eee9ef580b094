// SPDX-License-Identifier: GPL-3.0-or-later
// The 9-node ring element of one Fourier harmonic: points, strains, stiffness and loads.
#include "solver/detail/harmonic_element.h"

#include <deal.II/base/polynomial.h>
#include <deal.II/base/quadrature_lib.h>
#include <deal.II/base/tensor_product_polynomials.h>

#include <string>

#include "mesher/error.h"

namespace felloe::detail {
namespace {

/// Shape functions of the unit square or line at Gauss points; the same for all cells.
struct ShapeTable {
  std::vector<std::array<double, 9>> value, da, db;
  std::vector<double> weight;
};

std::vector<dealii::Polynomials::Polynomial<double>> quadratic_basis() {
  return dealii::Polynomials::generate_complete_Lagrange_basis(
      {dealii::Point<1>(0.), dealii::Point<1>(0.5), dealii::Point<1>(1.)});
}

dealii::Quadrature<2> at_nodes() {
  std::vector<dealii::Point<2>> nodes;
  for (int i = 0; i < 9; ++i) nodes.emplace_back(0.5 * (i % 3), 0.5 * (i / 3));
  return dealii::Quadrature<2>(nodes, std::vector<double>(9, 0.));
}

/// points: a side, Gauss; 0: the nine nodes, without weights.
ShapeTable tabulate(int points) {
  const dealii::TensorProductPolynomials<2> shape(quadratic_basis());
  const dealii::Quadrature<2> gauss =
      points > 0 ? dealii::Quadrature<2>(dealii::QGauss<2>(points)) : at_nodes();
  ShapeTable table;
  for (unsigned q = 0; q < gauss.size(); ++q) {
    std::array<double, 9> value, da, db;
    for (unsigned i = 0; i < 9; ++i) {
      value[i] = shape.compute_value(i, gauss.point(q));
      const auto gradient = shape.compute_grad(i, gauss.point(q));
      da[i] = gradient[0];
      db[i] = gradient[1];
    }
    table.value.push_back(value);
    table.da.push_back(da);
    table.db.push_back(db);
    table.weight.push_back(gauss.weight(q));
  }
  return table;
}

const ShapeTable &shape_table(int points) {
  static const ShapeTable nodes = tabulate(0), two = tabulate(2), three = tabulate(3);
  return points == 0 ? nodes : points == 2 ? two : three;
}

struct LineTable {
  std::vector<std::array<double, 3>> value, slope;
  std::vector<double> weight;
};

const LineTable &line_table() {
  static const LineTable table = [] {
    const auto basis = quadratic_basis();
    const dealii::QGauss<1> gauss(4);
    LineTable t;
    for (unsigned q = 0; q < gauss.size(); ++q) {
      std::array<double, 3> value, slope;
      for (int i = 0; i < 3; ++i) {
        std::vector<double> both(2);
        basis[i].value(gauss.point(q)[0], both);
        value[i] = both[0];
        slope[i] = both[1];
      }
      t.value.push_back(value);
      t.slope.push_back(slope);
      t.weight.push_back(gauss.weight(q));
    }
    return t;
  }();
  return table;
}

void add_at(std::vector<double> &forces, int node, double factor, const HarmonicVector &force) {
  for (int c = 0; c < 3; ++c) forces[3 * node + c] += factor * force[c];
}

}  // namespace

std::vector<SectionPoint> section_points(const SectionMesh &mesh, int cell, int points) {
  const ShapeTable &table = shape_table(points);
  std::vector<SectionPoint> result(table.weight.size());
  for (std::size_t q = 0; q < result.size(); ++q) {
    SectionPoint &p = result[q];
    double ra = 0, rb = 0, za = 0, zb = 0;
    for (int i = 0; i < 9; ++i) {
      const Vec2 &x = mesh.nodes[mesh.cells[cell][i]];
      p.rz[0] += table.value[q][i] * x[0];
      p.rz[1] += table.value[q][i] * x[1];
      ra += table.da[q][i] * x[0];
      rb += table.db[q][i] * x[0];
      za += table.da[q][i] * x[1];
      zb += table.db[q][i] * x[1];
    }
    const double det = ra * zb - rb * za;
    if (!(det > 0))
      throw Error("section mesh: cell " + std::to_string(cell) + ": Jacobian determinant " +
                  std::to_string(det) + ": the cell is turned over; change the mesh density");
    if (!(p.rz[0] > 0))
      throw Error("section mesh: cell " + std::to_string(cell) + ": radius " +
                  std::to_string(p.rz[0]) + " mm: a section lies at positive radii");
    for (int i = 0; i < 9; ++i) {
      p.dr[i] = (table.da[q][i] * zb - table.db[q][i] * za) / det;
      p.dz[i] = (table.db[q][i] * ra - table.da[q][i] * rb) / det;
    }
    p.value = table.value[q];
    p.weight = det * table.weight[q];
  }
  return result;
}

std::vector<EdgePoint> edge_points(const SectionMesh &mesh, const CellFace &face) {
  const LineTable &table = line_table();
  const std::array<int, 3> nodes = edge_nodes(mesh, face);
  std::vector<EdgePoint> result(table.weight.size());
  for (std::size_t q = 0; q < result.size(); ++q) {
    EdgePoint &p = result[q];
    double dr = 0, dz = 0;
    for (int i = 0; i < 3; ++i) {
      const Vec2 &x = mesh.nodes[nodes[i]];
      p.rz[0] += table.value[q][i] * x[0];
      p.rz[1] += table.value[q][i] * x[1];
      dr += table.slope[q][i] * x[0];
      dz += table.slope[q][i] * x[1];
    }
    const double length = std::hypot(dr, dz);
    p.nodes = nodes;
    p.normal = {dz / length, -dr / length};
    p.value = table.value[q];
    p.weight = length * table.weight[q];
  }
  return result;
}

HarmonicCell harmonic_cell(const SectionMesh &mesh, int cell, const Material &material) {
  const double mu = material.youngs_modulus / (2 * (1 + material.poissons_ratio));
  const double lambda = 2 * mu * material.poissons_ratio / (1 - 2 * material.poissons_ratio);
  HarmonicCell k;
  for (const SectionPoint &p : section_points(mesh, cell, 3)) {
    const double volume = p.weight * p.rz[0], l = lambda * volume, m = mu * volume;
    double over_r[9];
    for (int i = 0; i < 9; ++i) over_r[i] = p.value[i] / p.rz[0];
    for (int i = 0; i < 9; ++i) {
      // U,r and U/r, W,z, V,r - V/r of the row's node
      const double a = p.dr[i], b = over_r[i], c = p.dz[i], d = a - b, ab = a + b;
      for (int j = 0; j < 9; ++j) {
        const double e = p.dr[j], f = over_r[j], g = p.dz[j], h = e - f, ef = e + f;
        HarmonicCell::Pair &at = k.pairs[9 * i + j];
        at.uu += l * ab * ef + m * (2 * (a * e + b * f) + c * g);
        at.uw += l * ab * g + m * c * e;
        at.wu += l * c * ef + m * a * g;
        at.ww += (l + 2 * m) * c * g + m * a * e;
        at.vv += m * (d * h + c * g);
        at.uv += l * ab * f + m * b * (2 * f - h);
        at.vu += l * b * ef + m * f * (2 * b - d);
        at.vw += l * b * g - m * c * f;
        at.wv += l * c * f - m * b * g;
        at.shear += m * b * f;
        at.hoop += (l + 2 * m) * b * f;
      }
    }
  }
  return k;
}

CellMatrix cell_matrix(const HarmonicCell &cell, int n) {
  CellMatrix k{};
  const double factor = theta_factor(n);
  for (int i = 0; i < 9; ++i)
    for (int j = 0; j < 9; ++j) {
      const HarmonicCell::Pair &p = cell.pairs[9 * i + j];
      const double block[3][3] = {{p.uu + n * n * p.shear, n * p.uv, p.uw},
                                  {n * p.vu, p.vv + n * n * p.hoop, n * p.vw},
                                  {p.wu, n * p.wv, p.ww + n * n * p.shear}};
      for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c) k[n_local * (3 * i + r) + 3 * j + c] = factor * block[r][c];
    }
  return k;
}

std::vector<double> nodal_forces(const SectionMesh &mesh, const HarmonicLoad &load) {
  std::vector<double> forces(3 * mesh.nodes.size(), 0.);
  const double factor = theta_factor(load.n);
  for (const auto &[name, traction] : load.tractions)
    for (const CellFace &face : edge(mesh, name))
      for (const EdgePoint &p : edge_points(mesh, face)) {
        const HarmonicVector t = traction(p.rz, p.normal);
        for (int i = 0; i < 3; ++i)
          add_at(forces, p.nodes[i], factor * p.weight * p.rz[0] * p.value[i], t);
      }
  if (load.body_force)
    for (int cell = 0; cell < int(mesh.cells.size()); ++cell)
      for (const SectionPoint &p : section_points(mesh, cell, 3)) {
        const HarmonicVector b = load.body_force(p.rz);
        for (int i = 0; i < 9; ++i)
          add_at(forces, mesh.cells[cell][i], factor * p.weight * p.rz[0] * p.value[i], b);
      }
  for (const auto &[name, force] : load.ring_forces) {
    const auto point = mesh.points.find(name);
    if (point == mesh.points.end())
      throw Error("ring force: point '" + name + "': the section has no point of that name");
    add_at(forces, point->second, factor * mesh.nodes[point->second][0], force);
  }
  return forces;
}

}  // namespace felloe::detail
