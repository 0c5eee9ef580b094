// SPDX-License-Identifier: GPL-3.0-or-later
// Parallel projection. The eye turns about a target; y of the wheel frame stays upright.
import { cross, dot, plus, unit } from './vectors.js';

const steepest = 1e-3; // from the y axis, where nothing would be upright [rad]
const zooms = { least: 0.5, most: 200 };

export class Camera {
  /**
   * @param middle  of what is to be seen [mm]
   * @param reach   its largest extent [mm]
   */
  constructor(middle, reach) {
    this.reach = reach;
    this.look(middle, [0, 0, 1], 1);
  }

  /** Pixels of the picture in the page. The whole fits in, however it is turned. */
  resize(width, height) {
    Object.assign(this, { width, height });
  }

  /** `towardsEye`: unit; zoom 1 shows the whole. */
  look(target, towardsEye, zoom) {
    this.target = [...target];
    this.zoom = Math.min(Math.max(zoom, zooms.least), zooms.most);
    const polar = Math.acos(Math.min(Math.max(towardsEye[1], -1), 1));
    this.aim(Math.atan2(towardsEye[0], towardsEye[2]), polar);
  }

  /** Directions of the picture from where the eye stands [rad]: round y, and from y downwards. */
  aim(azimuth, polar) {
    this.azimuth = azimuth;
    this.polar = Math.min(Math.max(polar, steepest), Math.PI - steepest);
    const across = Math.sin(this.polar);
    this.towardsEye = [across * Math.sin(azimuth), Math.cos(this.polar), across * Math.cos(azimuth)];
    this.right = unit(cross([0, 1, 0], this.towardsEye));
    this.up = cross(this.towardsEye, this.right);
  }

  /** Moves the eye to the left and up [rad]. */
  turn(left, up) {
    this.aim(this.azimuth - left, this.polar - up);
  }

  /** Length of a pixel [mm]. */
  get pixelLength() {
    return (0.8 * this.reach) / (this.zoom * Math.min(this.width, this.height));
  }

  /** Moves the picture to the right and down [pixels]. */
  shift(right, down) {
    this.target = plus(this.target, this.right, -right * this.pixelLength);
    this.target = plus(this.target, this.up, down * this.pixelLength);
  }

  /** What lies under the pixel stays there. */
  zoomAt(factor, x, y) {
    const from = [x - this.width / 2, y - this.height / 2];
    this.shift(-from[0], -from[1]);
    this.zoom = Math.min(Math.max(this.zoom * factor, zooms.least), zooms.most);
    this.shift(...from);
  }

  /** Pixels from the left upper corner. */
  pixel(position) {
    const away = plus(position, this.target, -1);
    return [
      this.width / 2 + dot(away, this.right) / this.pixelLength,
      this.height / 2 - dot(away, this.up) / this.pixelLength,
    ];
  }

  /** From in front of everything, through the pixel. */
  ray(x, y) {
    let start = plus(this.target, this.towardsEye, 2 * this.reach);
    start = plus(start, this.right, (x - this.width / 2) * this.pixelLength);
    start = plus(start, this.up, (this.height / 2 - y) * this.pixelLength);
    return { start, direction: this.towardsEye.map((c) => -c) };
  }
}
