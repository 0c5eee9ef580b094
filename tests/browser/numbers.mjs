// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as a page prints them, read back.
import assert from 'node:assert/strict';

const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/**
 * "48 600", "−12.3 MPa", "1.23 × 10⁶ cycles", "infinite" as a value with half a unit of its last
 * digit; undefined when the text begins with no number.
 */
export function figure(text) {
  if (text.startsWith('infinite')) return { value: Infinity, half: 0 };
  const plain = text.replace(/[\u202f\u2009\u00a0 ](?=\d{3})/g, '').replace('−', '-');
  const found = plain.match(/^(-?\d+(?:\.(\d+))?)(?:e(\d+)|\s*×\s*10([⁰¹²³⁴⁵⁶⁷⁸⁹]+))?/);
  if (!found) return undefined;
  const exponent = found[4]
    ? Number([...found[4]].map((digit) => raised.indexOf(digit)).join(''))
    : Number(found[3] ?? 0);
  const scale = 10 ** exponent;
  return { value: Number(found[1]) * scale, half: 0.5 * scale * 10 ** -(found[2]?.length ?? 0) };
}

/** The printed figure is the value, rounded. `digits`: significant ones of round large numbers. */
export function assertShows(text, value, what, digits = 3) {
  if (value === 'infinite') {
    assert.ok(text.startsWith('infinite'), `${what}: '${text}' is not infinite`);
    return;
  }
  if (text.startsWith('over 10¹⁰') || text.startsWith('>1e10')) {
    assert.ok(value > 1e10, `${what}: '${text}' for ${value}`);
    return;
  }
  const read = figure(text);
  assert.ok(read, `${what}: no figure in '${text}'`);
  const trailing = value !== 0 ? 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - digits) : 0;
  const half = Math.abs(value) >= 1000 ? Math.max(read.half, trailing) : read.half;
  assert.ok(
    Math.abs(read.value - value) <= half * (1 + 1e-6) + 1e-12,
    `${what}: '${text}' for ${value}`,
  );
}
