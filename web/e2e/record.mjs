// Records the answers that the tests' server gives: node e2e/record.mjs PATH/TO/sherdwright
// The demo site is made from its seed in a temporary folder, so that the same program gives the same fixtures.
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { comparison_key, kChemistry, kComparisons, kDrawnTallies, kPublic, kSeries, kTallies, kVessels, kVesselWrites, series_key, tally_key, write_key } from './requests.mjs';

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
  return lasting(JSON.parse(run(...words, '--json')));
}
function keep(name, value) {
  writeFileSync(join(out, `${name}.json`), `${JSON.stringify(value)}\n`);
}

/** In place of a document that names the change it was made of within its packed bytes. */
const kAnyPdf = Buffer.from('%PDF-1.5\n%%EOF\n').toString('base64');
const kPdfBegins = Buffer.from('%PDF-1.').toString('base64').slice(0, 8);

/** Who, when and the random names of changes differ from run to run; what they say does not. */
function lasting(document) {
  const uids = new Map();
  const named = (uid) => uids.get(uid) ?? uids.set(uid, String(uids.size + 1).padStart(32, '0')).get(uid);
  const told = (name, value) => {
    if (name === 'at') return '2026-03-02T09:00:00Z';
    if (name === 'who') return 'recorder';
    if (name === 'uid' && typeof value === 'string' && value !== '') return named(value);
    if (typeof value === 'string' && value.startsWith(kPdfBegins)) return kAnyPdf;
    return typeof value === 'string' ? value.replace(/\b[0-9a-f]{32}\b/g, named) : value;
  };
  return JSON.parse(JSON.stringify(document), function (name, value) {
    return told(name, value);
  });
}

/** A table of the demo as rows by column; no cell of it holds a line's end. */
function table(kind) {
  const [head, ...body] = readFileSync(join(folder, 'demo', `${kind}.csv`), 'utf8').trim().split(/\r?\n/).map((line) => cells(line));
  return body.map((row) => Object.fromEntries(head.map((column, at) => [column, row[at] ?? ''])));
}
function cells(line) {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map((match) => match[1]?.replace(/""/g, '"') ?? match[2] ?? '');
}
/** The rows of the kinds that are recorded, under names that stay. */
function rows_of_record(lines) {
  const kinds = Object.fromEntries(['contexts', 'relations', 'phases', 'fabrics', 'forms', 'rims', 'joins', 'drawings', 'pieces', 'bands', 'rates', 'estimates', 'hours', 'texts', 'bibliography'].map((kind) => [kind, table(kind)]));
  kinds.sherds = lines.rows.map((row) => Object.fromEntries(lines.columns.map((column, at) => [column, row[at] === null ? '' : String(row[at])])));
  return Object.fromEntries(
    Object.entries(kinds).map(([kind, rows], number) => [
      kind,
      rows.map((values, at) => ({
        uid: `${number + 1}`.padStart(2, '0') + String(at + 1).padStart(30, '0'),
        values: Object.fromEntries(Object.entries(values).filter(([, value]) => value !== '')),
      })),
    ]),
  );
}

