// SPDX-License-Identifier: GPL-3.0-or-later
// Starts the view on its place in the page. Whatever goes wrong, the sentence that is there from the
// beginning stays or says why; the pictures of the report show the same surface. On paper the
// sentence stands in place of the view.
import { readSurface } from './surface_data.js';
import { SurfaceView } from './surface_view.js';

function start() {
  const place = document.getElementById('surface-view');
  const data = document.getElementById('surface-view-data');
  if (!place || !data) return;
  const sentence = place.querySelector('.surface-view-sentence');
  try {
    const view = new SurfaceView(readSurface(JSON.parse(data.textContent)));
    place.append(view.element);
    view.begin(); // now that its size is known
    sentence.textContent =
      'On a screen the wheel can be turned here. The pictures in this report show the same surface.';
    sentence.classList.add('surface-view-on-paper');
  } catch (error) {
    place.querySelector('.surface-view-frame')?.remove();
    sentence.textContent =
      `The view that turns cannot be shown here: ${error.message}. ` +
      'The pictures in this report show the same surface.';
  }
}

// The page is there to be read first.
window.addEventListener('load', () => setTimeout(start));
