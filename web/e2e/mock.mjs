// Serves the built page and the recorded answers, under the headers that the program itself sends.
// node e2e/mock.mjs [PORT]
import { createServer } from 'node:http';
import { readFileSync, statSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Store } from './mock_store.mjs';
import { comparison_key, series_key, tally_key, write_key } from './requests.mjs';

const kPort = Number(process.argv[2] ?? 4173);
const kDist = process.env.DIST ? join(process.env.DIST, '/') : fileURLToPath(new URL('../dist/', import.meta.url));
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
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

const fixture = (name) => JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8'));
const answers = {
  '/api/session': { ok: true, account: '', recorder: 'recorder', role: 'owner', must_change: false },
  '/api/site': fixture('site'),
  '/api/findings': fixture('findings'),
  '/api/changes': fixture('changes'),
  '/api/stratigraphy': fixture('stratigraphy'),
  '/api/series': fixture('series-list'),
  '/api/published': fixture('published'),
  '/api/pieces': fixture('pieces'),
  '/api/drawings': fixture('drawings'),
};
const dates = fixture('dates');
const dates_in_brief = fixture('dates-in-brief');
const tallies = fixture('tallies');
const series = { ...fixture('series'), ...fixture('vessels') };
const vessel_writes = fixture('vessel-writes');
const comparisons = fixture('comparisons');
const phases = fixture('phases-of-contexts');
const { columns, rows, ...lines_reply } = fixture('lines');
const lines = rows.map((row) => Object.fromEntries(columns.map((name, at) => [name, row[at]])));

const record = fixture('rows');

/** A record for whoever names one in a cookie, so that tests that write do not meet; all others share one. */
const stores = new Map();
function store_of(request) {
  const name = /(?:^|; )bench=([^;]+)/.exec(request.headers.cookie ?? '')?.[1] ?? 'all';
  return stores.get(name) ?? stores.set(name, new Store(record)).get(name);
}
const pictures = new Map();

function refused(code, message, hint) {
  const where = { file: null, sheet: null, row: null, line: null, column: null, id: null };
  const provenance = { version: '', inputs: [], settings: {}, seed: null };
  return { ok: false, errors: [{ code, message, where, hint }], warnings: [], provenance };
}

const groups = Object.fromEntries(record.fabrics.map(({ values }) => [values.fabric, values.ware_group ?? '']));

