// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as the report prints them.

const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const powerOfTen = (exponent) => '10' + [...String(exponent)].map((digit) => raised[digit]).join('');

/** With so many decimals and a real minus sign. */
export function fixed(value, decimals) {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

/** "45 600" below a million, "1.23 × 10⁶" above, to three figures. */
function cyclesText(cycles) {
  if (cycles > 1e10) return `over ${powerOfTen(10)}`; // beyond any curve's validity
  const rounded = Number(cycles.toPrecision(3));
  if (rounded < 1e6) return String(rounded).replace(/\B(?=(\d{3})+$)/g, '\u202f');
  const [mantissa, exponent] = rounded.toExponential(2).split('e');
  return `${mantissa} × ${powerOfTen(Number(exponent))}`;
}

/** "182.4 MPa", "3.10 × 10⁶ cycles", "infinite", "not computed". */
export function valueText(value, { logarithmic, unit }) {
  if (value === undefined) return 'not computed';
  if (value === Infinity) return 'infinite';
  return `${logarithmic ? cyclesText(value) : fixed(value, 1)} ${unit}`;
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
  if (logarithmic) return powerOfTen(Math.round(Math.log10(value)));
  return String(Number(value.toPrecision(6))).replace('-', '−');
}
