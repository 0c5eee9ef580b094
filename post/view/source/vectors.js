// SPDX-License-Identifier: GPL-3.0-or-later
// Vectors of three numbers.

export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** a + factor b */
export const plus = (a, b, factor = 1) => [0, 1, 2].map((c) => a[c] + factor * b[c]);
export const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export function unit(v) {
  const length = Math.hypot(...v);
  return v.map((component) => component / length);
}

/** The vector, turned about z. */
export function turned([x, y, z], angle) {
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  return [cosine * x - sine * y, sine * x + cosine * y, z];
}
