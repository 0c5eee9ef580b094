// SPDX-License-Identifier: GPL-3.0-or-later
// Shape-function gradients by deal.II: FE_Q(2) under a quadratic MappingQCache.
#include "solver/detail/hex_geometry.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_tools.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>

#include <string>

#include "mesher/error.h"

namespace felloe::detail {
namespace {

using Cell = dealii::Triangulation<3>::cell_iterator;

dealii::Point<3> point(const Vec3 &x) { return {x[0], x[1], x[2]}; }

/// Corners of the cells, numbered without the nodes between them.
void create(dealii::Triangulation<3> &triangulation, const Mesh &mesh) {
  std::vector<int> vertex_of_node(mesh.nodes.size(), -1);
  std::vector<dealii::Point<3>> vertices;
  std::vector<dealii::CellData<3>> cells(mesh.cells.size());
  for (std::size_t c = 0; c < cells.size(); ++c) {
    for (int v = 0; v < 8; ++v) {
      const int node = mesh.cells[c][2 * (v % 2) + 6 * (v / 2 % 2) + 18 * (v / 4)];
      int &vertex = vertex_of_node[node];
      if (vertex < 0) {
        vertex = static_cast<int>(vertices.size());
        vertices.push_back(point(mesh.nodes[node]));
      }
      cells[c].vertices[v] = vertex;
    }
  }
  triangulation.create_triangulation(vertices, cells, dealii::SubCellData());
}

}  // namespace

struct HexGeometry::Impl {
  dealii::Triangulation<3> triangulation;
  dealii::FE_Q<3> element{2};
  dealii::MappingQCache<3> mapping{2};
  std::vector<unsigned int> lexicographic;  ///< of each of deal.II's 27 local numbers
  std::vector<Cell> cells;                  ///< in the mesh's order
};

HexGeometry::HexGeometry(const Mesh &mesh) : impl_(std::make_unique<Impl>()) {
  Impl &impl = *impl_;
  try {
    create(impl.triangulation, mesh);
  } catch (const dealii::ExceptionBase &e) {
    throw Error(std::string("mesh: the cells do not join into a body: ") + e.get_exc_name() +
                "; mend the mesh");
  }
  impl.lexicographic = dealii::FETools::hierarchic_to_lexicographic_numbering<3>(2);
  impl.mapping.initialize(impl.triangulation, [&](const Cell &cell) {
    std::vector<dealii::Point<3>> support(27);
    for (int i = 0; i < 27; ++i)
      support[i] = point(mesh.nodes[mesh.cells[cell->index()][impl.lexicographic[i]]]);
    return support;
  });
  for (const auto &cell : impl.triangulation.active_cell_iterators()) impl.cells.push_back(cell);
}

HexGeometry::~HexGeometry() = default;

int HexGeometry::n_cells() const { return static_cast<int>(impl_->cells.size()); }

void HexGeometry::visit(int first, int last, CellPoints where,
                        const std::function<void(int, const CellGradients &)> &visitor) const {
  const Impl &impl = *impl_;
  // The three Gauss-Lobatto points of a direction are the ends and the middle: the nodes.
  const dealii::Quadrature<3> points = where == CellPoints::gauss
                                           ? dealii::Quadrature<3>(dealii::QGauss<3>(3))
                                           : dealii::Quadrature<3>(dealii::QGaussLobatto<3>(3));
  dealii::FEValues<3> values(impl.mapping, impl.element, points,
                             dealii::update_gradients | dealii::update_JxW_values);
  CellGradients at;
  at.gradients.resize(points.size());
  at.volume.resize(points.size());
  for (int c = first; c < last; ++c) {
    values.reinit(impl.cells[c]);
    for (unsigned int q = 0; q < points.size(); ++q) {
      at.volume[q] = values.JxW(q);
      if (!(at.volume[q] > 0))
        throw Error("mesh: cell " + std::to_string(c) + ": Jacobian determinant " +
                    std::to_string(at.volume[q] / points.weight(q)) +
                    ": the cell is folded over; mend the mesh");
      for (unsigned int i = 0; i < 27; ++i) {
        const dealii::Tensor<1, 3> &g = values.shape_grad(i, q);
        at.gradients[q][impl.lexicographic[i]] = {g[0], g[1], g[2]};
      }
    }
    visitor(c, at);
  }
}

}  // namespace felloe::detail
