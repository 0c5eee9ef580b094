// SPDX-License-Identifier: GPL-3.0-or-later
// The rectangle of a plot: places data, draws grid, ticks and labels.
#pragma once
#include <string>
#include <vector>

#include "post/plot/axis.h"
#include "post/svg.h"

namespace felloe {

struct PlotMargins {
  double left = 58, right = 16, top = 22, bottom = 46;
};

class PlotFrame {
 public:
  PlotFrame(double width, double height, PlotAxis x, PlotAxis y, PlotMargins = {});

  Pixel at(double x, double y) const;
  /// at(), moved to the nearest point of the rectangle.
  Pixel held_in(double x, double y) const;
  bool holds(double x, double y) const;

  double left() const { return m_.left; }
  double right() const { return width_ - m_.right; }
  double top() const { return m_.top; }
  double bottom() const { return height_ - m_.bottom; }
  double width() const { return width_; }
  double height() const { return height_; }
  const PlotAxis &x() const { return x_; }
  const PlotAxis &y() const { return y_; }

  void draw(Svg &) const;
  /// The parts of a curve inside the rectangle, cut at its border.
  void curve(Svg &, const std::vector<std::array<double, 2>> &points,
             const std::string &style) const;

 private:
  double width_, height_;
  PlotAxis x_, y_;
  PlotMargins m_;
};

/// Rules of the style sheet that all plots share: axes, grid, curves and the colours of series.
std::string plot_style();

/// Class of the n-th series: fill and stroke in its colour ("series-2").
std::string series_class(int n);

/// The mark of the n-th series for a line of text or a table.
std::string series_key(int n);

}  // namespace felloe
