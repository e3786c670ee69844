// A finds room at work on one server, and clients that mean no good beside it. See `run`.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Client, sleep } from './client.mjs';
import { read, record } from './people.mjs';
import { slow_clients } from './slow.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const program = process.env.SHERDWRIGHT ?? join(root, 'build/release/sherdwright');
const goals = { median: 50, p99: 300 }; // ms of a save
const { values: options } = parseArgs({
  options: {
    seconds: { type: 'string', default: '600' },
    recorders: { type: 'string', default: '50' },
    readers: { type: 'string', default: '20' },
    slow: { type: 'string', default: '40' },
    lines: { type: 'string', default: '20000' },
    store: { type: 'string', default: '' },
  },
});
const seconds = Number(options.seconds);
const folder = mkdtempSync(join(tmpdir(), 'sherd-load-'));
const store = options.store === 'postgres' ? (process.env.SHERD_TEST_POSTGRES ?? '') : options.store || join(folder, 'load.sherds');
if (!store) {
  console.error('There is no database server: run this by tools/postgres_for_tests.');
  process.exit(2);
}
const run = (...words) => execFileSync(program, words, { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'inherit'] });

function make_store() {
  const table = (name, rows) => writeFileSync(join(folder, name), rows.join('\n') + '\n');
  const contexts = Array.from({ length: 200 }, (_, i) => 1001 + i);
  table('contexts.csv', ['context,deposit', ...contexts.map((one) => `${one},dump`)]);
  table('fabrics.csv', ['fabric,earliest,latest,reference', ...Array.from({ length: 25 }, (_, i) => `grey-${i + 1},${40 + i * 10},${140 + i * 10},load`)]);
  table('forms.csv', ['form', ...Array.from({ length: 10 }, (_, i) => `jar-${i + 1}`)]);
  table('sherds.csv', [
    'context,fabric,form,part,count,weight_g',
    ...Array.from({ length: Number(options.lines) }, (_, i) => `${contexts[(i * 7) % 200]},grey-${1 + (i % 25)},jar-${1 + (i % 10)},${i % 3 ? 'body' : 'rim'},${1 + (i % 9)},${(3 + (i % 400) / 10).toFixed(1)}`),
  ]);
  run('new', store, '--site', 'LOAD26', '--title', 'Load');
  for (const kind of ['contexts', 'fabrics', 'forms', 'sherds']) run('import', store, join(folder, `${kind}.csv`), '--as', kind, '--json');
}

function make_accounts(names) {
  const file = join(folder, 'accounts.csv');
  const secret = join(folder, 'password');
  writeFileSync(secret, 'grey rim slipped foot\n');
  for (const [name, role] of names) run('account', file, name, '--role', role, '--password-from', secret, '--json');
  return file;
}

const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
function told(times) {
  const sorted = times.toSorted ? times.toSorted((a, b) => a - b) : [...times].sort((a, b) => a - b);
  return { n: sorted.length, median: at(sorted, 0.5), p99: at(sorted, 0.99), most: sorted.at(-1) ?? NaN };
}
const ms = (value) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;
/** Seconds of a core that a process has had (proc(5): utime and stime, in hundredths). */
const core_seconds = (pid) => {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
  return (Number(fields[11]) + Number(fields[12])) / 100;
};
const megabytes = (pid, what) => Math.round(Number(new RegExp(`${what}:\\s+(\\d+)`).exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / 1024);

async function main() {
  make_store();
  const names = [
    ...Array.from({ length: Number(options.recorders) }, (_, i) => [`recorder${i}`, 'recorder']),
    ...Array.from({ length: Number(options.readers) }, (_, i) => [`reader${i}`, 'reader']),
  ];
  const server = spawn(program, ['serve', store, '--port', '0', '--accounts', make_accounts(names)], { stdio: ['ignore', 'pipe', 'inherit'] });
  const url = await new Promise((is) => server.stdout.once('data', (bytes) => is(new URL(String(bytes).trim()))));
  const clients = [];
  for (const [name] of names) {
    const client = new Client(url);
    await client.sign_in(name, 'grey rim slipped foot');
    clients.push(client);
  }
  const before = run('lines', store, '--limit', '1', '--json');
  const begun = { memory: megabytes(server.pid, 'VmRSS'), lines: JSON.parse(before).total, core: core_seconds(server.pid) };
  const world = { until: Date.now() + seconds * 1000, saves: [], reads: [], first_news: [], by_path: new Map(), errors: [], added: 0, newest: 0 };
  const slow = slow_clients(url, clients[0].cookie, Number(options.slow));
  const people = clients.map((client, i) => (names[i][1] === 'recorder' ? record(client, i, world) : read(client, i, world)));
  const progress = setInterval(() => console.error(`  ${Math.round((world.until - Date.now()) / 1000)} s left, ${world.saves.length} saves, ${world.errors.length} errors`), 30_000);
  await Promise.all(people);
  clearInterval(progress);
  await sleep(500);
  const memory = { now: megabytes(server.pid, 'VmRSS'), most: megabytes(server.pid, 'VmHWM'), core: core_seconds(server.pid) };
  const slowed = slow.stop();
  for (const client of clients) client.close();
  server.kill('SIGTERM');
  const code = await new Promise((is) => server.once('exit', is));
  const lines = JSON.parse(run('lines', store, '--limit', '1', '--json')).total;
  const verified = JSON.parse(run('verify', store, '--json')).ok;
  report({ begun, memory, slowed, lines, verified, code, world });
}

function report({ begun, memory, slowed, lines, verified, code, world }) {
  const saves = told(world.saves);
  const reads = told(world.reads);
  const news = told(world.first_news);
  console.log(`${options.recorders} recorders, ${options.readers} readers, ${options.slow} slow clients, ${seconds} s, ${begun.lines} lines to begin with, ${store.startsWith('postgres') ? 'PostgreSQL' : 'a file'}\n`);
  console.log('| | how many | median | 99th percentile | slowest |\n|---|---|---|---|---|');
  const paths = [...world.by_path].sort().map(([path, times]) => [`&ensp;of ${path}`, told(times)]);
  for (const [what, one] of [['saves', saves], ['reads', reads], ...paths, ['news of a change, at another recorder', news]])
    console.log(`| ${what} | ${one.n} | ${ms(one.median)} | ${ms(one.p99)} | ${ms(one.most)} |`);
  console.log(`\nmemory ${begun.memory} MB at the start, ${memory.now} MB at the end, ${memory.most} MB at most; ${(memory.core - begun.core).toFixed(0)} s of a core; slow clients: ${slowed}`);
  const missed = [];
  if (world.errors.length) missed.push(`${world.errors.length} errors, the first: ${world.errors[0]}`);
  if (!(saves.median < goals.median)) missed.push(`the median save took ${ms(saves.median)}, not under ${goals.median} ms`);
  if (!(saves.p99 < goals.p99)) missed.push(`one save in a hundred took over ${ms(saves.p99)}, not under ${goals.p99} ms`);
  if (lines !== begun.lines + world.added) missed.push(`${world.added} lines were acknowledged, ${lines - begun.lines} are there`);
  if (!verified) missed.push('verify found damage');
  if (code !== 0) missed.push(`the server ended with ${code}`);
  console.log(missed.length ? `missed: ${missed.join('; ')}` : `all ${world.added} lines that were acknowledged are there; every goal met`);
  process.exitCode = missed.length ? 1 : 0;
}

try {
  await main();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
