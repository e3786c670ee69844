// Records the answers that the tests' server gives: node e2e/record.mjs PATH/TO/sherdwright
// The demo site is made from its seed in a temporary folder, so that the same program gives the same fixtures.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { kTallies, tally_key } from './requests.mjs';

const program = resolve(process.argv[2] ?? '../build/release/sherdwright');
const out = fileURLToPath(new URL('fixtures/', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'sherdwright-record-'));

/** A refusal by the checks (exit 1) is an answer, too. */
function run(...words) {
  const options = { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] };
  try {
    return execFileSync(program, words, options);
  } catch (error) {
    if (error.status === 1 && error.stdout) return error.stdout;
    throw error;
  }
}
function answer(...words) {
  return JSON.parse(run(...words, '--json'));
}
function keep(name, value) {
  writeFileSync(join(out, `${name}.json`), `${JSON.stringify(value)}\n`);
}

mkdirSync(out, { recursive: true });
run('demo', 'demo');
const store = 'demo/tanyard.sherds';
keep('site', answer('site', store));
keep('findings', answer('check', store));
keep('changes', answer('history', store));
const dates = answer('date', store, '--only-spot');
for (const context of dates.contexts) context.apportioned = context.apportioned.map(rounded);
keep('dates', dates);
keep('lines', slim(answer('lines', store, '--limit', '100000')));
keep('phases-of-contexts', phases(dates));
const tallies = {};
for (const request of kTallies) {
  const words = ['tally', store, '--by', request.by];
  for (const one of request.where ?? []) words.push('--where', one);
  if (request.intervals) words.push('--intervals', String(request.intervals));
  tallies[tally_key(request)] = answer(...words);
}
keep('tallies', tallies);
rmSync(folder, { recursive: true });

function rounded(bin) {
  return { ...bin, value: Math.round(bin.value * 1000) / 1000 };
}
/** Lines as a table of columns and rows, a third of the size. */
function slim(document) {
  const columns = Object.keys(document.lines[0]);
  return { ...document, lines: undefined, columns, rows: document.lines.map((line) => columns.map((name) => line[name])) };
}
function phases(document) {
  return Object.fromEntries(document.contexts.map((context) => [context.context, context.phase]));
}
