/** Changes on their way to the program: kept in the browser until it has them, sent in order, each once. */
import { problems_of, type Change, type Reply, type Row, type Saved, type Step } from './edits';

export interface Entry {
  /** The order in which they are sent. */
  id: number;
  /** Whose queue it is: one page of a browser. */
  owner: string;
  path: string;
  label: string;
  /** The change's own name, by which the program knows it when it comes again. */
  change: string;
  steps: Step[];
  /** The page's names for the rows that its steps add, in order. */
  temps: string[];
  who?: string;
  /** The body of a request that is no list of steps. */
  body?: Record<string, unknown>;
}

/** Where entries are kept; the browser's database, or a list in a test. */
export interface Keep {
  all(owner: string): Promise<Entry[]>;
  put(entry: Entry): Promise<void>;
  drop(id: number): Promise<void>;
}

export interface Told {
  saved(entry: Entry, saved: Saved, names: ReadonlyMap<string, string>): void;
  /** Not written, and not to be sent again as it is: 409 with both values, or 400 with what is wrong. */
  refused(entry: Entry, reply: Reply): void;
  /** How many wait, and why they do not go; "" where they go. */
  state(waiting: number, why: string): void;
}

export interface Wire {
  post(path: string, body: object): Promise<Reply>;
  wait(milliseconds: number, then: () => void): () => void;
}

const kShortest = 500;
const kLongest = 15_000;
/** Answers that say nothing of the change itself: it is sent again. */
const kAgain = new Set([401, 403, 408, 429, 502, 503, 504]);
/** A 403 that is about the change: whoever signed in may not do that. */
const kMayNot = new Set(['not_allowed', 'not_yours']);
const says_nothing_of_it = (reply: Reply): boolean =>
  (kAgain.has(reply.status) && !problems_of(reply.body).some((one) => kMayNot.has(one.code))) || (reply.status >= 500 && !says(reply));

const cell_of = (row: string | undefined, column: string | undefined) => `${row}\n${column}`;

/** A row's name in a step, once the program has given it one. */
export function with_names(steps: readonly Step[], names: ReadonlyMap<string, string>): Step[] {
  const named = (text: string) => names.get(text) ?? text;
  return steps.map((step) => ({
    ...step,
    ...(step.row === undefined ? {} : { row: named(step.row) }),
  }));
}

/** The page's names of added rows to the program's: added rows stand in the answer in the order of their steps. */
export function names_of(entry: Pick<Entry, 'steps' | 'temps'>, rows: readonly Row[]): Map<string, string> {
  const known = new Set(entry.steps.map((step) => step.row).filter(Boolean));
  const adds = entry.steps.filter((step) => step.do === 'add');
  const fresh = rows.filter((row) => !known.has(row.uid));
  const out = new Map<string, string>();
  adds.forEach((step, at) => {
    const temp = entry.temps[at];
    const row = fresh[at];
    if (temp && row && row.kind === step.kind) out.set(temp, row.uid);
  });
  return out;
}

export class Outbox {
  #queue: Entry[] = [];
  #next = 1;
  #busy = false;
  /** Sent, and perhaps received: it stays as it is. */
  #flying: Entry | null = null;
  #why = '';
  #pause = kShortest;
  #cancel: (() => void) | null = null;
  #keep: Keep;
  #wire: Wire;
  #told: Told;
  readonly owner: string;

  constructor(owner: string, keep: Keep, wire: Wire, told: Told) {
    this.owner = owner;
    this.#keep = keep;
    this.#wire = wire;
    this.#told = told;
  }

  get waiting(): readonly Entry[] {
    return this.#queue;
  }

