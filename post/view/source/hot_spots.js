// SPDX-License-Identifier: GPL-3.0-or-later
// The hot spots of a test: a ring at each place with its number beside it, and the list under the
// picture.
import { button, create } from './elements.js';

const svg = 'http://www.w3.org/2000/svg'; // the name of a language, nothing is loaded from there
const chipDistance = 34; // pixels from the ring

/** A place round the ring, inside the stage, that is far from what is there already. */
function freePlace([x, y], [width, height], taken) {
  const outwards = Math.atan2(y - height / 2, x - width / 2);
  const border = ([u, v]) => 2 * Math.min(u, v, width - u, height - v);
  let best;
  let bestGap = -Infinity;
  for (let i = 0; i < 16 && bestGap < 30; ++i) {
    const angle = outwards + ((i % 2 ? 1 : -1) * Math.ceil(i / 2) * Math.PI) / 8;
    const place = [x + chipDistance * Math.cos(angle), y + chipDistance * Math.sin(angle)];
    const gap = Math.min(border(place), ...taken.map((t) => Math.hypot(place[0] - t[0], place[1] - t[1])));
    if (gap > bestGap) {
      best = place;
      bestGap = gap;
    }
  }
  return best;
}

export class Markers {
  constructor(chosen) {
    this.chosen = chosen;
    this.lines = document.createElementNS(svg, 'svg');
    this.element = create('div', { class: 'surface-view-markers', 'aria-hidden': 'true' });
    this.all = [];
  }

  show(hotSpots) {
    this.all = hotSpots.map((spot) => {
      const ring = create('span', { class: 'surface-view-ring', 'data-number': spot.number });
      const chip = create('span', { class: 'surface-view-chip' }, [String(spot.number)]);
      chip.addEventListener('click', () => this.chosen(spot));
      return { spot, ring, chip, line: document.createElementNS(svg, 'line') };
    });
    this.lines.replaceChildren(...this.all.map(({ line }) => line));
    this.element.replaceChildren(
      this.lines,
      ...this.all.flatMap(({ ring, chip }) => [ring, chip]),
    );
  }

  /** Follows the camera; at rest it also finds out which places are hidden. */
  place(scene, atRest) {
    const eye = atRest && scene.camera.towardsEye;
    const pixels = this.all.map(({ spot }) => scene.camera.pixel(spot.position));
    const taken = [...pixels];
    this.all.forEach(({ spot, ring, chip, line }, i) => {
      const place = freePlace(pixels[i], [scene.width, scene.height], taken);
      taken.push(place);
      ring.style.translate = `${pixels[i][0]}px ${pixels[i][1]}px`;
      chip.style.translate = `${place[0]}px ${place[1]}px`;
      const ends = [...pixels[i], ...place];
      ['x1', 'y1', 'x2', 'y2'].forEach((name, k) => line.setAttribute(name, ends[k]));
      if (!eye) return;
      const hidden = !scene.seenFrom(spot.position, eye);
      for (const part of [ring, chip, line]) part.classList.toggle('hidden', hidden);
    });
  }
}

/** Numbered buttons, worst first. */
export class HotSpotList {
  constructor(chosen) {
    this.chosen = chosen;
    this.element = create('ol', { class: 'surface-view-list', 'aria-label': 'Hot spots' });
  }

  show(hotSpots) {
    this.element.replaceChildren(
      ...hotSpots.map((spot) =>
        create('li', {}, [
          button('', () => this.chosen(spot), { 'data-number': spot.number }),
        ]),
      ),
    );
    hotSpots.forEach((spot, i) => {
      this.element.children[i].firstChild.append(
        create('span', { class: 'surface-view-number' }, [String(spot.number)]),
        create('span', {}, [spot.label]),
      );
    });
  }

  mark(chosenSpot) {
    for (const item of this.element.querySelectorAll('button'))
      if (chosenSpot && item.dataset.number === String(chosenSpot.number))
        item.setAttribute('aria-current', 'true');
      else item.removeAttribute('aria-current');
  }
}
