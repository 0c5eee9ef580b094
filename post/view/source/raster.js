// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel as a picture in memory: triangles and sharp edges with a depth buffer. The processor
// draws it in less time than a browser takes to set up a graphics card, and where there is none, in
// less than a stand-in takes for each picture. The loops make no objects.
import { coloursBetween, greyRgb, rgb } from './scale.js';

const shades = 64; // of every colour, dark to light
const levels = 256; // of the colour scale; two more columns are what lies beyond it, and grey
const columns = levels + 2;
const white = 0xffffffff;
const ink = 0xff362e2b; // alpha, blue, green, red
const steepest = 1; // mm that a surface seen from the side is set back behind its edges

// From above left behind the eye, as in the pictures of the report.
const light = [-0.5, 0.6, 1].map((c) => c / Math.hypot(0.5, 0.6, 1));
const ambient = 0.74;
const brightest = 0.3 / (1 - ambient); // towards the light; more than 1 is no brighter

/** Colours as four bytes each, shade by shade. */
function colourTable(colours, beyond) {
  const table = new Uint32Array(shades * columns);
  const scale = [...coloursBetween(colours, levels), rgb(beyond), greyRgb];
  for (let column = 0; column < columns; ++column) {
    const [red, green, blue] = scale[column];
    for (let shade = 0; shade < shades; ++shade) {
      const brightness = 255 * (ambient + ((1 - ambient) * shade) / (shades - 1));
      table[shade * columns + column] =
        (0xff << 24) | ((brightness * blue) << 16) | ((brightness * green) << 8) | (brightness * red);
    }
  }
  return table;
}

export class Raster {
  /** @param surface  sectors, positions [mm], normals (bytes, 127 is one), triangles, edges */
  constructor(surface) {
    this.surface = surface;
    const points = surface.positions.length / 3;
    this.seen = new Float32Array(3 * points); // pixel and height towards the eye, of one sector
    this.shade = new Float32Array(points);
    this.level = new Float32Array(points);
    this.width = this.height = 0;
  }

  /** Of each triangle 1 where it has no colour. */
  setGrey(grey) {
    this.grey = grey;
  }

  /**
   * @param at      fraction of the scale at a point; undefined where there is no value
   * @param colours CSS, from the low to the high end; `beyond`: of what lies above it
   */
  setColours(at, colours, beyond) {
    for (let i = 0; i < this.level.length; ++i) {
      const fraction = at(i);
      this.level[i] =
        fraction === undefined ? -1e6 : (levels - 1) * Math.min(Math.max(fraction, -1), 2);
    }
    this.table = colourTable(colours, beyond);
  }

  /**
   * Draws what the camera sees.
   * @param fineness  pixels of the picture along one pixel of the camera
   * @returns an ImageData, valid until the next call
   */
  draw(camera, fineness) {
    this.clear(Math.round(fineness * camera.width), Math.round(fineness * camera.height));
    const { sectors } = this.surface;
    for (let s = 0; s < sectors; ++s) {
      const angle = (2 * Math.PI * s) / sectors;
      this.project(camera, Math.cos(angle), Math.sin(angle));
      this.drawTriangles();
    }
    this.drawEdges(camera, fineness);
    return this.image;
  }

  clear(width, height) {
    if (width !== this.width || height !== this.height) {
      Object.assign(this, { width, height });
      this.image = new ImageData(width, height);
      this.pixels = new Uint32Array(this.image.data.buffer);
      this.depth = new Float32Array(width * height);
    }
    this.pixels.fill(white);
    this.depth.fill(-Infinity);
  }

  /** Pixel, height towards the eye and shade of every point of a sector. */
  project(camera, cosine, sine) {
    const { positions, normals } = this.surface;
    const { seen, shade, width, height } = this;
    const { right, up, towardsEye: eye, target } = camera;
    const perLength = width / (camera.width * camera.pixelLength);
    const towardsLight = [0, 1, 2].map((c) => light[0] * right[c] + light[1] * up[c] + light[2] * eye[c]);
    for (let i = 0; i < shade.length; ++i) {
      const px = positions[3 * i];
      const py = positions[3 * i + 1];
      const x = cosine * px - sine * py - target[0];
      const y = sine * px + cosine * py - target[1];
      const z = positions[3 * i + 2] - target[2];
      seen[3 * i] = width / 2 + perLength * (x * right[0] + y * right[1] + z * right[2]);
      seen[3 * i + 1] = height / 2 - perLength * (x * up[0] + y * up[1] + z * up[2]);
      seen[3 * i + 2] = x * eye[0] + y * eye[1] + z * eye[2];
      const nx = cosine * normals[3 * i] - sine * normals[3 * i + 1];
      const ny = sine * normals[3 * i] + cosine * normals[3 * i + 1];
      const nz = normals[3 * i + 2];
      const facing = (nx * towardsLight[0] + ny * towardsLight[1] + nz * towardsLight[2]) / 127;
      shade[i] = (shades - 1) * Math.min(Math.max(facing, 0) * brightest, 1);
    }
  }

