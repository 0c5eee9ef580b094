// SPDX-License-Identifier: GPL-3.0-or-later
// How long a browser without a graphics card takes to open a report, from the start of navigation:
// to the first picture of the page, to its load event, and to the moment when the wheel that turns
// answers. Prints the medians in seconds as JSON.
//   FELLOE_REPORTS=FOLDER-WITH-node_modules node report_opens.mjs REPORT.html [TIMES]
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

import { launch } from '../browser/browser.mjs';

const [file, times = '5'] = process.argv.slice(2);
const url = pathToFileURL(resolve(file)).href;

/** Notes when the view's canvas has been drawn for the first time and has answered a click. */
function watch() {
  const click = (canvas) => {
    const { x, y, width, height } = canvas.getBoundingClientRect();
    const place = { clientX: x + 0.35 * width, clientY: y + 0.5 * height, pointerId: 1, button: 0 };
    canvas.setPointerCapture = () => {}; // there is no real pointer to be captured
    for (const type of ['pointerdown', 'pointerup'])
      canvas.dispatchEvent(new PointerEvent(type, place));
    const said = document.querySelector('.surface-view-reading').textContent;
    if (!/Point of the surface/.test(said)) throw new Error(`a click was answered by: ${said}`);
    window.answers = performance.now();
  };
  const look = () => {
    const canvas = document.querySelector('#surface-view canvas[data-state]');
    if (!canvas) return setTimeout(look, 5);
    requestAnimationFrame(() => setTimeout(() => click(canvas), 0));
  };
  look();
}

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const browser = await launch();
const runs = [];
for (let i = 0; i < Number(times) + 1; ++i) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  await page.addInitScript(watch);
  await page.goto(url);
  await page.waitForFunction(() => window.answers, undefined, { polling: 100 });
  const run = await page.evaluate(() => ({
    first_paint_s: performance.getEntriesByName('first-contentful-paint')[0]?.startTime / 1000,
    load_s: performance.getEntriesByType('navigation')[0].loadEventEnd / 1000,
    view_answers_s: window.answers / 1000,
  }));
  if (i > 0) runs.push(run); // the first one warms the browser up
  await context.close();
}
await browser.close();
const result = {};
for (const key of Object.keys(runs[0])) result[key] = Number(median(runs.map((run) => run[key])).toFixed(3));
console.log(JSON.stringify(result));
