// SPDX-License-Identifier: GPL-3.0-or-later
// One browser for the tests of a file, and pages that keep a record of everything a report must not
// do.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

export const folder = process.env.FELLOE_REPORTS;
const require = createRequire(join(folder, 'package.json'));
const { chromium } = require('playwright-core');
export const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

export const reportFile = (report) => join(folder, report, 'report.html');
export const results = (report) =>
  JSON.parse(readFileSync(join(folder, report, 'results.json'), 'utf8'));

export function launch() {
  return chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: [
      '--no-sandbox', // the tests may run as root
      '--disable-dev-shm-usage', // small in containers
      '--use-angle=swiftshader', // stands in for a graphics card, as earlier figures were taken
      '--enable-unsafe-swiftshader',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/**
 * Opens a report from disk. `page.offences` gathers requests other than for the file itself, console
 * warnings and errors, exceptions and what the Content-Security-Policy refused.
 */
export async function open(browser, report, { prepare, ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const url = pathToFileURL(reportFile(report)).href;
  page.offences = [];
  page.on('request', (request) => {
    if (request.url() !== url && !request.url().startsWith('data:'))
      page.offences.push(`request ${request.url()}`);
  });
  page.on('console', (message) => {
    if (['warning', 'error'].includes(message.type()))
      page.offences.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => page.offences.push(`exception: ${error.message}`));
  page.on('dialog', (dialog) => {
    page.offences.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  if (options.javaScriptEnabled !== false) {
    await page.exposeFunction('offence', (text) => page.offences.push(text));
    await page.addInitScript(() =>
      document.addEventListener('securitypolicyviolation', (event) =>
        window.offence(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sample}`),
      ),
    );
    if (prepare) await page.addInitScript(prepare);
  }
  await page.goto(url);
  return page;
}

/** Share of pixels that differ clearly between two screenshots of equal size. */
export async function difference(browser, first, second) {
  const page = (browser.comparing ??= await browser.newPage());
  return page.evaluate(
    async ([a, b]) => {
      const pixels = async (base64) => {
        const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const drawing = canvas.getContext('2d');
        drawing.drawImage(bitmap, 0, 0);
        return drawing.getImageData(0, 0, bitmap.width, bitmap.height);
      };
      const [p, q] = [await pixels(a), await pixels(b)];
      if (p.width !== q.width || p.height !== q.height) throw new Error('sizes differ');
      let changed = 0;
      for (let i = 0; i < p.data.length; i += 4) {
        const away = [0, 1, 2].reduce((sum, c) => sum + Math.abs(p.data[i + c] - q.data[i + c]), 0);
        if (away > 30) ++changed;
      }
      return (4 * changed) / p.data.length;
    },
    [first.toString('base64'), second.toString('base64')],
  );
}
