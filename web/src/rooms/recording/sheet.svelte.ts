import { conflicts_of, new_uid, problems_of, rows_address } from '../../lib/edits';
import type { Conflict, Reply, Row, Saved, Step, StepProblem, Values } from '../../lib/edits';
import { problem_of, type Problem } from '../../lib/client';
import type { Entry } from '../../lib/outbox';
import { keep_typed, read_typed } from '../../lib/outbox_keep';
import { field_of, kCarried, shown } from '../../lib/fields';
import { ask } from './queue.svelte';
import { session } from '../../lib/session.svelte';
import type { Standing } from '../../lib/saving';
import { kWords } from './words';

/** How a cell stands: its value on the way, just written, refused with the reason, or changed by someone else meanwhile. */
export interface Mark {
  state: Standing;
  typed: string;
  problem?: StepProblem;
  conflict?: Conflict;
}

const kSavedFor = 1500;
const kMost = 10_000;

/** A sherd line on the page: of the record, on its way there, or not yet enough to be one. */
export class Line {
  /** The row's uid; "~..." until the program has given it one. */
  key = $state('');
  values = $state.raw<Values>({});
  marks = $state.raw<Readonly<Record<string, Mark>>>({});
  /** Typed here and not sent: fabric, or both count and weight, are still missing, or it was refused. */
  draft = $state(false);
  /** Drafts that go in together, as one change. */
  group: string | null = null;

  constructor(key: string, values: Values, draft: boolean) {
    this.key = key;
    this.values = values;
    this.draft = draft;
  }
  get empty(): boolean {
    return this.draft && Object.keys(this.marks).length === 0;
  }
  get sending(): boolean {
    return !this.draft && this.key.startsWith('~');
  }
  /** What stands in a cell: what was typed there and is not in the record, else the record. */
  text(column: string): string {
    return this.marks[column]?.typed ?? shown(column, this.values);
  }
  mark(column: string, mark: Mark | null): void {
    const rest = Object.fromEntries(Object.entries(this.marks).filter(([name]) => name !== column));
    this.marks = mark ? { ...rest, [column]: mark } : rest;
  }
  get refused(): boolean {
    return Object.values(this.marks).some((mark) => mark.state === 'refused' || mark.state === 'conflict');
  }
}

/** What a draft holds as hands typed it. */
function typed_of(line: Line): Values {
  return Object.fromEntries(Object.entries(line.marks).map(([column, mark]) => [column, mark.typed]).filter(([, text]) => text !== ''));
}

interface Kept {
  drafts: { values: Values; group: string | null }[];
  refused: { row: string; column: string; mark: Mark }[];
}

export interface Matter {
  line: Line;
  column: string;
  mark: Mark;
}

/** The lines of one context, and what happens to them. */
export class Sheet {
  readonly context: string;
  lines = $state.raw<Line[]>([]);
  loading = $state(true);
  problem = $state.raw<Problem | null>(null);
  /** Codes that are to be made with the line that uses them first. */
  new_codes = new Map<string, Step>();
  #stop: () => void;
  #kept_key: string;
  #reading = false;
  #again = false;
  #closed = false;

