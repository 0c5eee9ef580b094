// SPDX-License-Identifier: GPL-3.0-or-later
// Makes one script of the view, and with its style sheet a C++ source of both.
//   node bundle.mjs OUTPUT.cc      from a folder whose node_modules holds the packages
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const require = createRequire(join(process.cwd(), 'package.json'));
const esbuild = require('esbuild');
const source = join(dirname(fileURLToPath(import.meta.url)), 'source');
const output = process.argv[2];

async function bundled(file, banner) {
  const { outputFiles, warnings } = await esbuild.build({
    entryPoints: [join(source, file)],
    banner,
    bundle: true,
    minify: true,
    charset: 'ascii',
    format: 'iife',
    target: ['chrome110', 'firefox115', 'safari16.4'],
    write: false,
  });
  if (warnings.length > 0) throw new Error(warnings[0].text);
  return outputFiles[0].text;
}

/** A raw literal; compilers limit the length of one piece, so long texts become several. */
function literal(text) {
  const delimiter = 'view';
  if (text.includes(`)${delimiter}"`)) throw new Error('the text holds the end of a raw literal');
  const pieces = text.match(/[\s\S]{1,60000}/g);
  return pieces.map((piece) => `R"${delimiter}(${piece})${delimiter}"`).join('\n');
}

/** The page is well-formed XML too: a section of character data inside comments of the script. */
function characterData(text) {
  return `/*<![CDATA[*/${text.replaceAll(']]>', ']] >')}/*]]>*/`;
}

const notice = '/* felloe, GPL-3.0-or-later */';
const script = characterData(await bundled('main.js', { js: notice }));
const style = await bundled('view.css', {});
for (const [text, end] of [[script, '</script'], [script, '<!--'], [style, '</style']])
  if (text.includes(end)) throw new Error(`${end} inside the text would end its element`);

writeFileSync(
  `${output}.part`,
  `// Made by post/view/bundle.mjs; do not edit.
#include "post/detail/view_bundle.h"
namespace felloe::detail {
const char *const view_script =
${literal(script)};
const char *const view_style =
${literal(style)};
}  // namespace felloe::detail
`,
);
renameSync(`${output}.part`, output);