  /** What was left unsent when the page was last closed goes first. */
  async begin(): Promise<void> {
    const left = await this.#keep.all(this.owner).catch(() => []);
    const had = new Set(this.#queue.map((one) => one.change));
    const before = left.filter((one) => !had.has(one.change)).sort((a, b) => a.id - b.id);
    this.#queue = [...before, ...this.#queue];
    this.#next = Math.max(this.#next, ...this.#queue.map((one) => one.id + 1));
    this.resume();
  }

  /** Those of a page that is gone, after one's own. */
  async adopt(entries: readonly Entry[]): Promise<void> {
    for (const entry of entries) {
      await this.#keep.drop(entry.id).catch(() => {});
      await this.put(entry);
    }
  }

  /** Resolves when the browser has it for good, and it will be sent. */
  async put(given: Omit<Entry, 'id' | 'owner'>): Promise<void> {
    const entry: Entry = { ...given, id: this.#stamp(), owner: this.owner };
    this.#queue.push(entry);
    this.#tell();
    // A browser that keeps nothing still sends: then the page's own memory is all that holds it.
    const kept = this.#keep.put(entry).catch(() => {});
    this.resume();
    await kept;
  }

  /** Takes an entry back that has not been sent; false where it is on its way or gone. */
  async take_back(change: string): Promise<boolean> {
    const at = this.#queue.findIndex((one) => one.change === change);
    const entry = this.#queue[at];
    if (!entry || entry === this.#flying) return false;
    this.#queue.splice(at, 1);
    await this.#keep.drop(entry.id).catch(() => {});
    this.#tell();
    return true;
  }

  /** Now, also where it waits for another go. */
  resume(): void {
    this.#cancel?.();
    this.#cancel = null;
    if (!this.#busy) void this.#run();
  }

  /** Times are in order within a page and, but for the clock, between pages. */
  #stamp(): number {
    this.#next = Math.max(this.#next + 1, Date.now() * 1000);
    return this.#next;
  }

  async #run(): Promise<void> {
    this.#busy = true;
    try {
      while (this.#queue.length > 0) {
        const entry = this.#queue[0] as Entry;
        if (!(await this.#send(entry))) return;
      }
    } finally {
      this.#busy = false;
      this.#tell();
    }
  }

  /** False where it has to be sent again later. */
  async #send(entry: Entry): Promise<boolean> {
    let reply: Reply;
    this.#flying = entry;
    try {
      reply = await this.#wire.post(entry.path, entry.body ?? body_of(entry));
    } catch {
      return this.#later('no_program');
    }
    if (says_nothing_of_it(reply)) return this.#later(`http_${reply.status}`);
    this.#pause = kShortest;
    this.#why = '';
    const names = reply.status === 200 ? names_of(entry, (reply.body as Saved | null)?.rows ?? []) : new Map<string, string>();
    this.#queue = this.#queue.filter((one) => one !== entry);
    this.#flying = null;
    const kept = reply.status === 200 ? this.#carry_on(entry, (reply.body as Saved | null)?.rows ?? [], names) : null;
    // In one go with the names, so that nothing is put in between under a row's old name.
    if (reply.status === 200) this.#told.saved(entry, reply.body as Saved, names);
    else this.#told.refused(entry, reply);
    this.#tell();
    await kept;
    await this.#keep.drop(entry.id).catch(() => {});
    return true;
  }

  /**
   * Later entries learn the names of added rows, and that the values just written have been seen. Before the answered
   * entry is dropped, so that a page closed in between sends it again and learns the same anew.
   */
  #carry_on(done: Entry, rows: readonly Row[], names: ReadonlyMap<string, string>): Promise<unknown> {
    const kept: Promise<void>[] = [];
    const written = new Set(done.steps.map((step) => cell_of(step.row, step.column)));
    const values = new Map(rows.map((row) => [row.uid, row.values]));
    for (const entry of this.#queue) {
      const steps = with_names(entry.steps, names).map((step) => {
        const now = step.column === undefined ? undefined : values.get(step.row ?? '')?.[step.column];
        const ours = written.has(cell_of(step.row, step.column)) || [...names.values()].includes(step.row ?? '');
        return step.do === 'set' && ours && now !== undefined ? { ...step, seen: now } : step;
      });
      if (JSON.stringify(steps) === JSON.stringify(entry.steps)) continue;
      entry.steps = steps;
      kept.push(this.#keep.put(entry).catch(() => {}));
    }
    return Promise.all(kept);
  }

  #later(why: string): false {
    this.#why = why;
    this.#cancel = this.#wire.wait(this.#pause, () => this.resume());
    this.#pause = Math.min(2 * this.#pause, kLongest);
    return false;
  }

  #tell(): void {
    this.#told.state(this.#queue.length, this.#queue.length ? this.#why : '');
  }
}

function body_of({ change, label, who, steps }: Entry): Change {
  return { change, label, ...(who ? { who } : {}), steps };
}

/** An answer that names what is wrong is the program's own; any other is of something on the way. */
function says(reply: Reply): boolean {
  const body = reply.body as { errors?: unknown[]; problems?: unknown[] } | null;
  return !!(body?.errors?.length || body?.problems?.length);
}