  constructor(context: string) {
    this.context = context;
    this.#kept_key = `${session.site}/${context}`;
    this.#stop = session.listen({
      saved: (entry, saved, names) => this.#saved(entry, saved, names),
      refused: (entry, reply) => this.#refused(entry, reply),
      withdrawn: (entry) => this.#withdrawn(entry),
      changed: (contexts) => {
        if (contexts === null || contexts.includes(context)) void this.load();
      },
    });
    this.lines = [this.#blank()];
    void this.#open();
  }

  /** It listens until all that it sent is answered, so that a refusal keeps what was typed. */
  close(): void {
    this.#closed = true;
    this.#rest();
  }
  #rest(): void {
    const going = this.lines.some((line) => Object.values(line.marks).some((mark) => mark.state === 'saving'));
    if (this.#closed && !going) this.#stop();
  }

  /** Cells that want a decision. */
  get matters(): Matter[] {
    return this.lines.flatMap((line) =>
      Object.entries(line.marks)
        .filter(([, mark]) => mark.state === 'refused' || mark.state === 'conflict')
        .map(([column, mark]) => ({ line, column, mark })),
    );
  }

  async load(): Promise<void> {
    this.#again = this.#reading;
    if (this.#reading) return;
    this.#reading = true;
    try {
      const answer = await ask<{ rows: Row[] }>(rows_address('sherds', [`context=${this.context}`], { limit: kMost }));
      this.problem = null;
      this.#show(answer.rows);
    } catch (error) {
      this.problem = problem_of(error);
    } finally {
      this.loading = false;
      this.#reading = false;
    }
    if (this.#again) await this.load();
  }

  /** Takes what was typed into a cell. `made` is the step that makes a code that the series does not have. */
  commit(line: Line, column: string, typed: string, made: Step | null = null): void {
    const text = typed.trim();
    if (line.draft) return this.#commit_draft(line, column, text, made);
    if (text === shown(column, line.values) && !line.marks[column]) return;
    if (text === line.marks[column]?.typed && line.marks[column]?.state !== 'refused') return;
    line.mark(column, { state: 'saving', typed: text });
    const steps = [...(made ? [made] : []), this.#set(line, column, text)];
    session.change(kWords.label_set(column, this.name(line)), steps, made ? [''] : []);
    this.#keep();
  }

  /** The same value into a column of several lines, as one change. */
  commit_many(lines: readonly Line[], column: string, typed: string): void {
    this.commit_cells(lines.map((line) => [line, column, typed]), kWords.label_fill(column, lines.length));
  }

  commit_cells(cells: readonly (readonly [Line, string, string])[], label: string): void {
    const steps: Step[] = [];
    for (const [line, column, typed] of cells) {
      const text = typed.trim();
      if (line.draft) this.#commit_draft(line, column, text, null);
      else if (text !== line.text(column)) {
        line.mark(column, { state: 'saving', typed: text });
        steps.push(this.#set(line, column, text));
      }
    }
    if (steps.length) session.change(label, steps);
  }

  /** A new line with these values as if typed; goes into the record as soon as it is one. */
  add(values: Values, at = this.lines.length - 1): Line {
    const line = this.#blank();
    for (const [column, typed] of Object.entries(values)) if (typed) line.mark(column, { state: 'typed', typed });
    this.lines = [...this.lines.slice(0, at), line, ...this.lines.slice(at)];
    this.#send_ready(line);
    return line;
  }

  /** Many lines as one change: all of them or none. */
  add_all(rows: readonly Values[], label: string): Line[] {
    const group = new_uid();
    const added = rows.map((values) => {
      const line = this.#blank();
      line.group = group;
      for (const [column, typed] of Object.entries(values)) if (typed) line.mark(column, { state: 'typed', typed });
      return line;
    });
    this.lines = [...this.lines.slice(0, -1), ...added, ...this.lines.slice(-1)];
    this.#send_group(group, label);
    return added;
  }

  remove(lines: readonly Line[], before: Step[] = []): void {
    const drafts = new Set(lines.filter((line) => line.draft));
    this.lines = this.lines.filter((line) => !drafts.has(line) || line === this.lines[this.lines.length - 1]);
    const steps = lines.filter((line) => !line.draft).map((line): Step => ({ do: 'remove', kind: 'sherds', row: line.key }));
    if (steps.length) session.change(kWords.label_remove(steps.length), [...before, ...steps]);
    this.#keep();
  }

  /** What someone else wrote stays, or what was typed here is written over it. */
  settle(matter: Matter, mine: boolean): void {
    const { line, column, mark } = matter;
    if (!mark.conflict) return;
    line.values = { ...line.values, [column]: mark.conflict.now };
    line.mark(column, mine ? { state: 'saving', typed: mark.typed } : null);
    if (mine) {
      session.change(kWords.label_set(column, this.name(line)), [
        { do: 'set', kind: 'sherds', row: line.key, column, seen: mark.conflict.now, value: mark.typed },
      ]);
    } else void this.load();
    this.#keep();
  }

  /** Lets go of what was typed and not taken: the record stays as it is. */
  let_go(matter: Matter): void {
    matter.line.mark(matter.column, null);
    this.#keep();
  }

  name(line: Line): string {
    return line.values.record ? kWords.record(line.values.record) : kWords.new_line;
  }

  #set(line: Line, column: string, text: string): Step {
    return { do: 'set', kind: 'sherds', row: line.key, column, seen: line.values[column] ?? '', value: text };
  }

  #blank(): Line {
    return new Line(`~${new_uid()}`, {}, true);
  }

  #commit_draft(line: Line, column: string, text: string, made: Step | null): void {
    if (text === line.text(column) && line.marks[column]?.state !== 'refused') return;
    if (made?.values) this.new_codes.set(`${made.kind}/${text.replace(/\?+$/, '').trim()}`, made);
    line.mark(column, text === '' ? null : { state: 'typed', typed: text });
    if (line === this.lines[this.lines.length - 1] && !line.empty) this.lines = [...this.lines, this.#blank()];
    if (line.group) this.#send_group(line.group, kWords.label_paste(1));
    else this.#send_ready(line);
    this.#keep();
  }

  #ready(line: Line): boolean {
    const values = typed_of(line);
    return !!values.fabric && !!(values.count || values.weight_g) && !line.refused;
  }

  #send_ready(line: Line): void {
    if (line.draft && this.#ready(line)) this.#send([line], kWords.label_add(line.text('fabric')));
  }

  #send_group(group: string, label: string): void {
    const lines = this.lines.filter((line) => line.draft && line.group === group);
    if (lines.length && lines.every((line) => this.#ready(line))) this.#send(lines, lines.length > 1 ? kWords.label_paste(lines.length) : label);
  }

  #send(lines: readonly Line[], label: string): void {
    const made = new Map<string, Step>();
    const steps = lines.map((line): Step => {
      const typed = typed_of(line);
      for (const column of ['fabric', 'form', 'decoration']) {
        const key = `${field_of(column)?.codes}/${(typed[column] ?? '').replace(/\?+$/, '').trim()}`;
        const step = this.new_codes.get(key);
        if (step) made.set(key, step);
      }
      return { do: 'add', kind: 'sherds', as: line.key.slice(1), values: { ...this.#beside(line), ...typed, context: this.context } };
    });
    for (const line of lines) {
      line.draft = false;
      for (const [column, mark] of Object.entries(line.marks)) line.mark(column, { state: 'saving', typed: mark.typed });
    }
    const temps = [...[...made.keys()].map(() => ''), ...lines.map((line) => line.key)];
    session.change(label, [...made.values(), ...steps], temps);
    this.#keep();
  }

  /** What goes into a new line without being typed: bag and box of the line before, who records it and when. */
  #beside(line: Line): Values {
    const before = this.lines[this.lines.indexOf(line) - 1];
    const carried = Object.fromEntries(kCarried.map((column) => [column, before?.text(column) ?? '']).filter(([, text]) => text));
    const now = new Date();
    const today = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
    return { ...carried, ...(session.initials ? { recorder: session.initials } : {}), recorded_on: today };
  }

  async #open(): Promise<void> {
    await this.load();
    const kept = await read_typed<Kept>(this.#kept_key).catch(() => null);
    for (const one of kept?.drafts ?? []) {
      const line = this.#blank();
      line.group = one.group;
      for (const [column, typed] of Object.entries(one.values)) line.mark(column, { state: 'typed', typed });
      this.lines = [...this.lines.slice(0, -1), line, ...this.lines.slice(-1)];
    }
    for (const one of kept?.refused ?? []) this.#find(one.row)?.mark(one.column, one.mark);
    await session.begin(session.site);
    this.#overlay(session.unsent());
  }

  /** The record's lines, with those that are here alone after them; a line that is there already stays itself. */
  #show(rows: readonly Row[]): void {
    const here = new Map(this.lines.map((line) => [line.key, line]));
    const ours = rows.map((row) => {
      const line = here.get(row.uid) ?? new Line(row.uid, row.values, false);
      line.values = row.values;
      return line;
    });
    const records = (line: Line) => Number(line.values.record) || 0;
    const sorted = ours.map((line, at) => ({ line, at })).sort((a, b) => records(a.line) - records(b.line) || a.at - b.at);
    const alone = this.lines.filter((line) => line.key.startsWith('~'));
    this.lines = [...sorted.map((one) => one.line), ...alone];
  }

  /** What waits in the queue, on lines read from the record: after the page was loaded again. */
  #overlay(entries: readonly Entry[]): void {
    for (const entry of entries) {
      let add = 0;
      for (const step of entry.steps) {
        if (step.do === 'add') this.#overlay_add(step, entry.temps[add++]);
        else if (step.do === 'set' && step.kind === 'sherds') {
          this.#find(step.row)?.mark(step.column ?? '', { state: 'saving', typed: step.value ?? '' });
        }
      }
    }
  }
  #overlay_add(step: Step, temp: string | undefined): void {
    if (step.kind !== 'sherds' || step.values?.context !== this.context || !temp || this.#find(temp)) return;
    const line = new Line(temp, {}, false);
    for (const [column, typed] of Object.entries(step.values)) {
      if (column !== 'context') line.mark(column, { state: 'saving', typed });
    }
    this.lines = [...this.lines.slice(0, -1), line, ...this.lines.slice(-1)];
  }

  #find(key: string | undefined): Line | undefined {
    return this.lines.find((line) => line.key === key);
  }

  #saved(entry: Entry, saved: Saved, names: ReadonlyMap<string, string>): void {
    for (const [temp, uid] of names) {
      const line = this.#find(temp);
      if (line) line.key = uid;
    }
    for (const step of entry.steps) if (step.do === 'add') this.new_codes.delete(`${step.kind}/${Object.values(step.values ?? {})[0]}`);
    const by_uid = new Map(this.lines.map((line) => [line.key, line]));
    for (const row of saved.rows) {
      if (row.kind !== 'sherds') continue;
      const line = by_uid.get(row.uid);
      if (line && (row.removed || row.values.context !== this.context)) this.lines = this.lines.filter((one) => one !== line);
      else if (line) this.#settled(line, row, this.#typed_in(entry, row.uid, names));
      else if (!row.removed && row.values.context === this.context) void this.load();
    }
    this.#keep();
    this.#rest();
  }

  /** What an entry's steps wrote into a row, by column, as it was typed. */
  #typed_in(entry: Entry, uid: string, names: ReadonlyMap<string, string>): Values {
    const out: Values = {};
    let add = 0;
    for (const step of entry.steps) {
      if (step.do === 'add' && names.get(entry.temps[add++] ?? '') === uid) Object.assign(out, step.values);
      if (step.do === 'set' && (step.row === uid || names.get(step.row ?? '') === uid) && step.column) out[step.column] = step.value ?? '';
    }
    return out;
  }

  #settled(line: Line, row: Row, typed: Values): void {
    line.values = row.values;
    const done = Object.entries(line.marks).filter(([column, mark]) => mark.state === 'saving' && typed[column] === mark.typed);
    if (done.length === 0) return;
    const marks = { ...line.marks };
    for (const [column] of done) marks[column] = { state: 'saved', typed: shown(column, row.values) };
    line.marks = marks;
    setTimeout(() => {
      const left = Object.entries(line.marks).filter(([column, mark]) => mark.state !== 'saved' || mark !== marks[column]);
      if (left.length < Object.keys(line.marks).length) line.marks = Object.fromEntries(left);
    }, kSavedFor);
  }

  #refused(entry: Entry, reply: Reply): boolean {
    const shown_here = this.#take_refusal(entry, reply);
    this.#rest();
    return shown_here && !this.#closed;
  }
  #take_refusal(entry: Entry, reply: Reply): boolean {
    if (!entry.steps.some((step) => step.kind === 'sherds' && this.#line_of(entry, step))) return false;
    const problems = problems_of(reply.body);
    const conflicts = conflicts_of(reply.body);
    const adds = this.#back_to_drafts(entry, problems);
    if (!entry.steps.every((step) => step.do === 'set' && step.kind === 'sherds')) {
      if (!adds) void this.load();
      this.#keep();
      return adds;
    }
    this.#mark_sets(entry, problems, conflicts);
    this.#keep();
    return problems.length + conflicts.length > 0;
  }

  #line_of(entry: Entry, step: Step): Line | undefined {
    if (step.do !== 'add') return this.#find(step.row);
    const at = entry.steps.filter((one) => one.do === 'add').indexOf(step);
    return this.#find(entry.temps[at]);
  }

  /** Cells that were refused or have two values are marked; the others of the same change are sent again without them. */
  #mark_sets(entry: Entry, problems: readonly StepProblem[], conflicts: readonly Conflict[]): void {
    const again: Step[] = [];
    entry.steps.forEach((step, at) => {
      const line = this.#find(step.row);
      const column = step.column ?? '';
      const problem = problems.find((one) => one.step === at);
      const conflict = conflicts.find((one) => one.step === at);
      const typed = step.value ?? '';
      if (!line) return;
      if (line.marks[column]?.state === 'saving' && line.marks[column]?.typed !== typed) return;
      if (conflict) line.mark(column, { state: 'conflict', typed, conflict });
      else if (problem) line.mark(column, { state: 'refused', typed, problem });
      else again.push(step);
    });
    if (again.length && again.length < entry.steps.length) session.change(entry.label, again);
    else for (const step of again) this.#find(step.row)?.mark(step.column ?? '', null);
  }

  /** Lines that the program did not take stay on the page as they were typed. */
  #back_to_drafts(entry: Entry, problems: readonly StepProblem[]): boolean {
    let some = false;
    entry.steps.forEach((step, at) => {
      const line = step.do === 'add' && step.kind === 'sherds' ? this.#line_of(entry, step) : undefined;
      if (!line) return;
      some = true;
      line.draft = true;
      session.withdraw((later) => later.steps.some((one) => one.row === line.key));
      for (const [column, mark] of Object.entries(line.marks)) line.mark(column, { state: 'typed', typed: mark.typed });
      for (const problem of problems.filter((one) => one.step === at)) {
        const column = field_of(problem.column) ? problem.column : 'fabric';
        if (line.marks[column]?.state !== 'refused') line.mark(column, { state: 'refused', typed: line.text(column), problem });
      }
    });
    return some;
  }

  #withdrawn(entry: Entry): void {
    for (const step of entry.steps) {
      const line = this.#line_of(entry, step);
      if (!line || step.kind !== 'sherds') continue;
      if (step.do === 'set') line.mark(step.column ?? '', null);
      else if (step.do === 'add') this.lines = this.lines.filter((one) => one !== line);
      else void this.load();
    }
  }

  /** What the record does not have, kept in the browser for when the page comes back. */
  #keep(): void {
    const drafts = this.lines.filter((line) => line.draft && !line.empty).map((line) => ({ values: typed_of(line), group: line.group }));
    const refused = this.matters
      .filter(({ line }) => !line.draft)
      .map(({ line, column, mark }) => ({ row: line.key, column, mark }));
    void keep_typed(this.#kept_key, drafts.length + refused.length ? { drafts, refused } : null).catch(() => {});
  }
}
