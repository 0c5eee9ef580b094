// SPDX-License-Identifier: GPL-3.0-or-later
// The view that turns: it answers mouse, keyboard and touch, says what results.json says, and rests
// when nothing happens.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';

import { difference, launch, open, results } from './browser.mjs';
import { assertShows } from './numbers.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const stage = (page) => page.locator('.surface-view-stage');
const reading = (page) => page.locator('.surface-view-reading');
const rested = (page) => page.locator('#surface-view canvas[data-state="at rest"]').waitFor();

async function opened(options) {
  // Small and without flights: pictures take long without a graphics card.
  const page = await open(browser, 'plain', {
    viewport: { width: 800, height: 600 },
    reducedMotion: 'reduce',
    ...options,
  });
  await stage(page).scrollIntoViewIfNeeded();
  await rested(page);
  return page;
}

/** The reading: what the report says of the hot spot (if it is one), and what is at the point. */
async function rows(page) {
  const lists = await reading(page)
    .locator('dl')
    .evaluateAll((all) =>
      all.map((list) =>
        Object.fromEntries(
          [...list.children].map((row) => [row.children[0].textContent, row.children[1].textContent]),
        ),
      ),
    );
  return { hotSpot: lists.length > 1 ? lists[0] : undefined, point: lists.at(-1) };
}

async function assertChanges(page, action, what) {
  const before_ = await stage(page).screenshot();
  await action();
  await rested(page);
  const share = await difference(browser, before_, await stage(page).screenshot());
  assert.ok(share > 0.02, `${what}: ${(100 * share).toFixed(1)} % of the pixels changed`);
}

/**
 * By how much red, green and blue differ at places of a screenshot; undefined where something is
 * drawn across or the surroundings are not even.
 */
const colourfulness = (page, screenshot, places) =>
  page.evaluate(
    async ([base64, all]) => {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const drawing = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
      drawing.drawImage(bitmap, 0, 0);
      return all.map(([x, y]) => {
        const { data } = drawing.getImageData(x - 3, y - 3, 7, 7);
        const channel = (c) => Array.from({ length: 49 }, (_, i) => data[4 * i + c]);
        const spread = (values) => Math.max(...values) - Math.min(...values);
        if ([0, 1, 2].some((c) => spread(channel(c)) > 24)) return undefined;
        return spread([...data.slice(4 * 24, 4 * 24 + 3)]);
      });
    },
    [screenshot.toString('base64'), places],
  );

const ofTest = (all, index) => all.hot_spots.filter((spot) => spot.test === all.tests[index].name);

/** The figures of a reading against a hot spot of results.json. */
async function assertReads(page, spot) {
  const { hotSpot, point } = await rows(page);
  assert.match(await reading(page).textContent(), new RegExp(`Hot spot ${spot.id}\\b`));
  assertShows(point.r, spot.r_mm, 'r');
  assertShows(point.theta, spot.theta_deg, 'theta');
  assertShows(point.z, spot.z_mm, 'z');
  assertShows(hotSpot['share of the allowed stress'], spot.utilisation_percent, `share of ${spot.id}`);
  assertShows(hotSpot['stress amplitude'], spot.amplitude_MPa, `amplitude of ${spot.id}`);
  assertShows(hotSpot['mean stress'], spot.mean_MPa, `mean of ${spot.id}`);
  assertShows(hotSpot['fully reversed'], spot.fully_reversed_MPa, `fully reversed of ${spot.id}`);
  assertShows(hotSpot['design life'], spot.life_design, `design life of ${spot.id}`);
  assert.ok(hotSpot.verdict.toLowerCase().startsWith(spot.verdict), hotSpot.verdict);
  return point;
}

test('mouse, keyboard, wheel and buttons move the wheel', async () => {
  const page = await opened();
  const box = await stage(page).boundingBox();
  const middle = [box.x + box.width / 2, box.y + box.height / 2];
  const drag = async () => {
    await page.mouse.move(...middle);
    await page.mouse.down();
    await page.mouse.move(middle[0] + 120, middle[1] + 30, { steps: 4 });
    await page.mouse.up();
  };
  await assertChanges(page, drag, 'drag');
  await page.locator('#surface-view canvas').focus();
  for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowRight', '+', 'Home'])
    await assertChanges(page, () => page.keyboard.press(key), key);
  await assertChanges(page, () => page.mouse.wheel(0, -400), 'mouse wheel');
  await assertChanges(page, () => page.getByRole('button', { name: 'From inboard' }).click(), 'inboard');
  assert.deepEqual(page.offences, []);
});