  /** Those that turn their outside to the eye. */
  drawTriangles() {
    const { triangles } = this.surface;
    const { seen } = this;
    for (let t = 0; 3 * t < triangles.length; ++t) {
      const a = 3 * triangles[3 * t];
      const b = 3 * triangles[3 * t + 1];
      const c = 3 * triangles[3 * t + 2];
      const area =
        (seen[b] - seen[a]) * (seen[c + 1] - seen[a + 1]) -
        (seen[b + 1] - seen[a + 1]) * (seen[c] - seen[a]);
      if (area < -1e-9) this.drawTriangle(t, a / 3, b / 3, c / 3, area); // y runs downwards
    }
  }

  drawTriangle(t, a, b, c, area) {
    const { seen, shade, level, width } = this;
    const ax = seen[3 * a];
    const ay = seen[3 * a + 1];
    const bx = seen[3 * b] - ax;
    const by = seen[3 * b + 1] - ay;
    const cx = seen[3 * c] - ax;
    const cy = seen[3 * c + 1] - ay;
    const left = Math.max(0, Math.ceil(ax + Math.min(0, bx, cx) - 0.5));
    const end = Math.min(width - 1, Math.floor(ax + Math.max(0, bx, cx) - 0.5));
    const top = Math.max(0, Math.ceil(ay + Math.min(0, by, cy) - 0.5));
    const bottom = Math.min(this.height - 1, Math.floor(ay + Math.max(0, by, cy) - 0.5));
    if (left > end || top > bottom) return;
    // Shares u of corner b and v of corner c grow evenly along x and y.
    const ux = cy / area;
    const uy = -cx / area;
    const vx = -by / area;
    const vy = bx / area;
    const az = seen[3 * a + 2];
    const bz = seen[3 * b + 2] - az;
    const cz = seen[3 * c + 2] - az;
    const slope = Math.abs(bz * ux + cz * vx) + Math.abs(bz * uy + cz * vy);
    const back = az - Math.min(slope, steepest); // edges stay in front
    const aLevel = level[a];
    const bLevel = level[b] - aLevel;
    const cLevel = level[c] - aLevel;
    const aShade = shade[a] + 0.5;
    const bShade = shade[b] - shade[a];
    const cShade = shade[c] - shade[a];
    const noColour = this.grey[t] === 1;
    const { table, pixels, depth } = this;
    for (let y = top; y <= bottom; ++y) {
      let u = (left + 0.5 - ax) * ux + (y + 0.5 - ay) * uy;
      let v = (left + 0.5 - ax) * vx + (y + 0.5 - ay) * vy;
      const last = y * width + end;
      for (let i = y * width + left; i <= last; ++i, u += ux, v += vx) {
        if (u < -1e-6 || v < -1e-6 || u + v > 1.000001) continue;
        const z = back + u * bz + v * cz;
        if (z <= depth[i]) continue;
        depth[i] = z;
        const value = aLevel + u * bLevel + v * cLevel;
        let column = levels + 1;
        if (!noColour && value > -5 * levels)
          column = value > levels - 0.97 ? levels : value > 0 ? (value + 0.5) | 0 : 0;
        pixels[i] = table[((aShade + u * bShade + v * cShade) | 0) * columns + column];
      }
    }
  }

  drawEdges(camera, fineness) {
    const { edges } = this.surface;
    const { pixels, depth, width, height } = this;
    const { right, up, towardsEye: eye, target } = camera;
    const perLength = width / (camera.width * camera.pixelLength);
    const thick = Math.max(1, Math.round(fineness));
    const end = new Float32Array(6);
    for (let e = 0; e < edges.length; e += 6) {
      for (let k = 0; k < 6; k += 3) {
        const x = edges[e + k] - target[0];
        const y = edges[e + k + 1] - target[1];
        const z = edges[e + k + 2] - target[2];
        end[k] = width / 2 + perLength * (x * right[0] + y * right[1] + z * right[2]);
        end[k + 1] = height / 2 - perLength * (x * up[0] + y * up[1] + z * up[2]);
        end[k + 2] = x * eye[0] + y * eye[1] + z * eye[2];
      }
      const dx = end[3] - end[0];
      const dy = end[4] - end[1];
      const dz = end[5] - end[2];
      const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
      for (let step = 0; step <= steps; ++step) {
        const share = step / steps;
        const x = Math.floor(end[0] + share * dx - (thick - 1) / 2);
        const y = Math.floor(end[1] + share * dy - (thick - 1) / 2);
        const z = end[2] + share * dz;
        if (x < 0 || y < 0 || x + thick > width || y + thick > height) continue;
        for (let row = 0; row < thick; ++row)
          for (let column = 0; column < thick; ++column) {
            const i = (y + row) * width + x + column;
            if (z >= depth[i]) pixels[i] = ink;
          }
      }
    }
  }
}
