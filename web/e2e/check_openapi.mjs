// The API's document against a validator that is not ours, and its examples against the program serving the demo site, each answer by the
// document's own schemas: node e2e/check_openapi.mjs PATH/TO/sherdwright
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Validator } from '@seriousme/openapi-schema-validator';
import Ajv from 'ajv/dist/2020.js';

const program = resolve(process.argv[2] ?? '../build/release/sherdwright');
const folder = mkdtempSync(join(tmpdir(), 'sherdwright-openapi-'));
const run = (...words) => execFileSync(program, words, { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] });
const wrong = [];
const expect = (good, text) => good || wrong.push(text);

const document = JSON.parse(run('schema', '--openapi'));
const said = await new Validator().validate(structuredClone(document));
expect(said.valid, `not an OpenAPI document: ${JSON.stringify(said.errors)}`);
expect(document.openapi.startsWith('3.1'), `version ${document.openapi}`);
// The validator finds what is wrong with a document that is none.
const broken = structuredClone(document);
delete broken.info.title;
expect(!(await new Validator().validate(broken)).valid, 'a document without a title passed the validator');

const ajv = new Ajv({ strict: false, logger: false, allErrors: false });
ajv.addSchema(document, 'api');
const schema_at = (...path) => ({ $ref: `api#/${path.map((part) => part.replaceAll('~', '~0').replaceAll('/', '~1')).join('/')}` });
const validators = new Map();
/** What is wrong with an answer by the document; '' where nothing is. */
function fault(path, verb, status, body) {
  const at = ['paths', path, verb, 'responses', status, 'content', 'application/json', 'schema'];
  const key = at.join(' ');
  if (!validators.has(key)) validators.set(key, ajv.compile(schema_at(...at)));
  const check = validators.get(key);
  return check(body) ? '' : ajv.errorsText(check.errors);
}

let told = '';
const server = await (async () => {
  run('demo', 'demo');
  const child = spawn(program, ['serve', 'demo/tanyard.sherds', '--port', '0'], { cwd: folder, stdio: ['ignore', 'pipe', 'inherit'] });
  told = await new Promise((done, failed) => {
    child.stdout.on('data', (bytes) => done(String(bytes).trim()));
    child.on('exit', () => failed(new Error('the program ended')));
  });
  return child;
})();
const origin = new URL(told).origin;
const entered = await fetch(told, { redirect: 'manual' });
const cookie = entered.headers.get('set-cookie').split(';')[0];
const ask = (verb, path, body, type = 'application/json') =>
  fetch(origin + path, { method: verb.toUpperCase(), headers: { cookie, ...(body === undefined ? {} : { 'content-type': type }) }, body });

let answered = 0, refused = 0;
async function one(path, verb, target, status, body, type) {
  const answer = await ask(verb, target, body, type);
  const text = await answer.text();
  expect([status].flat().includes(answer.status), `${verb} ${target}: ${answer.status}, not ${status}: ${text.slice(0, 500)}`);
  let value = null;
  try {
    value = JSON.parse(text);
  } catch {
    wrong.push(`${verb} ${target}: no JSON`);
    return null;
  }
  const found = fault(path, verb, answer.status === 200 ? '200' : 'default', value);
  expect(found === '', `${verb} ${target}: ${found}`);
  if (answer.status === 200) answered++;
  else refused++;
  return value;
}
/** The first bytes of a stream of events. */
async function events(target, wanted) {
  const stop = new AbortController();
  const answer = await fetch(origin + target, { headers: { cookie }, signal: stop.signal });
  expect(answer.headers.get('content-type')?.startsWith('text/event-stream'), `${target}: no events`);
  const { value } = await answer.body.getReader().read();
  expect(new TextDecoder().decode(value).includes(wanted), `${target}: no ${wanted}`);
  stop.abort();
  answered++;
}

try {
  const kOwn = ['/api/feed', '/api/files', '/api/jobs', '/api/sessions', '/api/sign-in', '/api/sign-out', '/api/password'];
  // The demo has no scans of contexts; and what asks for longer than one answer may take is told to be a job.
  const kOther = { '/api/scan': 422, '/api/sensitivity': [200, 503] };
  for (const [path, verbs] of Object.entries(document.paths)) {
    if (kOwn.some((its) => path === its || path.startsWith(`${its}/`))) continue;
    for (const [verb, operation] of Object.entries(verbs)) {
      if (verb === 'get') {
        const query = new URLSearchParams();
        for (const { name, required, example } of operation.parameters ?? []) {
          expect(!required || example !== undefined, `${path}: no example of ${name}`);
          for (const value of [example ?? []].flat()) query.append(name, value);
        }
        await one(path, verb, `${path}?${query}`, kOther[path] ?? 200);
        if (path !== '/api/session') await one(path, verb, `${path}?no_such_name=1`, 400);
      } else if (operation.responses['200'] === undefined) {
        await one(path, verb, path, 405, '{}');
      } else {
        await one(path, verb, path, 400, '{"no_such_name": 1}');
      }
    }
  }
  // What changes: the example is done, and taken back.
  const edits = document.paths['/api/edits'].post.requestBody.content['application/json'].example;
  await one('/api/edits', 'post', '/api/edits', 200, JSON.stringify(edits));
  const history = await one('/api/changes', 'get', '/api/changes', 200);
  const newest = Math.max(...history.changes.map((change) => change.seq));
  await one('/api/undo', 'post', '/api/undo', 200, JSON.stringify({ change: newest }));
  await events('/api/feed?after=0', 'data: ');

  const job = document.paths['/api/jobs'].post.requestBody.content['application/json'].example;
  const begun = await one('/api/jobs', 'post', '/api/jobs', 200, JSON.stringify(job));
  const its = (part) => [`/api/jobs/{id}${part}`, 'get', `/api/jobs/${begun.id}${part}`];
  for (let state = 'running'; state === 'running'; ) state = (await one(...its(''), 200)).state;
  await one(...its('/result'), 200);
  await events(`/api/jobs/${begun.id}/events`, 'event: done');
  await one('/api/jobs/{id}', 'delete', `/api/jobs/${begun.id}`, 200);
  await one('/api/jobs/{id}', 'get', `/api/jobs/${begun.id}`, 404);

  const picture = readFileSync(new URL('approved/assemblage-1400-light.png', import.meta.url));
  const kept = await one('/api/files', 'post', '/api/files', 200, picture, 'application/octet-stream');
  const back = await ask('get', `/api/files?${new URLSearchParams({ name: kept.name })}`);
  expect(back.status === 200 && Buffer.from(await back.arrayBuffer()).equals(picture), 'a picture came back as another');
  answered++;
} finally {
  server.kill('SIGTERM');
  rmSync(folder, { recursive: true, force: true });
}

console.log(wrong.join('\n') || `OpenAPI ${document.openapi}, ${Object.keys(document.paths).length} paths: valid; ${answered} answers and ${refused} refusals as the document says`);
process.exit(wrong.length ? 1 : 0);
