// Recorders who type, and readers who look.
import { randomBytes } from 'node:crypto';
import { performance } from 'node:perf_hooks';
import { sleep } from './client.mjs';

const pace = 2000; // ms from one change of a recorder to the next
const glance = 3000; // ms from one look of a reader to the next
const sent = new Map(); // uid of a change -> when it was sent, until another has heard of it

/** A change every two seconds: lines added, a cell put right, a change taken back. Own mistakes only: nothing may be refused. */
export async function record(client, number, world) {
  client.listen((uid) => {
    const when = sent.get(uid);
    if (when === undefined || when.by === number) return;
    world.first_news.push(performance.now() - when.at);
    sent.delete(uid);
  });
  await sleep((pace * (number % 50)) / 50);
  let turn = 0;
  let own = null; // {uid, count} of the line added last
  let last = null; // seq of the change that added it
  for (let next = Date.now(); Date.now() < world.until; next += pace) {
    await sleep(Math.max(0, next - Date.now()));
    turn += 1;
    const change = randomBytes(16).toString('hex');
    const undo = turn % 10 === 0 && last !== null;
    const set = !undo && turn % 3 === 0 && own !== null;
    const step = set
      ? { do: 'set', kind: 'sherds', row: own.uid, column: 'count', seen: own.count, value: String(Number(own.count) + 1) }
      : { do: 'add', kind: 'sherds', values: { context: String(1001 + ((number * 4 + turn) % 200)), fabric: `grey-${1 + ((number + turn) % 25)}`, form: `jar-${1 + (turn % 10)}`, count: '2', weight_g: '12.5' } };
    sent.set(change, { at: performance.now(), by: number });
    try {
      const answer = undo ? await client.ask('POST', '/api/undo', { change: last }) : await client.ask('POST', '/api/edits', { change, label: 'load', steps: [step] });
      world.saves.push(answer.took);
      if (answer.status !== 200) {
        world.errors.push(`save: ${answer.status} ${answer.body.slice(0, 300)}`);
        continue;
      }
      const document = JSON.parse(answer.body);
      world.newest = Math.max(world.newest, (document.seq ?? 0) - 20);
      if (undo) {
        world.added -= 1;
        own = last = null;
      } else if (set) {
        own.count = step.value;
        last = null;
      } else {
        world.added += 1;
        own = { uid: document.rows[0].uid, count: '2' };
        last = document.seq;
      }
    } catch (error) {
      world.errors.push(`save: ${error.message}`);
    }
  }
}

/** What pages ask for, one after the other. */
export async function read(client, number, world) {
  const looks = [
    () => `/api/lines?where=context%3D${1001 + ((number * 11 + world.reads.length) % 200)}`,
    () => '/api/site',
    () => '/api/queue',
    () => '/api/tally?by=fabric',
    () => `/api/changes?since=${world.newest}`,
    () => `/api/rows?kind=sherds&where=context%3D${1001 + (world.reads.length % 200)}`,
    () => '/api/find?text=grey-3',
  ];
  await sleep((glance * (number % 20)) / 20);
  for (let turn = number; Date.now() < world.until; turn += 1) {
    const path = looks[turn % looks.length]();
    try {
      const answer = await client.ask('GET', path);
      world.reads.push(answer.took);
      const asked = path.split('?')[0];
      if (!world.by_path.has(asked)) world.by_path.set(asked, []);
      world.by_path.get(asked).push(answer.took);
      if (answer.status !== 200) world.errors.push(`GET ${path}: ${answer.status} ${answer.body.slice(0, 300)}`);
    } catch (error) {
      world.errors.push(`GET ${path}: ${error.message}`);
    }
    await sleep(glance);
  }
}
