// SPDX-License-Identifier: GPL-3.0-or-later
// The report as a reader meets it: opened from disk, on a phone, on paper, read out, and with names
// that would like to be markup.
import assert from 'node:assert/strict';
import { statSync } from 'node:fs';
import { after, before, test } from 'node:test';

import { axeSource, launch, open, reportFile, results } from './browser.mjs';
import { hostile } from './names.mjs';
import { assertShows } from './numbers.mjs';
import { followers, onPaper, parted, squeezed } from './paper.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

const verdictWords = { pass: 'passed', fail: 'failed', 'not rated': 'not rated' };

/** Texts of the cells, row by row. */
const cells = (page, table) =>
  page
    .locator(`${table} tbody tr`)
    .evaluateAll((rows) =>
      rows.map((row) => [...row.cells].map((cell) => cell.textContent.trim())),
    );

test('opens from disk, asks nobody for anything and runs nothing that it did not bring', async (t) => {
  const began = performance.now();
  const page = await open(browser, 'plain', {});
  await page.locator('#surface-view canvas').waitFor();
  t.diagnostic(`opened and drawn after ${((performance.now() - began) / 1000).toFixed(2)} s`);
  const size = statSync(reportFile('plain')).size;
  t.diagnostic(`${(size / 1e6).toFixed(2)} MB`);
  assert.ok(size < 4e6, `${size} bytes`);
  await page.locator('section').last().scrollIntoViewIfNeeded();
  assert.deepEqual(page.offences, []);
  const pictures = await page.locator('#place img').evaluateAll(async (all) => {
    await Promise.all(all.map((image) => image.decode())); // throws where a picture is damaged
    return all.map(({ src, naturalWidth, naturalHeight, width, height }) => [
      src.slice(0, 16),
      Math.abs(naturalWidth / naturalHeight / (width / height) - 1) < 0.01,
    ]);
  });
  assert.ok(pictures.length > 1);
  for (const picture of pictures) assert.deepEqual(picture, ['data:image/webp;', true]);
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.match(policy, /^default-src 'none';/);
  assert.doesNotMatch(policy, /unsafe|\*/);
});

test('the policy stops what is slipped in', async () => {
  const page = await open(browser, 'plain');
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.acted = true';
    document.body.append(script);
    const image = document.createElement('img');
    image.src = 'https://nowhere.invalid/x.png';
    document.body.append(image);
  });
  await page.waitForTimeout(200);
  assert.equal(await page.evaluate(() => window.acted), undefined);
  assert.ok(page.offences.some((offence) => offence.startsWith('policy: script-src')), String(page.offences));
  assert.ok(page.offences.some((offence) => offence.startsWith('policy: img-src')), String(page.offences));
});

test('every rated place of results.json stands in the table', async () => {
  const page = await open(browser, 'plain');
  const all = results('plain');
  const heads = await page.locator('#hot-spot-table thead th').allTextContents();
  const column = (name) => {
    const found = heads.findIndex((head) => head.trim().startsWith(name));
    assert.ok(found >= 0, `no column '${name}' in ${heads}`);
    return found;
  };
  const rows = await cells(page, '#hot-spot-table');
  assert.equal(rows.length, all.hot_spots.length);
  for (const [i, spot] of all.hot_spots.entries()) {
    const what = `hot spot ${spot.id}`;
    assert.match(rows[i][0], new RegExp(`\\b${spot.id}\\b`));
    assert.ok(rows[i][0].includes(spot.feature), what);
    assert.ok(rows[i][column('Rig test')].includes(spot.test), what);
    assertShows(rows[i][column('r')], spot.r_mm, `r of ${what}`);
    assertShows(rows[i][column('z')], spot.z_mm, `z of ${what}`);
    assertShows(rows[i][column('Ampl')], spot.amplitude_MPa, `amplitude of ${what}`);
    assertShows(rows[i][column('Mean')], spot.mean_MPa, `mean of ${what}`);
    if (spot.verdict !== 'not rated') {
      assertShows(rows[i][column('Life 50')], spot.life_p50, `median life of ${what}`);
      assertShows(rows[i][column('Required')], spot.required_cycles, `required cycles of ${what}`);
    }
    assert.ok(rows[i][column('Verdict')].toLowerCase().includes(verdictWords[spot.verdict]), what);
  }
});

test('every rig test shows its verdict, and the cautions are all there', async () => {
  const page = await open(browser, 'plain');
  const all = results('plain');
  const boxes = await page.locator('#verdict .verdict').allTextContents();
  assert.equal(boxes.length, all.tests.length);
  for (const [i, rig] of all.tests.entries()) {
    assert.ok(boxes[i].includes(rig.name) && boxes[i].includes(rig.kind), rig.name);
    assert.ok(boxes[i].toLowerCase().includes(verdictWords[rig.verdict]), rig.name);
  }
  assert.match(
    (await page.locator('#verdict .stamp').first().textContent()).toLowerCase(),
    new RegExp(verdictWords[all.verdict]),
  );
  const cautions = await page.locator('#cautions').textContent();
  for (const caution of all.cautions) assert.ok(cautions.includes(caution), caution);
  assert.match(cautions, /accredited laborator/);
});

