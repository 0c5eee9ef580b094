// SPDX-License-Identifier: GPL-3.0-or-later
// The page of a sweep: its table sorts and filters, every point of the plots leads to its design, and
// it opens as quietly as the report of one wheel.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';

import { axeSource, folder, launch, open } from './browser.mjs';
import { hostile } from './names.mjs';
import { assertShows } from './numbers.mjs';
import { followers, onPaper, parted, squeezed } from './paper.mjs';

let browser;
before(async () => (browser = await launch()));
after(() => browser.close());

/** table.csv as objects by column. */
function designs() {
  const text = readFileSync(join(folder, 'sweep', 'table.csv'), 'utf8');
  const rows = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^,"\n]*))(,|\n|$)/g)) {
    rows.at(-1).push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end !== ',') rows.push([]);
  }
  const [head, ...body] = rows.filter((row) => row.length > 1);
  return body.map((row) => Object.fromEntries(row.map((cell, i) => [head[i], cell])));
}

const shownRows = (page) =>
  page
    .locator('#designs tbody tr')
    .evaluateAll((rows) =>
      rows
        .filter((row) => row.checkVisibility())
        .map((row) => [...row.cells].map((cell) => cell.textContent.trim())),
    );
const heads = async (page) =>
  (await page.locator('#designs thead th').allTextContents()).map((head) => head.trim());
const columnOf = async (page, name) => (await heads(page)).findIndex((head) => head.startsWith(name));

test('a sweep opens from disk, asks nobody, and shows foreign names as text', async () => {
  const page = await open(browser, 'sweep');
  assert.deepEqual(page.offences, []);
  assert.equal(await page.evaluate(() => window.acted), undefined);
  assert.equal(await page.locator('h1').textContent(), hostile.title);
  assert.ok((await shownRows(page)).flat().some((cell) => cell.includes(hostile.bending)));
  assert.ok(!(await page.content()).includes('\u202E'));
});

test('every design stands in the table with the figures of table.csv', async () => {
  const page = await open(browser, 'sweep');
  const all = designs();
  const rows = await shownRows(page);
  assert.equal(rows.length, all.length);
  const [mass, life, tilt] = await Promise.all(
    ['mass', 'life over', 'tilt'].map((name) => columnOf(page, name)),
  );
  for (const [i, design] of all.entries()) {
    assert.equal(rows[i][0], design.design);
    if (design.state !== 'done') continue;
    assertShows(rows[i][mass], Number(design.mass_kg), `mass of ${i + 1}`);
    assertShows(rows[i][life], Number(design.life_margin), `life of ${i + 1}`);
    assertShows(rows[i][tilt], Number(design.tilt_Nm_per_deg), `stiffness of ${i + 1}`);
  }
});

test('a click on a heading sorts, a second one the other way, and what is empty stays last', async () => {
  const page = await open(browser, 'sweep');
  const column = await columnOf(page, 'mass');
  const head = page.locator('#designs thead th').nth(column);
  for (const [order, sign] of [['ascending', 1], ['descending', -1]]) {
    await head.getByRole('button').click();
    assert.equal(await head.getAttribute('aria-sort'), order);
    const masses = (await shownRows(page)).map((row) => row[column]);
    const known = masses.filter((mass) => mass !== '').map(Number);
    assert.ok(known.length > 10 && known.length < masses.length);
    assert.deepEqual(known, [...known].sort((a, b) => sign * (a - b)));
    assert.ok(masses.slice(known.length).every((mass) => mass === ''));
  }
  // Words sort too, by keyboard, and only one heading is marked.
  const edges = page.locator('#designs thead th').nth(await columnOf(page, 'rating.vent_edges'));
  await edges.getByRole('button').focus();
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('#designs th[aria-sort]').count(), 1);
  assert.equal(await edges.getAttribute('aria-sort'), 'ascending');
});

test('words and verdicts filter the table, and the count says so', async () => {
  const page = await open(browser, 'sweep');
  const all = designs();
  const count = page.locator('#shown');
  assert.equal(await count.textContent(), `${all.length} of ${all.length} designs`);
  await page.getByLabel('rows with all these words').pressSequentially('reamed bend');
  const reamed = all.filter((d) => d['rating.vent_edges'] === 'reamed' && d.state === 'done');
  assert.deepEqual((await shownRows(page)).map((row) => row[0]), reamed.map((d) => d.design));
  await page.getByLabel('verdict').selectOption('fail');
  const failed = reamed.filter((d) => d.verdict === 'fail');
  assert.ok(failed.length > 0 && failed.length < reamed.length);
  assert.deepEqual((await shownRows(page)).map((row) => row[0]), failed.map((d) => d.design));
  assert.equal(await count.textContent(), `${failed.length} of ${all.length} designs`);
  // A sorted table stays filtered.
  await page.locator('#designs thead th').first().getByRole('button').click();
  assert.equal((await shownRows(page)).length, failed.length);
  await page.getByLabel('rows with all these words').fill('');
  await page.getByLabel('verdict').selectOption('not computed');
  const reasons = (await shownRows(page)).map((row) => row.at(-1));
  assert.equal(reasons.length, all.filter((d) => d.state === 'failed').length);
  for (const reason of reasons) assert.match(reason, /90\.0 mm diameter/);
});

