// SPDX-License-Identifier: GPL-3.0-or-later
// The surface as the program wrote it into the page, as typed arrays. One sector is written; the
// others are its copies, turned about the axis of the wheel.

/** Bytes of a base64 text in an array of the given type (little endian, as the program writes). */
function decode(text, ArrayType) {
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = characters.charCodeAt(i);
  return new ArrayType(bytes.buffer);
}

/** Vectors of all sectors: those of the first, turned about z. */
function turned(vectors, sectors) {
  const all = new Float32Array(sectors * vectors.length);
  for (let s = 0; s < sectors; ++s) {
    const angle = (2 * Math.PI * s) / sectors;
    const cosine = Math.cos(angle);
    const sine = Math.sin(angle);
    for (let i = 0, at = s * vectors.length; i < vectors.length; i += 3, at += 3) {
      all[at] = cosine * vectors[i] - sine * vectors[i + 1];
      all[at + 1] = sine * vectors[i] + cosine * vectors[i + 1];
      all[at + 2] = vectors[i + 2];
    }
  }
  return all;
}

function repeatedIndices(indices, sectors, points) {
  const all = new Uint32Array(sectors * indices.length);
  for (let s = 0; s < sectors; ++s)
    for (let i = 0; i < indices.length; ++i) all[s * indices.length + i] = indices[i] + s * points;
  return all;
}

/** Unit normal of the surface at its point next to the position; on an edge that of both sides. */
function normalAt(position, positions, normals) {
  let nearest = Infinity;
  let sum = [0, 0, 0];
  for (let i = 0; i < positions.length; i += 3) {
    const away = Math.hypot(...[0, 1, 2].map((c) => positions[i + c] - position[c]));
    if (away > nearest + 1e-3) continue;
    if (away < nearest - 1e-3) sum = [0, 0, 0];
    nearest = Math.min(nearest, away);
    for (let c = 0; c < 3; ++c) sum[c] += normals[i + c];
  }
  const length = Math.hypot(...sum);
  return length > 0 ? sum.map((c) => c / length) : [0, 0, 1];
}

/**
 * @returns points: how many there are in all; positions [mm], normals, triangles, edges (pairs of
 * positions), colours (CSS, from the low to the high end; one for what lies beyond it), loads with
 * their quantities and hot spots. quantity.at(point) is the value as the program computed it, in single precision;
 * undefined where none was computed.
 */
export function readSurface(data) {
  const { sectors } = data;
  const positions = decode(data.positions, Float32Array);
  const pointsOfSector = positions.length / 3;
  const normals = Float32Array.from(decode(data.normals, Int8Array), (component) => component / 127);
  const all = turned(positions, sectors);
  const allNormals = turned(normals, sectors);
  const loads = data.loads.map((load) => ({
    ...load,
    hot_spots: load.hot_spots.map((spot) => ({
      ...spot,
      normal: normalAt(spot.position, all, allNormals),
    })),
    quantities: load.quantities.map((quantity) => {
      const values = decode(quantity.values, Float32Array);
      const at = (point) => {
        const value = values[point % pointsOfSector];
        return Number.isNaN(value) ? undefined : value;
      };
      return { ...quantity, at };
    }),
  }));
  return {
    points: sectors * pointsOfSector,
    positions: all,
    normals: allNormals,
    triangles: repeatedIndices(decode(data.triangles, Uint32Array), sectors, pointsOfSector),
    edges: decode(data.edges, Float32Array),
    colours: data.colours,
    beyond: data.beyond,
    loads,
  };
}