test('foreign names are shown, and do nothing', async () => {
  const page = await open(browser, 'names');
  await page.locator('#surface-view canvas').waitFor();
  assert.deepEqual(page.offences, []);
  assert.equal(await page.evaluate(() => window.acted), undefined);
  const text = await page.locator('body').innerText();
  const shown = (name) => name.replace('\u202E', '[U+202E]');
  for (const name of Object.values(hostile)) assert.ok(text.includes(shown(name)), `${name} in ${text.slice(0, 300)}`);
  assert.ok(!(await page.content()).includes('\u202E'));
  assert.ok((await page.title()).includes(hostile.title));
  const choices = await page.getByLabel('Under').locator('option').allTextContents();
  assert.ok(choices[0].startsWith(hostile.bending) && choices[1].startsWith(shown(hostile.radial)));
});

test('fits a phone of 390 pixels', async () => {
  const page = await open(browser, 'plain', { viewport: { width: 390, height: 800 }, hasTouch: true });
  await page.locator('#surface-view canvas').waitFor();
  const broad = await page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    // What scrolls inside its own box is fine.
    const inside = (element) => element.parentElement?.closest('.table-box, .drawing-box, .surface-view-stage');
    return [...document.querySelectorAll('body *')]
      .filter((element) => !inside(element) && !element.matches('.skip'))
      .filter((element) => element.getBoundingClientRect().right > width + 1)
      .map((element) => `${element.tagName} ${element.className} ${element.id}`);
  });
  assert.deepEqual(broad, []);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
  // Captions are read without scrolling their tables, writing in drawings without a magnifier.
  const captions = await page
    .locator('caption')
    .evaluateAll((all) => all.map((caption) => caption.getBoundingClientRect().right));
  for (const right of captions) assert.ok(right < 391, `a caption ends at ${right}`);
  const writing = await page
    .locator('.drawing-box svg text')
    .evaluateAll((all) => all.map((text) => text.getBoundingClientRect().height));
  assert.ok(writing.length > 10 && Math.min(...writing.filter((height) => height > 0)) > 5);
});

test('on paper no row is cut and no word is lost', async () => {
  const page = await open(browser, 'plain', { viewport: { width: 688, height: 1000 } }); // A4 less its margins
  await page.locator('#surface-view canvas').waitFor();
  await page.emulateMedia({ media: 'print' });
  const styles = await page.evaluate(() => ({
    rows: [...document.querySelectorAll('tr')].every((row) => getComputedStyle(row).breakInside === 'avoid'),
    heads: [...document.querySelectorAll('thead')].every(
      (head) => getComputedStyle(head).display === 'table-header-group',
    ),
    canvas: document.querySelector('#surface-view canvas')?.checkVisibility(),
  }));
  assert.deepEqual(styles, { rows: true, heads: true, canvas: false });

  const { sheets, words, outside, pictures } = await onPaper(page, 'report');
  const wide = await page.locator('img').evaluateAll((all) => all.map((image) => image.naturalWidth));
  assert.deepEqual(pictures, wide); // all of them, undiminished
  assert.ok(words > 1000, `${words} words`);
  assert.deepEqual(outside, []);
  const pairs = await followers(page);
  assert.ok(pairs.length > 10, `${pairs.length} headings`);
  assert.deepEqual(parted(sheets, pairs), []);
  const paper = sheets.join('');
  const all = results('plain');
  for (const caution of all.cautions) assert.ok(paper.includes(squeezed(caution)), caution);
  for (const assumption of all.assumptions)
    assert.ok(paper.includes(squeezed(assumption).slice(0, 30)), assumption);
  for (const [i, row] of (await cells(page, '#hot-spot-table')).entries())
    for (const cell of row) assert.ok(paper.includes(squeezed(cell)), `${cell} of row ${i + 1}`);
});

for (const [name, options] of [
  ['on a wide screen', {}],
  ['on a phone', { viewport: { width: 390, height: 800 } }],
])
  test(`readable for everybody ${name}`, async () => {
    const page = await open(browser, 'plain', options);
    await page.locator('#surface-view canvas').waitFor();
    await page.evaluate(axeSource);
    const { violations } = await page.evaluate(() =>
      window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'best-practice'] }),
    );
    assert.deepEqual(
      violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(' | ')}`),
      [],
    );
    const headings = await page.locator('h1, h2, h3').evaluateAll((all) => all.map((h) => Number(h.tagName[1])));
    assert.equal(headings.filter((level) => level === 1).length, 1);
    headings.forEach((level, i) => assert.ok(i === 0 || level <= headings[i - 1] + 1, `heading ${i}`));
    for (const alt of await page.locator('img').evaluateAll((all) => all.map((image) => image.alt)))
      assert.ok(alt.length > 10, `alt text '${alt}'`);
  });
