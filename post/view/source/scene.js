// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel before the eye. Draws when something has changed and never otherwise.
import { Camera } from './camera.js';
import { Raster } from './raster.js';
import { Rays } from './rays.js';
import { fraction } from './scale.js';
import { distance, dot, plus, turned, unit } from './vectors.js';

export const directions = {
  outboard: unit([0.24, 0.17, 1]),
  inboard: unit([-0.17, 0.12, -1]),
};

/** Middle and diagonal of the box round all sectors. */
function extent({ sectors, positions }) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let s = 0; s < sectors; ++s) {
    const cosine = Math.cos((2 * Math.PI * s) / sectors);
    const sine = Math.sin((2 * Math.PI * s) / sectors);
    for (let i = 0; i < positions.length; i += 3) {
      const x = cosine * positions[i] - sine * positions[i + 1];
      const y = sine * positions[i] + cosine * positions[i + 1];
      const z = positions[i + 2];
      if (x < low[0]) low[0] = x;
      if (x > high[0]) high[0] = x;
      if (y < low[1]) low[1] = y;
      if (y > high[1]) high[1] = y;
      if (z < low[2]) low[2] = z;
      if (z > high[2]) high[2] = z;
    }
  }
  return { middle: low.map((c, i) => (c + high[i]) / 2), reach: distance(low, high) };
}

// Pixels of the picture along one of the page. At rest there are enough for a fine screen, and on a
// coarse one for smooth edges; while it moves as many as can be drawn in time.
const fineness = { least: 0.5, moving: 1, atRest: 2 };
const inTime = { fast: 12, slow: 30 }; // ms a picture
const untilRest = 120; // ms without a change

export class Scene {
  /**
   * @param size     width and height of the canvas in the page
   * @param changed  called after every picture, and with true once the view has come to rest
   */
  constructor(surface, canvas, size, changed) {
    this.surface = surface;
    this.canvas = canvas;
    this.changed = changed;
    // Opaque, and kept where the processor has it.
    this.drawing = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
    if (!this.drawing) throw new Error('this browser lets no script draw');
    this.raster = new Raster(surface);
    this.moving = fineness.moving;
    this.rays = new Rays(surface);
    const { middle, reach } = extent(surface);
    this.middle = middle;
    this.camera = new Camera(middle, reach);
    this.look(middle, directions.outboard, 1);
    this.resize(...size);
  }

  get width() {
    return this.camera.width;
  }

  get height() {
    return this.camera.height;
  }

  /** Triangles with a 1 become grey. */
  markGrey(grey) {
    this.grey = grey;
    this.raster.setGrey(grey);
  }

  /** Colours by the quantity, from the low to the high end of its scale, and beyond that. */
  show(quantity, { colours, beyond }) {
    const at = (point) => {
      const value = quantity.at(point);
      return value === undefined ? undefined : fraction(value, quantity);
    };
    this.raster.setColours(at, colours, beyond);
    this.invalidate();
  }

  resize(width, height) {
    if (!width || !height || (width === this.width && height === this.height)) return;
    this.camera.resize(width, height);
    this.invalidate();
  }

  /** At once. `towardsEye`: unit; zoom 1 shows the whole wheel. */
  look(target, towardsEye, zoom) {
    this.camera.look(target, towardsEye, zoom);
    this.invalidate();
  }

  /** The same on the way of half a second, unless the reader wants no motion. */
  fly(target, towardsEye, zoom) {
    if (window.matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.look(target, towardsEye, zoom);
      return;
    }
    const from = {
      target: this.camera.target,
      direction: [...this.camera.towardsEye],
      zoom: this.camera.zoom,
    };
    // Half way round there is no shortest way: go past the side.
    if (dot(from.direction, towardsEye) < -0.98) from.direction[0] += 0.3;
    this.flight = { from, to: { target, towardsEye, zoom }, began: performance.now() };
    this.invalidate();
  }

  advance(now) {
    const { from, to, began } = this.flight;
    const share = Math.min(1, Math.max(0, now - began) / 500);
    const s = share * share * (3 - 2 * share);
    if (share === 1) this.flight = null;
    const between = (a, b) => plus(a, plus(b, a, -1), s);
    const zoom = from.zoom * (to.zoom / from.zoom) ** s;
    this.look(between(from.target, to.target), unit(between(from.direction, to.towardsEye)), zoom);
  }

  /** The camera for the reader's hand: ends a flight. Call invalidate() after a change. */
  byHand() {
    this.flight = null;
    return this.camera;
  }

  invalidate() {
    if (!this.width) return; // not in the page yet
    this.canvas.dataset.state = 'moving';
    this.frame ??= requestAnimationFrame((now) => {
      this.frame = undefined;
      if (this.flight) this.advance(now);
      this.drawInTime();
      this.changed(false);
      clearTimeout(this.rest);
      this.rest = setTimeout(() => {
        if (this.frame !== undefined) return; // moves again
        this.draw(fineness.atRest);
        this.changed(true);
        this.canvas.dataset.state = 'at rest';
      }, untilRest);
    });
  }

  drawInTime() {
    const began = performance.now();
    this.draw(this.moving);
    const took = performance.now() - began;
    const factor = took > inTime.slow ? Math.SQRT1_2 : took < inTime.fast ? Math.SQRT2 : 1;
    this.moving = Math.min(Math.max(factor * this.moving, fineness.least), fineness.moving);
  }

  draw(density) {
    const image = this.raster.draw(this.camera, density);
    if (this.canvas.width !== image.width) this.canvas.width = image.width;
    if (this.canvas.height !== image.height) this.canvas.height = image.height;
    this.drawing.putImageData(image, 0, 0);
  }

  /**
   * The computed point next to what is seen at these pixels, with its position and whether its
   * surface may be judged; undefined beside the wheel.
   */
  pointAt(x, y) {
    const { start, direction } = this.camera.ray(x, y);
    const hit = this.rays.first(start, direction);
    if (!hit) return undefined;
    const corners = this.rays.cornersOf(hit.triangle).map((corner, i) => ({
      point: this.surface.triangles[3 * hit.triangle + i],
      rated: this.grey[hit.triangle] === 0,
      position: turned(corner, hit.angle),
    }));
    const away = ({ position }) => distance(position, hit.position);
    return corners.reduce((best, corner) => (away(corner) < away(best) ? corner : best));
  }

  /** True when nothing stands between the point and an eye far away in that direction. */
  seenFrom(position, towardsEye) {
    return !this.rays.first(plus(position, towardsEye, 0.3), towardsEye);
  }
}
