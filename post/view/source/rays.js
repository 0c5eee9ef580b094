// SPDX-License-Identifier: GPL-3.0-or-later
// Where a straight line meets the surface from outside. The loops make no objects: clearing those
// away would cost a browser that draws by the processor more than the search.
import { plus, turned } from './vectors.js';

const perBlock = 32; // triangles, which follow each other on the surface

/**
 * Balls round blocks of triangles, of which a line meets few.
 * @returns four numbers a ball: centre and square of the radius
 */
function balls({ positions, triangles }) {
  const all = new Float64Array(4 * Math.ceil(triangles.length / (3 * perBlock)));
  for (let b = 0; 4 * b < all.length; ++b) {
    const end = Math.min(3 * perBlock * (b + 1), triangles.length);
    let square = 0;
    for (let c = 0; c < 3; ++c) {
      let low = Infinity;
      let high = -Infinity;
      for (let i = 3 * perBlock * b; i < end; ++i) {
        const x = positions[3 * triangles[i] + c];
        if (x < low) low = x;
        if (x > high) high = x;
      }
      all[4 * b + c] = (low + high) / 2;
      square += ((high - low) / 2) ** 2;
    }
    all[4 * b + 3] = square * (1 + 1e-9) + 1e-9;
  }
  return all;
}

export class Rays {
  /** @param surface  sectors, positions, triangles */
  constructor(surface) {
    this.surface = surface;
  }

  /**
   * The first place on the way from `start` along the unit vector `direction` where the surface is
   * entered.
   * @returns position, triangle and angle of its sector [rad]; undefined where there is none
   */
  first(start, direction) {
    this.balls ??= balls(this.surface); // nobody may ask
    const { sectors } = this.surface;
    let nearest;
    for (let s = 0; s < sectors; ++s) {
      const angle = (2 * Math.PI * s) / sectors;
      const found = this.inFirstSector(turned(start, -angle), turned(direction, -angle));
      if (found.triangle >= 0 && !(found.way >= nearest?.way)) nearest = { ...found, angle };
    }
    return nearest && { ...nearest, position: plus(start, direction, nearest.way) };
  }

  /** Triangle (-1: none) and way to it. */
  inFirstSector(start, direction) {
    const all = this.balls;
    const triangles = this.surface.triangles.length / 3;
    let triangle = -1;
    let way = Infinity;
    for (let b = 0; 4 * b < all.length; ++b) {
      const x = all[4 * b] - start[0];
      const y = all[4 * b + 1] - start[1];
      const z = all[4 * b + 2] - start[2];
      const along = x * direction[0] + y * direction[1] + z * direction[2];
      if (x * x + y * y + z * z - along * along > all[4 * b + 3]) continue;
      const end = Math.min(perBlock * (b + 1), triangles);
      for (let t = perBlock * b; t < end; ++t) {
        const wayThere = this.wayTo(t, start, direction);
        if (wayThere >= 0 && wayThere < way) {
          way = wayThere;
          triangle = t;
        }
      }
    }
    return { triangle, way };
  }

  /** Not-a-number where the line misses the triangle or leaves it. After Moeller and Trumbore. */
  wayTo(triangle, start, direction) {
    const { positions: p, triangles } = this.surface;
    const a = 3 * triangles[3 * triangle];
    const b = 3 * triangles[3 * triangle + 1];
    const c = 3 * triangles[3 * triangle + 2];
    const bx = p[b] - p[a];
    const by = p[b + 1] - p[a + 1];
    const bz = p[b + 2] - p[a + 2];
    const cx = p[c] - p[a];
    const cy = p[c + 1] - p[a + 1];
    const cz = p[c + 2] - p[a + 2];
    const dx = direction[0];
    const dy = direction[1];
    const dz = direction[2];
    const acrossX = dy * cz - dz * cy;
    const acrossY = dz * cx - dx * cz;
    const acrossZ = dx * cy - dy * cx;
    const against = bx * acrossX + by * acrossY + bz * acrossZ;
    if (!(against > 0)) return NaN; // positive where the line comes from outside
    const x = start[0] - p[a];
    const y = start[1] - p[a + 1];
    const z = start[2] - p[a + 2];
    const u = x * acrossX + y * acrossY + z * acrossZ;
    if (u < 0 || u > against) return NaN;
    const otherX = y * bz - z * by;
    const otherY = z * bx - x * bz;
    const otherZ = x * by - y * bx;
    const v = dx * otherX + dy * otherY + dz * otherZ;
    if (v < 0 || u + v > against) return NaN;
    return (cx * otherX + cy * otherY + cz * otherZ) / against;
  }

  /** Positions in the first sector. */
  cornersOf(triangle) {
    const { positions, triangles } = this.surface;
    return [0, 1, 2].map((corner) => {
      const at = 3 * triangles[3 * triangle + corner];
      return [positions[at], positions[at + 1], positions[at + 2]];
    });
  }
}
