// SPDX-License-Identifier: GPL-3.0-or-later
// Maximum likelihood with run-outs: NLopt climbs, in orthonormal columns so that it climbs well.
#include "post/censored_fit.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <functional>
#include <limits>
#include <nlopt.hpp>
#include <string>

#include "mesher/error.h"

namespace felloe {
namespace {

using Vector = std::vector<double>;
using Matrix = std::vector<Vector>;
constexpr double infinity = std::numeric_limits<double>::infinity();

/// ln f(z) or ln(1 - F(z)) with its first two derivatives.
struct Term {
  double value, first, second;
};

Term term(LogDistribution distribution, bool run_out, double z) {
  if (distribution == LogDistribution::smallest_extreme) {
    const double e = std::exp(std::min(z, 700.0));
    return run_out ? Term{-e, -e, -e} : Term{z - e, 1 - e, -e};
  }
  static const double log_root = 0.5 * std::log(2 * 3.14159265358979323846);
  if (!run_out) return {-0.5 * z * z - log_root, -z, -1};
  // beyond z = 30 the first terms of the asymptotic series are exact to rounding
  const double log_above = z < 30 ? std::log(0.5 * boost::math::erfc(z / std::sqrt(2.0)))
                                  : -0.5 * z * z - log_root - std::log(z) - 1 / (z * z);
  const double hazard = std::exp(-0.5 * z * z - log_root - log_above);
  return {log_above, -hazard, -hazard * (hazard - z)};
}

/// The sample with columns turned into orthonormal ones: x = q r, gamma = r beta.
class Climb {
 public:
  Climb(const CensoredSample &sample, LogDistribution distribution)
      : sample_(sample), distribution_(distribution), q_(sample.x) {
    const std::size_t p = n_columns();
    r_.assign(p, Vector(p));
    for (std::size_t j = 0; j < p; ++j) {
      double before = 0;
      for (const auto &row : q_) before += row[j] * row[j];
      for (int twice = 0; twice < 2; ++twice)  // the second pass removes rounding of the first
        for (std::size_t k = 0; k < j; ++k) {
          double product = 0;
          for (const auto &row : q_) product += row[k] * row[j];
          r_[k][j] += product;
          for (auto &row : q_) row[j] -= product * row[k];
        }
      double rest = 0;
      for (const auto &row : q_) rest += row[j] * row[j];
      if (!(rest > 1e-20 * before))
        throw Error(
            "fit: all loads are equal or the line has more constants than there are loads; "
            "add lives at another load");
      r_[j][j] = std::sqrt(rest);
      for (auto &row : q_) row[j] /= r_[j][j];
    }
  }

  std::size_t n_columns() const { return sample_.x.front().size(); }

  /// Log-likelihood at (gamma, ln scale); gradient and curvature where asked for.
  double likelihood(const Vector &at, Vector *gradient, Matrix *curvature = nullptr) const {
    const std::size_t p = n_columns();
    const double s = std::exp(at[p]);
    if (gradient) gradient->assign(p + 1, 0);
    if (curvature) curvature->assign(p + 1, Vector(p + 1, 0));
    double sum = 0;
    for (std::size_t i = 0; i < sample_.y.size(); ++i) {
      double location = 0;
      for (std::size_t j = 0; j < p; ++j) location += q_[i][j] * at[j];
      const double z = (sample_.y[i] - location) / s;
      const Term t = term(distribution_, sample_.run_out[i], z);
      sum += t.value - (sample_.run_out[i] ? 0 : at[p]);
      if (gradient) {
        for (std::size_t j = 0; j < p; ++j) (*gradient)[j] -= t.first * q_[i][j] / s;
        (*gradient)[p] -= z * t.first + (sample_.run_out[i] ? 0 : 1);
      }
      if (!curvature) continue;
      for (std::size_t j = 0; j < p; ++j) {
        for (std::size_t k = 0; k < p; ++k)
          (*curvature)[j][k] += t.second * q_[i][j] * q_[i][k] / (s * s);
        const double mixed = (t.second * z + t.first) * q_[i][j] / s;
        (*curvature)[j][p] += mixed;
        (*curvature)[p][j] += mixed;
      }
      (*curvature)[p][p] += t.second * z * z + t.first * z;
    }
    return sum;
  }

  /// Least squares with run-outs taken as failures.
  Vector start() const {
    const std::size_t p = n_columns();
    Vector at(p + 1, 0);
    for (std::size_t i = 0; i < q_.size(); ++i)
      for (std::size_t j = 0; j < p; ++j) at[j] += q_[i][j] * sample_.y[i];
    double squares = 0;
    for (std::size_t i = 0; i < q_.size(); ++i) {
      double rest = sample_.y[i];
      for (std::size_t j = 0; j < p; ++j) rest -= q_[i][j] * at[j];
      squares += rest * rest;
    }
    const double s = std::sqrt(squares / static_cast<double>(q_.size()));
    if (!(s > 1e-9))
      throw Error("fit: the lives lie on a line without any scatter; add further lives");
    at[p] = std::log(s);
    return at;
  }

