// SPDX-License-Identifier: GPL-3.0-or-later
// The surface as the program wrote it into the page, as typed arrays. One sector is written; the
// others are its copies, turned about the axis of the wheel.
import { turned } from './vectors.js';

/** Bytes of a base64 text in an array of the given type (little endian, as the program writes). */
function decode(text, ArrayType) {
  if (Uint8Array.fromBase64) return new ArrayType(Uint8Array.fromBase64(text).buffer);
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = characters.charCodeAt(i);
  return new ArrayType(bytes.buffer);
}

/**
 * Unit normal of the surface at its point next to the position; on an edge that of both sides.
 * Positions and normals are those of one of `sectors` sectors.
 */
function normalAt(position, positions, normals, sectors) {
  let nearest = Infinity;
  let sum = [0, 0, 0];
  for (let s = 0; s < sectors; ++s) {
    const angle = (2 * Math.PI * s) / sectors;
    const [x, y, z] = turned(position, -angle);
    for (let i = 0; i < positions.length; i += 3) {
      const away = Math.hypot(positions[i] - x, positions[i + 1] - y, positions[i + 2] - z);
      if (away > nearest + 1e-3) continue;
      if (away < nearest - 1e-3) sum = [0, 0, 0];
      nearest = Math.min(nearest, away);
      const normal = turned(normals.subarray(i, i + 3), angle);
      for (let c = 0; c < 3; ++c) sum[c] += normal[c];
    }
  }
  const length = Math.hypot(...sum);
  return length > 0 ? sum.map((c) => c / length) : [0, 0, 1];
}

/**
 * @returns sectors; positions [mm], normals (127 is one) and triangles of the first; edges of all (pairs of
 * positions), colours (CSS, from the low to the high end; one for what lies beyond it), loads with
 * their quantities, hot spots and, of each triangle, 1 where it may not be judged. quantity.at(point) is the value as the program computed it, in
 * single precision; undefined where none was computed.
 */
export function readSurface(data) {
  const positions = decode(data.positions, Float32Array);
  const normals = decode(data.normals, Int8Array);
  const loads = data.loads.map((load) => ({
    ...load,
    hot_spots: load.hot_spots.map((spot) => ({
      ...spot,
      /** Looked for when the place is flown to. */
      get normal() {
        return normalAt(spot.position, positions, normals, data.sectors);
      },
    })),
    grey: decode(load.grey, Uint8Array),
    quantities: load.quantities.map((quantity) => {
      const values = decode(quantity.values, Float32Array);
      const at = (point) => (Number.isNaN(values[point]) ? undefined : values[point]);
      return { ...quantity, at };
    }),
  }));
  return {
    ...data,
    positions,
    normals,
    triangles: decode(data.triangles, Uint32Array),
    edges: decode(data.edges, Float32Array),
    loads,
  };
}
