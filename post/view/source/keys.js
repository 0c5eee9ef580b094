// SPDX-License-Identifier: GPL-3.0-or-later
// The view without a mouse.
import { directions } from './scene.js';

const turn = Math.PI / 18;
const shift = 40; // pixels
const zoom = (eye, factor) => eye.zoomAt(factor, eye.width / 2, eye.height / 2);

export function listenToKeys(view) {
  const actions = {
    ArrowLeft: (eye) => eye.turn(turn, 0),
    ArrowRight: (eye) => eye.turn(-turn, 0),
    ArrowUp: (eye) => eye.turn(0, turn),
    ArrowDown: (eye) => eye.turn(0, -turn),
    'Shift ArrowLeft': (eye) => eye.shift(-shift, 0),
    'Shift ArrowRight': (eye) => eye.shift(shift, 0),
    'Shift ArrowUp': (eye) => eye.shift(0, -shift),
    'Shift ArrowDown': (eye) => eye.shift(0, shift),
    '+': (eye) => zoom(eye, 1.25),
    '=': (eye) => zoom(eye, 1.25),
    '-': (eye) => zoom(eye, 0.8),
    Home: () => view.whole(directions.outboard),
    Enter: () => view.read(view.scene.width / 2, view.scene.height / 2),
  };
  view.canvas.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const arrow = event.key.startsWith('Arrow');
    const action = actions[arrow && event.shiftKey ? `Shift ${event.key}` : event.key];
    if (!action) return;
    event.preventDefault();
    action(view.scene.byHand());
    view.scene.invalidate();
  });
}
