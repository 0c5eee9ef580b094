// SPDX-License-Identifier: GPL-3.0-or-later
// The colour scale: where a value lies on it, its colours, the bar beside the
// picture.
import { create } from './elements.js';
import { tickText, ticks } from './numbers.js';

/** 0 at the low end, 1 at the high end; beyond them outside that range. */
export function fraction(value, { low, high, logarithmic }) {
  if (!logarithmic) return (value - low) / (high - low);
  return (Math.log10(value) - Math.log10(low)) / (Math.log10(high) - Math.log10(low));
}

/**
 * Colours from the low to the high end, and the one beyond it: where small values are the bad ones
 * the scale is turned, and what lies beyond it is merely good.
 */
export function coloursOf({ colours, beyond }, { small_is_bad: smallIsBad }) {
  return smallIsBad ? { colours: [...colours].reverse(), beyond: colours[0] } : { colours, beyond };
}

/** Red, green, blue from 0 to 1 of "#rrggbb". */
export function rgb(css) {
  return [1, 3, 5].map((at) => parseInt(css.slice(at, at + 2), 16) / 255);
}

/** So many colours in red, green, blue on straight lines between the given ones. */
export function coloursBetween(colours, count) {
  const ends = colours.map(rgb);
  return Array.from({ length: count }, (_, i) => {
    const place = (i / (count - 1)) * (ends.length - 1);
    const below = Math.min(ends.length - 2, Math.floor(place));
    return ends[below].map((c, k) => c + (place - below) * (ends[below + 1][k] - c));
  });
}

/** Of what may not be judged. */
export const greyRgb = [0.66, 0.67, 0.69];

/** The bar with its round values and the unit. */
export class ColourBar {
  constructor() {
    this.heading = create('p', { class: 'surface-view-scale-heading' });
    this.strip = create('div', { class: 'surface-view-strip' });
    this.values = create('div', { class: 'surface-view-ticks' });
    this.remark = create('p', { class: 'surface-view-scale-remark' });
    this.beyond = create('span', { class: 'surface-view-swatch' });
    this.beyondText = create('span');
    this.grey = create('p', { class: 'surface-view-grey' });
    const above = create('p', { class: 'surface-view-beyond' }, [this.beyond, this.beyondText]);
    const bar = create('div', { class: 'surface-view-bar' }, [this.strip, this.values]);
    this.element = create('div', { class: 'surface-view-scale' }, [
      this.heading,
      above,
      bar,
      this.remark,
      this.grey,
    ]);
  }

  /** What the grey surface is; nothing where there is none. */
  showGrey(text) {
    const swatch = create('span', { class: 'surface-view-swatch surface-view-swatch-grey' });
    this.grey.replaceChildren(...(text ? [swatch, text] : []));
  }

  show({ colours, beyond }, quantity) {
    this.heading.textContent = `${quantity.name} [${quantity.unit}]`;
    this.strip.style.backgroundImage = `linear-gradient(to top, ${colours.join(', ')})`;
    this.values.replaceChildren(
      ...ticks(quantity).map((value) => {
        const mark = create('span', {}, [tickText(value, quantity)]);
        mark.style.bottom = `${100 * fraction(value, quantity)}%`;
        return mark;
      }),
    );
    this.beyond.style.backgroundColor = beyond;
    this.beyondText.textContent = `over ${tickText(quantity.high, quantity)}`;
    this.remark.textContent = quantity.remark;
  }
}
