// SPDX-License-Identifier: GPL-3.0-or-later
// A page on A4 paper, read back word by word.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

import { folder } from './browser.mjs';

export const squeezed = (text) => text.replace(/[\s\u00ad]+/g, '');

/** Texts of the sheets of a page without any space, words that run over the border, pictures. */
export async function onPaper(page, name) {
  const file = join(folder, `${name}.pdf`);
  await page.pdf({ path: file, preferCSSPageSize: true, printBackground: true });
  const read = (...options) => execFileSync('pdftotext', [...options, file, '-'], { encoding: 'utf8' });
  const boxes = read('-bbox');
  const width = Number(boxes.match(/<page width="([\d.]+)"/)[1]);
  const words = [...boxes.matchAll(/<word xMin="(-?[\d.]+)" yMin="[^"]*" xMax="([\d.]+)"[^>]*>(.*?)</g)];
  const outside = words.filter(([, left, right]) => Number(left) < 0 || Number(right) > width);
  const sheets = read('-raw').split('\f').slice(0, -1).map(squeezed);
  const listed = execFileSync('pdfimages', ['-list', file], { encoding: 'utf8' });
  const pictures = [...listed.matchAll(/^ *\d+ +\d+ +image +(\d+) /gm)].map(([, across]) => Number(across));
  return { sheets, words: words.length, outside: outside.map(([, , , word]) => word), pictures };
}

/**
 * Headings and captions, each with what must follow it on the same sheet: the first row of its
 * table, the first words of its text and of the plot under it.
 */
export const followers = (page) =>
  page.evaluate(() => {
    const begin = (element) => {
      if (element?.matches('.table-box'))
        return [...element.querySelector('tbody tr').cells]
          .map((cell) => cell.textContent)
          .filter((text) => text.trim())
          .slice(0, 3);
      if (element?.matches('.plots')) return [element.querySelector('svg text').textContent];
      return element?.matches('p, ul, ol') ? [element.textContent.trim().slice(0, 20)] : [];
    };
    const heads = [...document.querySelectorAll('h2, h3')].map((head) => {
      const next = head.nextElementSibling;
      const after = next?.matches('p') ? begin(next.nextElementSibling) : [];
      return [head.textContent, [...begin(next), ...after]];
    });
    const captions = [...document.querySelectorAll('caption')].map((caption) => [
      caption.textContent,
      begin(caption.closest('.table-box')),
    ]);
    return [...heads, ...captions].filter(([, after]) => after.length > 0);
  });

/** Those of which no sheet holds both. */
export function parted(sheets, pairs) {
  const together = ([head, after]) =>
    sheets.some((sheet) => {
      const at = sheet.indexOf(squeezed(head));
      return at >= 0 && after.every((text) => sheet.indexOf(squeezed(text), at) > at);
    });
  return pairs.filter((pair) => !together(pair)).map(([head]) => head);
}
