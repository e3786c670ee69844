import { describe, expect, test } from 'vitest';
import type { Reply, Saved, Step } from './edits';
import { names_of, Outbox, type Entry, type Keep, type Told, type Wire } from './outbox';

/** The browser's database, as a list that outlives a page. */
class Shelf implements Keep {
  entries = new Map<number, Entry>();
  all = async (owner: string) => [...this.entries.values()].filter((one) => one.owner === owner).map((one) => structuredClone(one));
  put = async (entry: Entry) => void this.entries.set(entry.id, structuredClone(entry));
  drop = async (id: number) => void this.entries.delete(id);
}

/** The program, by hand: every request waits until it is answered. */
class Program implements Wire {
  asked: { path: string; body: { change: string; steps: Step[] }; answer: (reply: Reply) => void; lose: () => void }[] = [];
  waits: { milliseconds: number; then: () => void; cancelled: boolean }[] = [];
  post = (path: string, body: object) =>
    new Promise<Reply>((answer, lose) => {
      this.asked.push({ path, body: body as Program['asked'][0]['body'], answer, lose: () => lose(new TypeError('no network')) });
    });
  wait = (milliseconds: number, then: () => void) => {
    const one = { milliseconds, then, cancelled: false };
    this.waits.push(one);
    return () => (one.cancelled = true);
  };
  get last() {
    return this.asked[this.asked.length - 1] as Program['asked'][0];
  }
}

class Page implements Told {
  done: string[] = [];
  names: [string, string][] = [];
  wrong: [string, number][] = [];
  waiting = 0;
  why = '';
  saved = (entry: Entry, _saved: Saved, names: ReadonlyMap<string, string>) => {
    this.done.push(entry.label);
    this.names.push(...names);
  };
  refused = (entry: Entry, reply: Reply) => void this.wrong.push([entry.label, reply.status]);
  state = (waiting: number, why: string) => {
    this.waiting = waiting;
    this.why = why;
  };
}

const set = (row: string, value: string, seen = '', column = 'count'): Step => ({ do: 'set', kind: 'sherds', row, column, seen, value });
const add = (values: Record<string, string>): Step => ({ do: 'add', kind: 'sherds', values });
const change = (label: string, steps: Step[], temps: string[] = []) => ({ path: '/api/edits', label, change: `change-${label}`, steps, temps });
const saved = (rows: Saved['rows'] = []): Reply => ({ status: 200, body: { seq: 1, change: '', rows, notes: [] } });
const row = (uid: string, values: Record<string, string> = {}) => ({ kind: 'sherds', uid, values });
const settle = () => new Promise((then) => setTimeout(then));

function bench() {
  const shelf = new Shelf();
  const program = new Program();
  const page = new Page();
  return { shelf, program, page, box: new Outbox('me', shelf, program, page) };
}

