// SPDX-License-Identifier: GPL-3.0-or-later
// The view without a mouse.
import { directions } from './scene.js';

const turn = Math.PI / 18;
const shift = 40; // pixels

export function listenToKeys(view) {
  const { controls } = view.scene;
  const actions = {
    ArrowLeft: () => controls.rotateLeft(turn),
    ArrowRight: () => controls.rotateLeft(-turn),
    ArrowUp: () => controls.rotateUp(turn),
    ArrowDown: () => controls.rotateUp(-turn),
    'Shift ArrowLeft': () => controls.pan(-shift, 0),
    'Shift ArrowRight': () => controls.pan(shift, 0),
    'Shift ArrowUp': () => controls.pan(0, -shift),
    'Shift ArrowDown': () => controls.pan(0, shift),
    '+': () => zoom(1.25),
    '=': () => zoom(1.25),
    '-': () => zoom(0.8),
    Home: () => view.whole(directions.outboard),
    Enter: () => view.read(view.scene.width / 2, view.scene.height / 2),
  };
  function zoom(factor) {
    const { scene } = view;
    scene.look(controls.target.clone(), scene.towardsEye(), scene.camera.zoom * factor);
  }
  view.canvas.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const arrow = event.key.startsWith('Arrow');
    const action = actions[arrow && event.shiftKey ? `Shift ${event.key}` : event.key];
    if (!action) return;
    event.preventDefault();
    view.scene.flight = null;
    action();
  });
}
