// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as the report prints them.

/** "182.4 MPa", "3.1e+06 cycles", "infinite", "not computed". */
export function valueText(value, quantity) {
  if (value === undefined) return 'not computed';
  if (quantity.logarithmic) {
    if (value === Infinity) return 'infinite';
    return `${value.toExponential(1)} ${quantity.unit}`;
  }
  return `${value.toFixed(1)} ${quantity.unit}`;
}

/** r, theta, z of a point of the wheel frame. */
export function cylindrical([x, y, z]) {
  let theta = (Math.atan2(y, x) * 180) / Math.PI;
  if (theta < -1e-9) theta += 360;
  return { r: Math.hypot(x, y), theta, z };
}

/** Round values between the ends of a scale, 4 to 8 of them; whole decades on a logarithmic one. */
export function ticks({ low, high, logarithmic }) {
  const values = [];
  if (logarithmic) {
    for (let e = Math.ceil(Math.log10(low) - 1e-9); e <= Math.log10(high) + 1e-9; ++e)
      values.push(10 ** e);
    return values;
  }
  const span = high - low;
  const power = 10 ** Math.floor(Math.log10(span));
  const step = [0.1, 0.2, 0.25, 0.5, 1, 2].map((f) => f * power).find((s) => span / s <= 8);
  for (let i = Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * span; ++i)
    values.push(i * step);
  return values;
}

export function tickText(value, { logarithmic }) {
  if (logarithmic) return `1e${Math.round(Math.log10(value))}`;
  return String(Number(value.toPrecision(6)));
}
