// SPDX-License-Identifier: GPL-3.0-or-later
// The view on the page: what to show, the picture, what was read in it.
import { button, choice, create } from './elements.js';
import { HotSpotList, Markers } from './hot_spots.js';
import { listenToKeys } from './keys.js';
import { cylindrical, fixed, valueText } from './numbers.js';
import { listenToPointer } from './pointer.js';
import { ColourBar, coloursOf } from './scale.js';
import { directions, Scene } from './scene.js';
import { distance, dot, plus, unit } from './vectors.js';

const help =
  'Drag turns the wheel, two fingers or Shift and drag shift it, two fingers or, after a click, the ' +
  'mouse wheel zoom; a click reads a point. Keys: arrows turn, Shift and arrows shift, + and - ' +
  'zoom, Enter reads the point in the middle, Home shows the whole wheel.';

function facts(rows) {
  return create(
    'dl',
    {},
    rows.map(([name, value]) =>
      create('div', {}, [create('dt', {}, [name]), create('dd', {}, [value])]),
    ),
  );
}

export class SurfaceView {
  constructor(surface) {
    this.surface = surface;
    this.canvas = create('canvas', {
      tabindex: '0',
      role: 'application',
      'aria-label': 'Wheel, coloured by what was computed on its surface',
      'aria-describedby': 'surface-view-help',
    });
    this.markers = new Markers((spot) => this.choose(spot));
    this.list = new HotSpotList((spot) => this.choose(spot));
    this.bar = new ColourBar();
    this.aim = create('span', { class: 'surface-view-aim', 'aria-hidden': 'true' });
    this.stage = create('div', { class: 'surface-view-stage' }, [
      this.canvas,
      this.markers.element,
      this.aim,
    ]);
    this.reading = create('div', { class: 'surface-view-reading', role: 'status' });
    this.element = create('div', { class: 'surface-view-frame' }, [
      this.choices(),
      create('div', { class: 'surface-view-picture' }, [this.stage, this.bar.element]),
      create('p', { class: 'surface-view-help', id: 'surface-view-help' }, [help]),
      this.reading,
      this.list.element,
    ]);
  }

  /** Once the element stands in the page. */
  begin() {
    this.scene = new Scene(
      this.surface,
      this.canvas,
      [this.stage.clientWidth, this.stage.clientHeight],
      (atRest) => this.markers.place(this.scene, atRest),
    );
    listenToKeys(this);
    listenToPointer(this.canvas, {
      camera: () => this.scene.byHand(),
      moved: () => this.scene.invalidate(),
      clicked: (x, y) => this.read(x, y),
    });
    new ResizeObserver(() =>
      this.scene.resize(this.stage.clientWidth, this.stage.clientHeight),
    ).observe(this.stage);
    this.showLoad(0);
  }

  choices() {
    this.loadChoice = choice(
      'Under',
      this.surface.loads.map(({ name, load }) => (load ? `${name}, ${load}` : name)),
      (i) => this.showLoad(i),
    );
    this.quantityChoice = choice('Colours', [], (i) => this.showQuantity(i));
    return create('div', { class: 'surface-view-choices' }, [
      this.loadChoice.element,
      this.quantityChoice.element,
      button('From outboard', () => this.whole(directions.outboard)),
      button('From inboard', () => this.whole(directions.inboard)),
    ]);
  }

  showLoad(index) {
    this.load = this.surface.loads[index];
    const { select } = this.quantityChoice;
    const names = this.load.quantities.map((quantity) => quantity.name);
    const kept = Math.max(0, names.indexOf(select.selectedOptions[0]?.textContent));
    select.replaceChildren(...names.map((name, i) => create('option', { value: i }, [name])));
    select.value = String(kept);
    this.markers.show(this.load.hot_spots);
    this.list.show(this.load.hot_spots);
    this.bar.showGrey(this.load.grey.includes(1) ? `not rated: ${this.load.why_grey}` : '');
    this.scene.markGrey(this.load.grey);
    this.reading.replaceChildren(create('p', {}, ['Nothing read yet: click a point of the wheel.']));
    this.showQuantity(kept);
  }

  showQuantity(index) {
    const quantity = this.load.quantities[index];
    const colours = coloursOf(this.surface, quantity);
    this.bar.show(colours, quantity);
    this.scene.show(quantity, colours);
  }

  whole(direction) {
    this.scene.fly(this.scene.middle, direction, 1);
  }

  /** Flies to a hot spot and says what the report says of it. */
  choose(spot) {
    this.scene.fly(spot.position, this.bestDirection(spot), 5);
    this.list.mark(spot);
    this.say(spot.position, spot);
    this.stage.scrollIntoView({ block: 'nearest' });
  }

  /** From where the place is seen: along its normal as far as possible. */
  bestDirection(spot) {
    const radial = unit([spot.position[0], spot.position[1], 0]);
    const { normal } = spot;
    const mixed = [
      [1, 0.4, 0.2],
      [0.4, 1, 0.2],
      [0.4, 1, -0.4],
      [0.2, 1, 0],
      [0.2, 1, 0.8],
      [0.2, 1, -0.8],
    ].flatMap(([along, axial, outwards]) =>
      [1, -1].map((side) =>
        unit(plus(plus([0, 0, side * axial], normal, along), radial, outwards)),
      ),
    );
    const facing = mixed.sort((a, b) => dot(b, normal) - dot(a, normal));
    return facing.find((direction) => this.scene.seenFrom(spot.position, direction)) ?? facing[0];
  }

  read(x, y) {
    const found = this.scene.pointAt(x, y);
    if (!found) {
      this.reading.replaceChildren(create('p', {}, ['No part of the wheel there.']));
      this.list.mark();
      return;
    }
    const spot = this.load.hot_spots.find(
      (candidate) => distance(candidate.position, found.position) < 1e-3,
    );
    this.list.mark(spot);
    this.say(found.position, spot, found);
  }

  /** What is known of a point found in the picture, of a hot spot, or of a hot spot at a point. */
  say(position, spot, found) {
    const { r, theta, z } = cylindrical(position);
    const rows = [
      ['r', `${fixed(r, 1)} mm`],
      ['theta', `${fixed(theta, 1)} deg`],
      ['z', `${fixed(z, 1)} mm`],
    ];
    if (found)
      for (const quantity of this.load.quantities)
        rows.push([quantity.name, valueText(quantity.at(found.point), quantity)]);
    if (found && !found.rated && !spot) rows.push(['may be judged', `no: ${this.load.why_grey}`]);
    const parts = [];
    if (spot) parts.push(create('p', {}, [`Hot spot ${spot.number}: ${spot.label}`]), facts(spot.rows));
    parts.push(
      create('p', {}, [
        !found ? 'Its place' : spot ? 'The surface there' : 'Point of the surface',
      ]),
      facts(rows),
    );
    this.reading.replaceChildren(...parts);
  }
}