test('two fingers zoom', async () => {
  const page = await opened({ hasTouch: true });
  const box = await stage(page).boundingBox();
  const client = await page.context().newCDPSession(page);
  const touch = (type, away) =>
    client.send('Input.dispatchTouchEvent', {
      type,
      touchPoints:
        away === undefined
          ? []
          : [-1, 1].map((side, id) => ({
              id,
              x: box.x + box.width / 2 + side * away,
              y: box.y + box.height / 2,
            })),
    });
  const pinch = async () => {
    await touch('touchStart', 40);
    for (const away of [60, 90, 120]) await touch('touchMove', away);
    await touch('touchEnd');
  };
  await assertChanges(page, pinch, 'pinch');
});

test('a click on a hot spot reads what results.json says of it', async () => {
  const page = await opened();
  const all = results('plain');
  for (const index of all.tests.keys()) {
    await page.getByLabel('Under').selectOption(String(index));
    await rested(page);
    let read = 0;
    for (const side of ['From outboard', 'From inboard']) {
      await page.getByRole('button', { name: side }).click();
      await rested(page);
      for (const spot of ofTest(all, index)) {
        const ring = page.locator(`.surface-view-ring[data-number="${spot.id}"]`);
        if (await ring.evaluate((element) => element.classList.contains('hidden'))) continue;
        // So near that its neighbours are apart on the screen.
        await page.locator(`.surface-view-list button[data-number="${spot.id}"]`).click();
        await rested(page);
        const box = await ring.boundingBox();
        await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
        const point = await assertReads(page, spot);
        // At weld toes the hot spot is extrapolated, elsewhere it has the values of its node.
        if (!spot.feature.startsWith('weld toe')) {
          assertShows(point['share of the allowed stress'], spot.utilisation_percent, `share at ${spot.id}`);
          assertShows(point['stress amplitude'], spot.amplitude_MPa, `surface at ${spot.id}`);
          assertShows(point['design life'], spot.life_design, `life on the surface at ${spot.id}`);
          assertShows(point['mean stress'], spot.mean_MPa, `mean on the surface at ${spot.id}`);
        }
        ++read;
        break;
      }
    }
    assert.ok(read > 0, `no hot spot of test ${index} could be clicked`);
  }
  assert.deepEqual(page.offences, []);
});

test('a flight ends at the hot spot', async () => {
  const page = await opened({ reducedMotion: 'no-preference' });
  await assertChanges(page, () => page.locator('.surface-view-list button').nth(1).click(), 'flight');
});

test('the list flies to every hot spot by keyboard', async () => {
  const page = await opened();
  const all = results('plain');
  const spots = ofTest(all, 0);
  const buttons = page.locator('.surface-view-list button');
  assert.equal(await buttons.count(), spots.length);
  for (const [i, spot] of spots.entries()) {
    await buttons.nth(i).focus();
    await page.keyboard.press('Enter');
    await rested(page);
    await assertReads(page, spot);
    const [ring, box] = await Promise.all([
      page.locator(`.surface-view-ring[data-number="${spot.id}"]`).evaluate((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return [x + width / 2, y + height / 2];
      }),
      stage(page).boundingBox(),
    ]);
    if (await page.locator(`.surface-view-ring[data-number="${spot.id}"].hidden`).count()) continue;
    const away = Math.hypot(ring[0] - box.x - box.width / 2, ring[1] - box.y - box.height / 2);
    assert.ok(away < 2, `hot spot ${spot.id} is ${away} pixels from the middle`);
  }
  assert.equal(await reading(page).getAttribute('role'), 'status'); // is read out
});

test('Enter reads the point in the middle; beside the wheel there is none', async () => {
  const page = await opened();
  await page.locator('.surface-view-list button').first().click();
  const chosen = (await rows(page)).point;
  await page.locator('#surface-view canvas').focus();
  await page.keyboard.press('Enter');
  const said = (await rows(page)).point;
  for (const name of ['r', 'theta', 'z']) assert.equal(said[name], chosen[name]);
  await page.keyboard.press('Home');
  await page.keyboard.press('Enter'); // the wheel's bore
  assert.match(await reading(page).textContent(), /No part of the wheel/);
});

