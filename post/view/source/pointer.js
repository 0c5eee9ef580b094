// SPDX-License-Identifier: GPL-3.0-or-later
// The view by mouse, pen and fingers.

const farthestClick = 5; // pixels between press and release
const zoomOf = (event) => {
  const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 33 : 1; // pixels
  return 0.95 ** (Math.min(Math.max(lines * event.deltaY, -600), 600) / 100);
};

/**
 * `camera()` is the camera after it has been got ready for the reader's hand; `moved` is called
 * after every change and `clicked` with the pixel of a press that did not move.
 */
export function listenToPointer(canvas, { camera, moved, clicked }) {
  const held = new Map(); // pointers by their number, each with its pixel
  let press; // the first of them
  const pixel = (event) => {
    const box = canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const middle = () => {
    const all = [...held.values()];
    const sum = (c) => all.reduce((total, at) => total + at[c], 0) / all.length;
    return [sum(0), sum(1)];
  };
  const spread = () => {
    const [a, b] = [...held.values()];
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  };

  canvas.addEventListener('pointerdown', (event) => {
    if (event.button === 1) return; // the browser scrolls by it
    if (held.size === 0) press = { at: pixel(event), button: event.button, moved: false };
    else press.moved = true;
    held.set(event.pointerId, pixel(event));
    canvas.setPointerCapture(event.pointerId);
  });
  canvas.addEventListener('pointermove', (event) => {
    if (!held.has(event.pointerId) || held.size > 2) return;
    const [old, before] = [middle(), held.size === 2 && spread()];
    held.set(event.pointerId, pixel(event));
    const now = middle();
    const by = [now[0] - old[0], now[1] - old[1]];
    press.moved ||= Math.hypot(now[0] - press.at[0], now[1] - press.at[1]) >= farthestClick;
    if (!press.moved) {
      held.set(event.pointerId, press.at); // nothing is lost of the way
      return;
    }
    const eye = camera();
    if (held.size === 2) {
      eye.shift(...by);
      if (before > 0) eye.zoomAt(spread() / before, ...now);
    } else if (press.button === 2 || event.shiftKey || event.ctrlKey || event.metaKey) eye.shift(...by);
    else eye.turn((2 * Math.PI * by[0]) / eye.height, (2 * Math.PI * by[1]) / eye.height);
    moved();
  });
  const released = (event) => {
    if (!held.delete(event.pointerId) || held.size > 0) return;
    if (event.type === 'pointerup' && press.button === 0 && !press.moved) clicked(...press.at);
  };
  canvas.addEventListener('pointerup', released);
  canvas.addEventListener('pointercancel', released);
  canvas.addEventListener('contextmenu', (event) => event.preventDefault());
  canvas.addEventListener(
    'wheel',
    (event) => {
      if (document.activeElement !== canvas) return; // the page scrolls
      event.preventDefault();
      camera().zoomAt(zoomOf(event), ...pixel(event));
      moved();
    },
    { passive: false },
  );
}