  Vector beta(const Vector &gamma) const {
    const std::size_t p = n_columns();
    Vector b(p);
    for (std::size_t j = p; j-- > 0;) {
      b[j] = gamma[j];
      for (std::size_t k = j + 1; k < p; ++k) b[j] -= r_[j][k] * b[k];
      b[j] /= r_[j][j];
    }
    return b;
  }
  Vector gamma(const Vector &beta) const {
    Vector g(n_columns(), 0);
    for (std::size_t j = 0; j < g.size(); ++j)
      for (std::size_t k = j; k < g.size(); ++k) g[j] += r_[j][k] * beta[k];
    return g;
  }
  /// Coefficients for gamma that give the same sum as c for beta: r^T result = c.
  Vector turned(const Vector &c) const {
    Vector t(n_columns());
    for (std::size_t j = 0; j < t.size(); ++j) {
      t[j] = c[j];
      for (std::size_t k = 0; k < j; ++k) t[j] -= r_[k][j] * t[k];
      t[j] /= r_[j][j];
    }
    return t;
  }

 private:
  const CensoredSample &sample_;
  LogDistribution distribution_;
  Matrix q_, r_;
};

using Function = std::function<double(const Vector &, Vector &)>;

double call(const std::vector<double> &at, std::vector<double> &gradient, void *function) {
  return (*static_cast<Function *>(function))(at, gradient);
}

/// Climbs from `at`; returns the top's height.
double climb(Function f, Vector &at) {
  nlopt::opt search(nlopt::LD_SLSQP, static_cast<unsigned>(at.size()));
  search.set_max_objective(call, &f);
  search.set_xtol_rel(1e-12);
  search.set_ftol_abs(1e-13);
  search.set_maxeval(2000);
  // the logarithm of the scale may not run away to a line without scatter
  Vector low(at.size(), -HUGE_VAL), high(at.size(), HUGE_VAL);
  low.back() = at.back() - 12;
  high.back() = at.back() + 12;
  search.set_lower_bounds(low);
  search.set_upper_bounds(high);
  double top = 0;
  try {
    search.optimize(at, top);
  } catch (const nlopt::roundoff_limited &) {
    Vector none;
    top = f(at, none);  // as near as rounding allows
  } catch (const std::runtime_error &e) {
    throw Error(std::string("fit: the search for the most likely line failed: ") + e.what() +
                "; look for wrong lives in the file");
  }
  if (!std::isfinite(top))
    throw Error("fit: no line is likely at all; look for wrong lives in the file");
  return top;
}

/// Inverse of a small positive definite matrix; Error when it is none.
Matrix inverse(Matrix a) {
  const std::size_t n = a.size();
  Matrix b(n, Vector(n, 0));
  for (std::size_t i = 0; i < n; ++i) b[i][i] = 1;
  for (std::size_t k = 0; k < n; ++k) {
    const double pivot = a[k][k];
    if (!(pivot > 0) || !std::isfinite(pivot))
      throw Error("fit: the lives do not bound the line; add failures at another load");
    for (std::size_t j = 0; j < n; ++j) a[k][j] /= pivot, b[k][j] /= pivot;
    for (std::size_t i = 0; i < n; ++i) {
      const double f = a[i][k];
      if (i == k || f == 0) continue;
      for (std::size_t j = 0; j < n; ++j) a[i][j] -= f * a[k][j], b[i][j] -= f * b[k][j];
    }
  }
  return b;
}

void put_covariance(const Climb &surface, const Vector &top, CensoredFit &fit) {
  const std::size_t p = surface.n_columns();
  Vector gradient;
  Matrix curvature;
  surface.likelihood(top, &gradient, &curvature);
  for (auto &row : curvature)
    for (double &v : row) v = -v;
  const Matrix inner = inverse(curvature);
  // rows of the change from (gamma, ln scale) to (beta, scale)
  Matrix change(p + 1, Vector(p + 1, 0));
  for (std::size_t j = 0; j < p; ++j) {
    Vector unit(p, 0);
    unit[j] = 1;
    const Vector t = surface.turned(unit);
    std::copy(t.begin(), t.end(), change[j].begin());
  }
  change[p][p] = fit.scale;
  fit.covariance.assign(p + 1, Vector(p + 1, 0));
  for (std::size_t a = 0; a <= p; ++a)
    for (std::size_t b = 0; b <= p; ++b)
      for (std::size_t i = 0; i <= p; ++i)
        for (std::size_t j = 0; j <= p; ++j)
          fit.covariance[a][b] += change[a][i] * inner[i][j] * change[b][j];
}

/// Best log-likelihood where c . (gamma, scale) = v: gamma[out] follows from the others.
class Profile {
 public:
  Profile(const Climb &surface, Vector c, const Vector &top)
      : surface_(surface), c_(std::move(c)), warm_(top) {
    for (std::size_t j = 1; j < surface.n_columns(); ++j)
      if (std::fabs(c_[j]) > std::fabs(c_[out_])) out_ = j;
    warm_.erase(warm_.begin() + static_cast<std::ptrdiff_t>(out_));
  }

