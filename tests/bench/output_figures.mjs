// SPDX-License-Identifier: GPL-3.0-or-later
// Medians of three runs in FOLDER/1 to FOLDER/3, and what FOLDER/opens.json says of the report.
//   node output_figures.mjs FOLDER [--json]
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';

const [folder, json] = process.argv.slice(2);
const read = (...path) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));
const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const rounded = (value, digits = 2) => Number(value.toFixed(digits));
const bytes = (path) =>
  statSync(path).isDirectory()
    ? readdirSync(path).reduce((sum, name) => sum + bytes(join(path, name)), 0)
    : statSync(path).size;

const times = ['1', '2', '3'].map((run) => read(run, 'results.json').times);
const of = (figure) => rounded(median(times.map(figure)));
const opens = read('opens.json');
const figures = {
  writing_share_percent: of((t) => (100 * t.writing_processor_s) / t.processor_s),
  writing_wall_share_percent: of((t) => (100 * t.writing_wall_s) / t.wall_s),
  writing_processor_s: of((t) => t.writing_processor_s),
  run_processor_s: of((t) => t.processor_s),
  run_wall_s: of((t) => t.wall_s),
  folder_megabytes: rounded(bytes(join(folder, '1')) / 1e6, 1),
  report_megabytes: rounded(bytes(join(folder, '1', 'report.html')) / 1e6),
  report_first_paint_s: opens.first_paint_s,
  report_load_s: opens.load_s,
  report_opens_s: opens.view_answers_s,
  machine_load: rounded(loadavg()[0], 1),
};
if (json) console.log(JSON.stringify(figures));
else for (const [name, value] of Object.entries(figures)) console.log(`${name.padEnd(28)} ${value}`);
