// SPDX-License-Identifier: GPL-3.0-or-later
// Cases for the tests, made of the demo wheel: one coarse, one with names that would like to be
// markup, and a sweep of its section.
//   node make_cases.mjs DEMO.toml FOLDER
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

import { hostile } from './names.mjs';

const [demo, folder] = process.argv.slice(2);
const text = readFileSync(demo, 'utf8');

/** Every replacement must fit: a demo case that has changed must not pass unseen. */
function changed(original, replacements) {
  return replacements.reduce((result, [from, to]) => {
    if (!result.includes(from)) throw new Error(`${demo}: no '${from}' in it`);
    return result.replace(from, () => to);
  }, original);
}

writeFileSync(join(folder, 'plain.toml'), changed(text, [['accuracy_percent = 2', 'density = 0.5']]));
writeFileSync(
  join(folder, 'names.toml'),
  changed(text, [
    ['accuracy_percent = 2', 'density = 0.25'],
    ['"Demo wheel 15 x 6 J (invented)"', JSON.stringify(hostile.title)],
    ['"cornering"', JSON.stringify(hostile.bending)],
    ['"rolling"', JSON.stringify(hostile.radial)],
  ]),
);

// The largest vents cannot be made.
writeFileSync(
  join(folder, 'sweep.toml'),
  `title = ${JSON.stringify(hostile.title)}
case = "names.toml"

[plan]
kind = "full grid"
depth = "section"

[[vary]]
key = "disc.thickness[*].thickness_mm"
apply = "add"
from = -1.2
to = 0.8
steps = 6

[[vary]]
key = "vent_holes.diameter_mm"
values = [24, 30, 90]

[[vary]]
key = "rating.vent_edges"
values = ["sheared", "reamed"]
`,
);