/** Edges change nothing in a section: reamed ones hide their sheared twins in the plots. */
const onTop = (verdict) =>
  designs().find((d) => d.verdict === verdict && d['rating.vent_edges'] === 'reamed');
const pointsOf = (page, design) => page.locator(`.plots a[href="#design-${design.design}"]`);

test('a point of a plot shows its design: section, worst places, command', async () => {
  const page = await open(browser, 'sweep');
  const design = onTop('pass');
  const points = pointsOf(page, design);
  assert.equal(await points.count(), 2); // one a plot
  for (const way of ['click', 'key']) {
    if (way === 'click') {
      await points.first().click();
    } else {
      await page.evaluate(() => (location.hash = ''));
      await points.last().focus();
      await page.keyboard.press('Enter');
    }
    const panel = page.locator('#chosen');
    await panel.waitFor();
    assert.equal(await panel.locator('h2').textContent(), `Design ${design.design}`);
    const image = panel.locator('img');
    await image.evaluate((element) => element.decode());
    assert.ok((await image.evaluate((element) => element.naturalWidth)) > 100);
    const rows = await panel
      .locator('tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.cells].map((cell) => cell.textContent)));
    assert.equal(rows.length, 2);
    const [name, feature, stress, allowed, life, required, verdict] = rows[0];
    assert.equal(name, hostile.bending);
    assert.equal(feature, design[`${hostile.bending} feature`]);
    assertShows(stress, Number(design[`${hostile.bending} stress_MPa`]), 'stress');
    assertShows(allowed, Number(design[`${hostile.bending} allowed_stress_MPa`]), 'allowed');
    assertShows(life, Number(design[`${hostile.bending} life_design`]), 'life');
    assertShows(required, Number(design[`${hostile.bending} required_cycles`]), 'required');
    assert.equal(verdict, design[`${hostile.bending} verdict`]);
    assert.match(await panel.locator('pre').textContent(), new RegExp(`--design ${design.design}\\b`));
    assert.equal(await page.locator('#designs tr.chosen').count(), 1);
    assert.ok(await panel.evaluate((element) => element.contains(document.activeElement)));
  }
  assert.deepEqual(page.offences, []);
});

test('a sweep fits a phone, and its wide tables scroll in their boxes', async () => {
  const page = await open(browser, 'sweep', { viewport: { width: 390, height: 800 }, hasTouch: true });
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
  await pointsOf(page, onTop('fail')).first().tap();
  await page.locator('#chosen').waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
});

test('on paper a sweep has all its words and no tools', async () => {
  const page = await open(browser, 'sweep', { viewport: { width: 688, height: 1000 } });
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('#filter').evaluate((element) => element.checkVisibility()), false);
  const { sheets, words, outside } = await onPaper(page, 'sweep');
  assert.ok(words > 500, `${words} words`);
  assert.deepEqual(outside, []);
  assert.deepEqual(parted(sheets, await followers(page)), []);
  // Headings of the long table are on all its sheets.
  const table = sheets.slice(sheets.findIndex((sheet) => sheet.includes('Everydesign,worstrigtestofeach')));
  const last = table.findIndex((sheet) => sheet.includes('Thesameagain'));
  assert.ok(last > 0, 'the table is longer than a sheet');
  for (const sheet of table.slice(0, last)) assert.ok(sheet.includes('leastlife'), sheet.slice(0, 200));
  const paper = sheets.join('');
  for (const row of await shownRows(page))
    for (const cell of row) {
      // In which order a reader of paper finds right-to-left letters is his own matter.
      const words = /[\u0590-\u05ff\u202e]/.test(cell) ? cell.split(': ').at(-1) : cell;
      assert.ok(paper.includes(squeezed(words)), cell);
    }
});

test('a sweep is readable for everybody', async () => {
  const page = await open(browser, 'sweep');
  await pointsOf(page, onTop('pass')).first().click();
  await page.evaluate(axeSource);
  const { violations } = await page.evaluate(() =>
    window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'best-practice'] }),
  );
  assert.deepEqual(
    violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(' | ')}`),
    [],
  );
});