  double operator()(double v) {
    const std::size_t p = surface_.n_columns();
    const auto full = [&](const Vector &rest) {
      Vector at = rest;
      at.insert(at.begin() + static_cast<std::ptrdiff_t>(out_), 0.0);
      double sum = v - c_[p] * std::exp(at[p]);
      for (std::size_t j = 0; j < p; ++j)
        if (j != out_) sum -= c_[j] * at[j];
      at[out_] = sum / c_[out_];
      return at;
    };
    return climb(
        [&](const Vector &rest, Vector &gradient) {
          const Vector at = full(rest);
          Vector all;
          const double value = surface_.likelihood(at, gradient.empty() ? nullptr : &all);
          if (gradient.empty()) return value;
          for (std::size_t j = 0, k = 0; j <= p; ++j) {
            if (j == out_) continue;
            const double slope = j == p ? c_[p] * std::exp(at[p]) : c_[j];
            gradient[k++] = all[j] - all[out_] * slope / c_[out_];
          }
          return value;
        },
        warm_);
  }

 private:
  const Climb &surface_;
  Vector c_, warm_;
  std::size_t out_ = 0;
};

}  // namespace

double standard_quantile(LogDistribution distribution, double p) {
  if (distribution == LogDistribution::smallest_extreme) return std::log(-std::log1p(-p));
  return boost::math::quantile(boost::math::normal(), p);
}

CensoredFit censored_fit(const CensoredSample &sample, LogDistribution distribution) {
  const std::size_t p = sample.x.empty() ? 0 : sample.x.front().size();
  std::size_t failures = 0;
  for (const bool r : sample.run_out) failures += r ? 0 : 1;
  if (p == 0 || failures < p + 1)
    throw Error("fit: " + std::to_string(failures) + " failures: too few for " +
                std::to_string(p + 1) + " unknowns; at least " + std::to_string(p + 1) +
                " are needed, better ten");
  const Climb surface(sample, distribution);
  Vector at = surface.start();
  CensoredFit fit;
  fit.distribution = distribution;
  fit.log_likelihood = climb(
      [&](const Vector &x, Vector &gradient) {
        return surface.likelihood(x, gradient.empty() ? nullptr : &gradient);
      },
      at);
  fit.beta = surface.beta(at);
  fit.scale = std::exp(at[p]);
  put_covariance(surface, at, fit);
  return fit;
}

Bounds likelihood_bounds(const CensoredSample &sample, const CensoredFit &fit, const Vector &c,
                         double confidence) {
  const Climb surface(sample, fit.distribution);
  const std::size_t p = fit.beta.size();
  Vector top = surface.gamma(fit.beta), turned = surface.turned(c);
  top.push_back(std::log(fit.scale));
  turned.push_back(c[p]);
  double value = c[p] * fit.scale, variance = 0;
  for (std::size_t j = 0; j < p; ++j) value += c[j] * fit.beta[j];
  for (std::size_t i = 0; i <= p; ++i)
    for (std::size_t j = 0; j <= p; ++j) variance += c[i] * c[j] * fit.covariance[i][j];
  const double step = std::sqrt(variance);
  const double drop = 0.5 * boost::math::quantile(boost::math::chi_squared(1), confidence);
  const auto end = [&](double direction) {
    Profile profile(surface, turned, top);
    const auto above = [&](double t) {
      return profile(value + direction * t) - (fit.log_likelihood - drop);
    };
    double near = 0, far = 2 * step, at_near = drop, at_far = above(far);
    while (at_far > 0) {
      if (far > 200 * step) return direction * infinity;
      near = far, at_near = at_far;
      far *= 1.6;
      at_far = above(far);
    }
    boost::uintmax_t rounds = 60;
    const auto root = boost::math::tools::toms748_solve(
        above, near, far, at_near, at_far, boost::math::tools::eps_tolerance<double>(30), rounds);
    return value + direction * 0.5 * (root.first + root.second);
  };
  return {end(-1), end(+1)};
}

}  // namespace felloe