mkdirSync(out, { recursive: true });
run('demo', 'demo');
const store = 'demo/tanyard.sherds';
keep('site', answer('site', store));
keep('findings', answer('check', store));
keep('changes', answer('history', store));
keep('series-list', answer('series', store));
keep('stratigraphy', answer('stratigraphy', store, '--picture'));
const dates = answer('date', store, '--only-spot');
for (const context of dates.contexts) context.apportioned = context.apportioned.map(rounded);
keep('dates', dates);
keep('dates-in-brief', answer('date', store, '--only-spot', '--brief'));
const lines = slim(answer('lines', store, '--limit', '100000'));
keep('lines', lines);
keep('rows', rows_of_record(lines));
keep('phases-of-contexts', phases(dates));
const tallies = {};
for (const request of kTallies) {
  const words = ['tally', store, '--by', request.by];
  for (const one of request.where ?? []) words.push('--where', one);
  if (request.intervals) words.push('--intervals', String(request.intervals));
  tallies[tally_key(request)] = answer(...words);
}
const served = await serve();
keep('pieces', answer('pieces', store));
keep('drawings', answer('drawings', store));
keep('report', Object.fromEntries([1, 2, 3].map((type) => [type, answer('report-check', store, '--type', String(type), '--fields')])));
try {
  keep('series', await series(served.ask, kSeries));
  keep('vessels', await series(served.ask, kVessels));
  keep('public', await series(served.ask, kPublic));
  keep('chemistry', short(await series(served.ask, kChemistry)));
  for (const request of kDrawnTallies) {
    const [, document] = await served.ask('/api/tally', { ...request, picture: request.give ? undefined : 'true' });
    tallies[tally_key(request)] = short(document);
  }
  keep('tallies', tallies);
  keep('comparisons', await comparisons(served.ask));
  keep('published', (await served.ask('/api/published', {}))[1]);
  keep('vessel-writes', await writes(served.tell, served.ask));
} finally {
  served.end();
}
rmSync(folder, { recursive: true });

/** The program as it serves; `ask` gives [status, document], refusals among them. */
async function serve() {
  const child = spawn(program, ['serve', store, '--port', '0'], { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'] });
  let printed = '';
  for await (const part of child.stdout) {
    printed += part;
    if (printed.includes('\n')) break;
  }
  const address = new URL(printed.split('\n')[0].trim());
  const entered = await fetch(address, { redirect: 'manual' });
  const cookie = (entered.headers.get('set-cookie') ?? '').split(';')[0];
  const ask = async (path, query) => {
    const url = new URL(path, address.origin);
    for (const [name, value] of Object.entries(query)) {
      for (const one of [value].flat()) if (one !== undefined) url.searchParams.append(name, one);
    }
    const reply = await fetch(url, { headers: { cookie } });
    return [reply.status, lasting(await reply.json())];
  };
  const tell = async (path, body) => {
    const headers = { cookie, 'content-type': 'application/json', origin: address.origin };
    const reply = await fetch(new URL(path, address.origin), { method: 'POST', headers, body: JSON.stringify(body) });
    return [reply.status, lasting(await reply.json())];
  };
  return { ask, tell, end: () => child.kill('SIGTERM') };
}
/** question -> [status, document] */
async function series(ask, questions) {
  const out = {};
  for (const [path, query] of questions) {
    const [status, document] = await ask(path, query);
    document.density = document.density?.map((bin) => ({ ...bin, value: Number(bin.value.toPrecision(6)) }));
    out[series_key(path, query)] = [status, document];
  }
  return out;
}
/** wish -> [status, document]; what writes is written, last of all. */
async function writes(tell, ask) {
  const out = {};
  const [, found] = await ask('/api/pieces', { vessel: 'P30', outlines: 'true' });
  const hundredths = (value) => Math.round(100 * value) / 100;
  const points = ['outer', 'inner', 'handle', 'handle_section'].flatMap((side) =>
    found.pieces[0].sections[0][side].map((p) => ({ side, r_mm: hundredths(p.r_mm), z_mm: hundredths(p.z_mm), conjectured: p.conjectured })),
  );
  const again = { piece: 'P30', points, values: { source: 'points', part: found.pieces[0].part }, check_only: true };
  out[write_key('/api/sections', again)] = short(await tell('/api/sections', again));
  for (const [at, [path, body]] of kVesselWrites.entries()) {
    const named = path.includes('rim') || body.check_only || body.dry_run ? body : { ...body, change: String(at + 1).padStart(32, 'e') };
    out[write_key(path, body)] = short(await tell(path, named));
  }
  return out;
}
/** Numbers of comparisons to nine digits: builds of another compiler part in the last ones. */
async function comparisons(ask) {
  const out = {};
  for (const request of kComparisons) out[comparison_key(request)] = short(await ask('/api/comparison', request));
  return out;
}
function short(document) {
  return JSON.parse(JSON.stringify(document, (_, value) => (typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(9)) : value)));
}

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
