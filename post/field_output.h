// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes and fields for viewers that read VTK files.
#pragma once
#include <memory>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// Values at the nodes (or in the cells): all components of the first node, then of the
/// second, ...
/// 6 components are a symmetric tensor in the order XX YY ZZ XY YZ XZ, the order of Stress.
struct PointField {
  std::string name;    ///< with its unit: "stress amplitude [MPa]"
  int components = 1;  ///< 1, 3 or 6
  std::vector<double> values;
};
using CellField = PointField;

/// Names of the fields of a run.
namespace field_names {
constexpr const char *displacement = "displacement [mm]";
constexpr const char *stress = "stress [MPa]";
constexpr const char *stress_amplitude = "stress amplitude [MPa]";
constexpr const char *mean_stress = "mean stress [MPa]";
constexpr const char *utilisation = "share of allowed stress [%]";  ///< not-a-number: not rated
constexpr const char *life = "life [cycles]";
constexpr const char *stress_error = "stress error [%]";
constexpr const char *von_mises = "von Mises stress [MPa]";
constexpr const char *rated = "rated";  ///< 1 where the stress may be judged, else 0
constexpr const char *part = "part";    ///< of each cell: 0 disc, 1 rim, 2 weld
}  // namespace field_names

/// Infinite lives are written as this number: far above the life of any wheel, yet small enough
/// that a logarithmic colour scale or a contour at 1e6 cycles still shows the finite lives, which
/// neither infinity nor not-a-number allow in viewers.
constexpr double infinite_life_in_fields = 1e12;

/// Writes an unstructured grid (.vtu, compressed binary) of triquadratic hexahedra with 27 nodes,
/// node numbers as in the mesh, with the cell field "part" and the given fields: nodes in double,
/// fields in single precision, which no viewer shows more of. Infinity becomes
/// infinite_life_in_fields; not-a-number stays ("not computed").
/// @param cells  a piece of the mesh: these cells and their nodes, in the order of the mesh; empty:
///               all of it. Fields are those of the whole mesh.
/// Error when the file can't be written; std::logic_error when a field does not fit the mesh.
void write_vtu(const std::string &path, const Mesh &, const std::vector<PointField> &,
               const std::vector<CellField> & = {}, const std::vector<int> &cells = {});

/// The volume of one mesh in several files: what they share is made and compressed once.
class VolumeFiles {
 public:
  explicit VolumeFiles(const Mesh &);
  ~VolumeFiles();
  /// As write_vtu(). Threads may write different files at the same time.
  void write(const std::string &path, const std::vector<PointField> &,
             const std::vector<CellField> & = {}) const;

 private:
  struct Shared;
  std::unique_ptr<const Shared> shared_;
};

/// Cells of one of n pieces of equal size, ascending: those within an angle round the axis.
std::vector<int> cells_of_piece(const Mesh &, int piece, int n_pieces);

/// Writes the file (.pvtu) that makes pieces one grid again; `pieces` relative to its folder, of
/// the fields names and components. Error when the file can't be written.
void write_pvtu(const std::string &path, const std::vector<std::string> &pieces,
                const std::vector<PointField> &);

/// One file of a collection: load cases, or angles of a load, are steps of a collection, so that a
/// viewer can step through them.
struct CollectionFile {
  double step = 0;   ///< shown by viewers as time: a number, or an angle [deg]
  std::string file;  ///< relative to the folder of the collection
  std::string name;  ///< of the load case or block
};

/// Writes the collection (.pvd). Error when the file can't be written.
void write_pvd(const std::string &path, const std::vector<CollectionFile> &);

}  // namespace felloe