test('quantities have their own scales with units', async () => {
  const page = await opened();
  const names = await page.getByLabel('Colours').locator('option').allTextContents();
  assert.deepEqual(names, ['share of the allowed stress', 'stress amplitude', 'mean stress', 'design life']);
  const heading = page.locator('.surface-view-scale-heading');
  assert.equal(await heading.textContent(), 'share of the allowed stress [%]');
  await assertChanges(page, () => page.getByLabel('Colours').selectOption('3'), 'life');
  assert.equal(await heading.textContent(), 'design life [cycles]');
  const ticks = await page.locator('.surface-view-ticks span').allTextContents();
  assert.ok(ticks.length >= 3 && ticks.every((tick) => /^10[⁰¹²³⁴⁵⁶⁷⁸⁹]+$/.test(tick)), ticks.join(' '));
});

test('what may not be judged is grey, and the legend and the reading say so', async () => {
  const page = await opened({ reducedMotion: 'reduce' });
  assert.match(await page.locator('.surface-view-grey').textContent(), /^not rated: weld between its toes, hub face/);
  await assertChanges(page, () => page.getByRole('button', { name: 'From inboard' }).click(), 'inboard');
  // Numbers of hot spots would be in the way.
  await page.locator('.surface-view-markers').evaluate((markers) => (markers.style.display = 'none'));
  const picture = await stage(page).screenshot(); // may scroll
  const box = await stage(page).boundingBox();
  const places = [];
  for (let x = 0.3; x < 0.71; x += 0.05)
    for (let y = 0.2; y < 0.81; y += 0.05)
      places.push([Math.round(x * box.width), Math.round(y * box.height)]);
  const shades = await colourfulness(page, picture, places);
  const seen = { grey: 0, coloured: 0, 'hub face': 0 };
  for (const [i, [x, y]] of places.entries()) {
    await page.mouse.click(box.x + x, box.y + y);
    if (shades[i] === undefined || (await reading(page).locator('dl').count()) !== 1) continue;
    const { point } = await rows(page);
    const judged = point['may be judged'] === undefined;
    assert.equal(shades[i] > 25, judged, `${shades[i]} at ${JSON.stringify(point)}`);
    ++seen[judged ? 'coloured' : 'grey'];
    if (point.z !== '0.0 mm' || parseFloat(point.r) > 70) continue;
    assert.ok(!judged, 'the hub face is bonded');
    ++seen['hub face'];
  }
  for (const [kind, n] of Object.entries(seen)) assert.ok(n >= 3, `${n} points ${kind}`);
});

test('a picture at rest is finer than one that moves', async () => {
  const page = await opened();
  const fineness = () =>
    page.locator('#surface-view canvas').evaluate((canvas) => canvas.width / canvas.clientWidth);
  assert.ok(Math.abs((await fineness()) - 2) < 0.01, 'at rest');
  const box = await stage(page).boundingBox();
  await page.mouse.move(box.x + 100, box.y + 100);
  await page.mouse.down();
  for (let i = 1; i <= 20; ++i) {
    await page.mouse.move(box.x + 100 + 8 * i, box.y + 100);
    if ((await fineness()) < 1.01) break;
    assert.ok(i < 20, 'never coarse while it turns');
  }
  await page.mouse.up();
  await rested(page);
  assert.ok(Math.abs((await fineness()) - 2) < 0.01, 'at rest again');
});

test('a finger scrolls past the wheel until it was tapped', async () => {
  const page = await opened({ hasTouch: true });
  const action = () =>
    page.locator('#surface-view canvas').evaluate((canvas) => getComputedStyle(canvas).touchAction);
  assert.equal(await action(), 'pan-y');
  const box = await stage(page).boundingBox();
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
  assert.equal(await action(), 'none');
  assert.doesNotMatch(await reading(page).textContent(), /Nothing read yet/);
});

test('nothing is drawn while nothing happens', async () => {
  const page = await opened();
  const frames = await page.evaluate(async () => {
    const real = window.requestAnimationFrame;
    let asked = 0;
    window.requestAnimationFrame = (callback) => {
      ++asked;
      return real(callback);
    };
    await new Promise((done) => setTimeout(done, 1000));
    return asked;
  });
  assert.equal(frames, 0);
});

test('without a canvas or scripts a sentence points to the pictures', async () => {
  const noCanvas = await open(browser, 'plain', {
    prepare: () => {
      const real = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
        return kind === '2d' ? null : real.call(this, kind, ...rest);
      };
    },
  });
  const noScripts = await open(browser, 'plain', { javaScriptEnabled: false });
  for (const page of [noCanvas, noScripts]) {
    assert.match(await page.locator('#surface-view').textContent(), /pictures in this report show/);
    assert.ok(await page.locator('#surface-view p').isVisible());
    assert.equal(await page.locator('#surface-view canvas').count(), 0);
    assert.ok((await page.locator('#place img').count()) > 0);
  }
  assert.deepEqual(noCanvas.offences, []);
});