describe('changes on their way', () => {
  test('go one after the other, in order, and leave the shelf when they are answered', async () => {
    const { shelf, program, page, box } = bench();
    await box.put(change('a', [set('r', '1')]));
    await box.put(change('b', [set('s', '2')]));
    expect(program.asked).toHaveLength(1);
    expect(shelf.entries.size).toBe(2);
    program.last.answer(saved());
    await settle();
    expect(program.asked.map((one) => one.body.change)).toEqual(['change-a', 'change-b']);
    expect(shelf.entries.size).toBe(1);
    program.last.answer(saved());
    await settle();
    expect(page.done).toEqual(['a', 'b']);
    expect([shelf.entries.size, page.waiting]).toEqual([0, 0]);
  });

  test('a lost connection keeps them, says why, and sends the same change again', async () => {
    const { shelf, program, page, box } = bench();
    await box.put(change('a', [set('r', '1')]));
    await box.put(change('b', [set('r', '2')]));
    program.last.lose();
    await settle();
    expect([page.waiting, page.why]).toEqual([2, 'no_program']);
    expect(shelf.entries.size).toBe(2);
    expect(program.waits[0]?.milliseconds).toBe(500);
    program.waits[0]?.then();
    await settle();
    expect(program.asked[1]?.body.change).toBe('change-a');
    program.last.lose();
    await settle();
    expect(program.waits[1]?.milliseconds).toBe(1000);
    box.resume();
    program.last.answer(saved());
    await settle();
    expect(page.why).toBe('');
    expect(program.last.body.change).toBe('change-b');
  });

  test('a browser without leave, or a program that is busy, is asked again; a refusal is not', async () => {
    const { program, page, box } = bench();
    for (const status of [401, 429, 503]) {
      void box.put(change(`again-${status}`, [set('r', '1')]));
      await settle();
      program.last.answer({ status, body: null });
      await settle();
      expect(page.why).toBe(`http_${status}`);
      box.resume();
      program.last.answer(saved());
      await settle();
    }
    void box.put(change('wrong', [set('r', 'x')]));
    await settle();
    program.last.answer({ status: 400, body: { problems: [{}] } });
    await settle();
    expect(page.wrong).toEqual([['wrong', 400]]);
    expect(page.waiting).toBe(0);
  });

  test('an error inside the program that says what is wrong ends the change; one that says nothing is tried again', async () => {
    const { program, page, box } = bench();
    void box.put(change('a', [set('r', '1')]));
    await settle();
    program.last.answer({ status: 500, body: null });
    await settle();
    expect(page.wrong).toEqual([]);
    box.resume();
    program.last.answer({ status: 500, body: { errors: [{ message: 'the disk is full' }] } });
    await settle();
    expect(page.wrong).toEqual([['a', 500]]);
  });

  test('what a closed page left is sent by the next one of the same name, under the same name of the change', async () => {
    const { shelf, program, box } = bench();
    await box.put(change('a', [set('r', '1')]));
    await box.put(change('b', [set('r', '2')]));
    program.last.lose();
    await settle();
    const next = new Program();
    const page = new Page();
    const again = new Outbox('me', shelf, next, page);
    await again.begin();
    expect(next.last.body.change).toBe('change-a');
    next.last.answer(saved());
    await settle();
    next.last.answer(saved());
    await settle();
    expect(page.done).toEqual(['a', 'b']);
    expect(shelf.entries.size).toBe(0);
  });

  test('an edit of a row that is being added waits for its name, also over a reload', async () => {
    const { shelf, program, page, box } = bench();
    await box.put(change('add', [add({ fabric: 'grey-1', count: '3' })], ['~1']));
    await box.put(change('edit', [set('~1', '5', '')]));
    program.last.answer(saved([row('uid-1', { fabric: 'grey-1', count: '3' })]));
    await settle();
    expect(page.names).toEqual([['~1', 'uid-1']]);
    expect(program.last.body.steps[0]).toMatchObject({ row: 'uid-1', seen: '3' });
    expect([...shelf.entries.values()][0]?.steps[0]?.row).toBe('uid-1');
  });

  test('two edits of one cell do not meet each other: the second has seen what the first became', async () => {
    const { program, box } = bench();
    await box.put(change('a', [set('r', '12+7', '')]));
    await box.put(change('b', [set('r', '20', '')]));
    program.last.answer(saved([row('r', { count: '19' })]));
    await settle();
    expect(program.last.body.steps[0]?.seen).toBe('19');
  });

  test('what someone else wrote meanwhile is not taken for seen', async () => {
    const { program, box } = bench();
    await box.put(change('a', [set('r', '1', '', 'count')]));
    await box.put(change('b', [set('r', '2', '', 'weight_g')]));
    program.last.answer(saved([row('r', { count: '1', weight_g: '77' })]));
    await settle();
    expect(program.last.body.steps[0]?.seen).toBe('');
  });

  test('one that is not sent yet can be taken back; one that is on its way can not', async () => {
    const { program, box, shelf } = bench();
    await box.put(change('a', [set('r', '1')]));
    await box.put(change('b', [set('r', '2')]));
    expect(await box.take_back('change-a')).toBe(false);
    expect(await box.take_back('change-b')).toBe(true);
    expect(shelf.entries.size).toBe(1);
    program.last.answer(saved());
    await settle();
    expect(program.asked).toHaveLength(1);
  });

  test('a browser that keeps nothing still sends', async () => {
    const { program, page } = bench();
    const none: Keep = { all: () => Promise.reject(new Error()), put: () => Promise.reject(new Error()), drop: () => Promise.reject(new Error()) };
    const box = new Outbox('me', none, program, page);
    await box.begin();
    await box.put(change('a', [set('r', '1')]));
    program.last.answer(saved());
    await settle();
    expect(page.done).toEqual(['a']);
  });

  test('entries of another page are taken over behind its own, each once on the shelf', async () => {
    const { shelf, program, box } = bench();
    const left: Entry = { ...change('left', [set('r', '1')]), id: 5, owner: 'other' };
    await shelf.put(left);
    await box.put(change('own', [set('r', '2')]));
    await box.adopt([left]);
    expect([...shelf.entries.values()].map((one) => [one.owner, one.label])).toEqual([['me', 'own'], ['me', 'left']]);
    program.last.answer(saved());
    await settle();
    expect(program.last.body.change).toBe('change-left');
  });
});

describe('names of added rows', () => {
  test('stand in the order of the steps that add, past the rows that were there', () => {
    const steps = [add({ a: '1' }), set('old', '2'), { do: 'add' as const, kind: 'rims', values: {} }, add({ a: '2' })];
    const rows = [row('u1'), row('old'), { kind: 'rims', uid: 'u2', values: {} }, row('u3')];
    expect([...names_of({ steps, temps: ['~1', '', '~3'] }, rows)]).toEqual([['~1', 'u1'], ['~3', 'u3']]);
  });
});