/** FIELD=VALUE, FIELD!=VALUE, FIELD=ONE||OTHER */
function condition_of(text) {
  const at = text.indexOf('=');
  const not = text[at - 1] === '!';
  return { field: text.slice(0, not ? at - 1 : at), not, wanted: text.slice(at + 1).split('||') };
}
function list_lines(query) {
  const conditions = query.getAll('where').map(condition_of);
  const joined = { 'context.phase': (line) => phases[line.context], 'fabric.ware_group': (line) => groups[line.fabric] };
  const value = (line, field) => String((joined[field]?.(line) ?? line[field]) ?? '');
  const chosen = lines.filter((line) => conditions.every(({ field, not, wanted }) => wanted.includes(value(line, field)) !== not));
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
  if (answers[path] && !(path === '/api/pieces' && query.has('vessel'))) return [200, answers[path]];
  if (path === '/api/lines') return [200, list_lines(query)];
  if (path === '/api/tally') {
    const key = tally_key({ by: query.getAll('by').join(','), where: query.getAll('where'), intervals: query.get('intervals') });
    const tally = tallies[key];
    return tally ? [200, tally] : [404, refused('not_recorded', `no fixture holds ${key}`, 'add it to e2e/requests.mjs')];
  }
  if (['/api/when', '/api/evidence', '/api/read', '/api/drawing', '/api/plates', '/api/capacity', '/api/matches', '/api/pieces', '/api/rim-chart', '/api/brief'].includes(path)) {
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
  return { ...base, id: job.id, use_case: job.use_case, state: job.state, fraction: job.fraction, text: `context ${job.step} of ${kSteps}`, stale: false, stale_since: null };
}
function start_job({ use_case, request }) {
  const job = { id: String(jobs.size + 1), use_case, request, state: 'running', fraction: 0, step: 0, told: new Set() };
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

/** A figure that is recorded in one width alone is given in that. */
function compared(request) {
  const key = comparison_key(request);
  return comparisons[key] ?? comparisons[comparison_key({ ...request, width: 120 })] ?? [404, refused('not_recorded', `no fixture holds ${key}`, 'add it to e2e/requests.mjs')];
}
async function handle_job(request, path, response) {
  const { method } = request;
  if (method === 'POST') return send(response, 202, job_state(start_job(JSON.parse((await body_of(request)).toString()))));
  const [, , , id, part] = path.split('/');
  const job = jobs.get(id);
  if (!job) return send(response, 404, refused('not_found', `there is no job ${id}`, ''));
  if (method === 'DELETE') {
    if (job.state === 'running') job.end('stopped');
    return send(response, 200, job_state(job));
  }
  if (part === 'result') {
    return job.state === 'done'
      ? send(response, ...(job.use_case === 'compare' ? compared(job.request) : [200, dates_in_brief]))
      : send(response, 409, refused('not_done', `job ${id} is not done`, 'wait for its events'));
  }
  if (part !== 'events') return send(response, 200, job_state(job));
  response.writeHead(200, { ...kHeaders, 'Content-Type': 'text/event-stream' });
  response.write(`event: ${job.state === 'running' ? 'progress' : 'done'}\ndata: ${JSON.stringify(job_state(job))}\n\n`);
  if (job.state !== 'running') return response.end();
  job.told.add(response);
  response.on('close', () => job.told.delete(response));
}

/** Told of what is written here from now on, and held. */
function hold_listener(request, response) {
  response.writeHead(200, { ...kHeaders, 'Content-Type': 'text/event-stream' });
  if (request.method === 'HEAD') return response.end();
  response.write('retry: 1000\n\n');
  const { told } = store_of(request);
  told.add(response);
  response.on('close', () => told.delete(response));
}

async function body_of(request) {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts);
}

/** What recording asks of the program; null where it is something else. */
async function handle_record(request, url) {
  const store = store_of(request);
  const query = url.searchParams;
  const page = () => ({ ok: true, errors: [], warnings: [], ...store.page(query.get('kind'), query.getAll('where'), Number(query.get('limit') ?? 1000), Number(query.get('offset') ?? 0)) });
  if (request.method === 'POST' && url.pathname === '/api/files') {
    const bytes = await body_of(request);
    const name = `picture-${pictures.size + 1}`;
    pictures.set(name, bytes);
    return [200, { ok: true, errors: [], warnings: [], name }];
  }
  if (request.method === 'POST') {
    const body = JSON.parse((await body_of(request)).toString() || '{}');
    if (url.pathname === '/api/edits') return store.edit(body, 'recorder');
    if (url.pathname === '/api/undo') return store.undo(body.change, 'recorder');
    if (url.pathname === '/api/renumberings') return store.renumber(body, 'recorder');
    const [status, document] = vessel_writes[write_key(url.pathname, body)] ?? [];
    if (status === 200 && body.change) return [200, { ...document, seq: store.done(body, 'recorder') }];
    if (status) return [status, document];
    return null;
  }
  if (url.pathname === '/api/rows') return [200, page()];
  if (url.pathname === '/api/queue') return [200, store.queue()];
  if (url.pathname === '/api/find') return [200, store.find(query.get('text') ?? '')];
  if (url.pathname === '/api/links') return [200, store.links(query.get('record') ?? '')];
  if (url.pathname === '/api/similar') return [200, store.similar(query.get('record') ?? '')];
  if (url.pathname === '/api/findings' && query.has('context')) return [200, { ...answers['/api/findings'], findings: [] }];
  return null;
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

createServer(async (request, response) => {
  const url = new URL(request.url, 'http://127.0.0.1');
  if (url.pathname.startsWith('/api/jobs')) return handle_job(request, url.pathname, response);
  if (url.pathname === '/api/feed') return hold_listener(request, response);
  if (url.pathname === '/api/files' && request.method === 'GET') {
    const bytes = pictures.get(url.searchParams.get('name'));
    response.writeHead(bytes ? 200 : 404, { ...kHeaders, 'Content-Type': 'image/png' });
    return response.end(bytes);
  }
  const recorded = url.pathname.startsWith('/api/') ? await handle_record(request, url) : null;
  if (recorded) return send(response, ...recorded);
  if (url.pathname.startsWith('/api/')) return send(response, ...get(url.pathname, url.searchParams));
  send_file(response, url.pathname);
}).listen(kPort, '127.0.0.1', () => console.log(`http://127.0.0.1:${kPort}/`));
