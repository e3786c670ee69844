// Serves the built page and the recorded answers, under the headers that the program itself sends.
// node e2e/mock.mjs [PORT]
import { createServer } from 'node:http';
import { readFileSync, statSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { series_key, tally_key } from './requests.mjs';

const kPort = Number(process.argv[2] ?? 4173);
const kDist = fileURLToPath(new URL('../dist/', import.meta.url));
const kHeaders = {
  'Content-Security-Policy':
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; font-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cache-Control': 'no-store',
};
const kTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

const fixture = (name) => JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8'));
const answers = {
  '/api/site': fixture('site'),
  '/api/findings': fixture('findings'),
  '/api/changes': fixture('changes'),
};
const dates = fixture('dates');
const dates_in_brief = fixture('dates-in-brief');
const tallies = fixture('tallies');
const series = fixture('series');
const phases = fixture('phases-of-contexts');
const { columns, rows, ...lines_reply } = fixture('lines');
const lines = rows.map((row) => Object.fromEntries(columns.map((name, at) => [name, row[at]])));

function refused(code, message, hint) {
  const where = { file: null, sheet: null, row: null, line: null, column: null, id: null };
  const provenance = { version: '', inputs: [], settings: {}, seed: null };
  return { ok: false, errors: [{ code, message, where, hint }], warnings: [], provenance };
}

function list_lines(query) {
  const conditions = query.getAll('where').map((one) => [one.slice(0, one.indexOf('=')), one.slice(one.indexOf('=') + 1)]);
  const value = (line, field) => String((field === 'context.phase' ? phases[line.context] : line[field]) ?? '');
  const chosen = lines.filter((line) => conditions.every(([field, wanted]) => value(line, field) === wanted));
  const offset = Number(query.get('offset') ?? 0);
  const limit = Number(query.get('limit') ?? 200);
  const sum = (name) => {
    const known = chosen.map((line) => line[name]).filter((value) => value !== null);
    return known.length ? Math.round(1000 * known.reduce((a, b) => a + b, 0)) / 1000 : null;
  };
  return { ...lines_reply, total: chosen.length, count: sum('count'), weight_g: sum('weight_g'), lines: chosen.slice(offset, offset + limit) };
}

function date_contexts(query) {
  const wanted = query.get('context');
  const document = query.get('brief') === 'true' ? dates_in_brief : dates;
  if (wanted === null) return [200, document];
  const found = document.contexts.filter((one) => one.context === wanted);
  return found.length ? [200, { ...document, contexts: found }] : [404, refused('no_context', `the record has no context "${wanted}"`, '')];
}

function get(path, query) {
  if (path === '/api/dates') return date_contexts(query);
  if (answers[path]) return [200, answers[path]];
  if (path === '/api/lines') return [200, list_lines(query)];
  if (path === '/api/tally') {
    const key = tally_key({ by: query.getAll('by').join(','), where: query.getAll('where'), intervals: query.get('intervals') });
    const tally = tallies[key];
    return tally ? [200, tally] : [404, refused('not_recorded', `no fixture holds ${key}`, 'add it to e2e/requests.mjs')];
  }
  if (['/api/when', '/api/evidence', '/api/read'].includes(path)) {
    const key = series_key(path, query);
    return series[key] ?? [404, refused('not_recorded', `no fixture holds ${key}`, 'add it to e2e/requests.mjs')];
  }
  return [404, refused('not_found', `there is nothing at ${path}`, '')];
}

/** Jobs run for as long as their test wants: 0.3 s, or 12 s where the server is started with --slow. */
const jobs = new Map();
const kSteps = process.argv.includes('--slow') ? 120 : 3;

function job_state(job) {
  const base = { ok: true, errors: [], warnings: [], provenance: lines_reply.provenance };
  return { ...base, id: job.id, use_case: 'date', state: job.state, fraction: job.fraction, text: `context ${job.step} of ${kSteps}`, stale: false, stale_since: null };
}
function start_job() {
  const job = { id: String(jobs.size + 1), state: 'running', fraction: 0, step: 0, told: new Set() };
  const tell = (kind) => {
    for (const response of job.told) response.write(`event: ${kind}\ndata: ${JSON.stringify(job_state(job))}\n\n`);
  };
  job.end = (state) => {
    clearInterval(job.timer);
    job.state = state;
    tell('done');
    for (const response of job.told) response.end();
  };
  job.timer = setInterval(() => {
    job.step += 1;
    job.fraction = job.step / kSteps;
    if (job.step >= kSteps) job.end('done');
    else tell('progress');
  }, 100);
  jobs.set(job.id, job);
  return job;
}

function handle_job(method, path, response) {
  if (method === 'POST') return send(response, 202, job_state(start_job()));
  const [, , , id, part] = path.split('/');
  const job = jobs.get(id);
  if (!job) return send(response, 404, refused('not_found', `there is no job ${id}`, ''));
  if (method === 'DELETE') {
    if (job.state === 'running') job.end('stopped');
    return send(response, 200, job_state(job));
  }
  if (part === 'result') {
    return job.state === 'done'
      ? send(response, 200, dates_in_brief)
      : send(response, 409, refused('not_done', `job ${id} is not done`, 'wait for its events'));
  }
  if (part !== 'events') return send(response, 200, job_state(job));
  response.writeHead(200, { ...kHeaders, 'Content-Type': 'text/event-stream' });
  response.write(`event: ${job.state === 'running' ? 'progress' : 'done'}\ndata: ${JSON.stringify(job_state(job))}\n\n`);
  if (job.state !== 'running') return response.end();
  job.told.add(response);
  response.on('close', () => job.told.delete(response));
}

/** Nothing changes here: listeners are told where they stand, and held. */
function hold_listener(method, response) {
  response.writeHead(200, { ...kHeaders, 'Content-Type': 'text/event-stream' });
  if (method === 'HEAD') return response.end();
  response.write('retry: 1000\n\n');
}

function send(response, status, body) {
  response.writeHead(status, { ...kHeaders, 'Content-Type': 'application/json' });
  response.end(JSON.stringify(body));
}

function send_file(response, path) {
  const file = join(kDist, normalize(path === '/' ? 'index.html' : path));
  if (!file.startsWith(kDist) || !statSync(file, { throwIfNoEntry: false })?.isFile()) {
    response.writeHead(404, kHeaders);
    return response.end();
  }
  response.writeHead(200, { ...kHeaders, 'Content-Type': kTypes[extname(file)] ?? 'application/octet-stream' });
  response.end(readFileSync(file));
}

createServer((request, response) => {
  const url = new URL(request.url, 'http://127.0.0.1');
  if (url.pathname.startsWith('/api/jobs')) return handle_job(request.method, url.pathname, response);
  if (url.pathname === '/api/feed') return hold_listener(request.method, response);
  if (url.pathname.startsWith('/api/')) return send(response, ...get(url.pathname, url.searchParams));
  send_file(response, url.pathname);
}).listen(kPort, '127.0.0.1', () => console.log(`http://127.0.0.1:${kPort}/`));
