import type { HistoryResponse } from '../api';
import { problems_of, send, type Conflict, type Reply, type Saved, type Step } from './edits';
import { conflicts_of, new_uid } from './edits';
import { account } from './account.svelte';
import { news } from './news.svelte';
import { Outbox, type Entry } from './outbox';
import { kBrowserKeep } from './outbox_keep';
import { adopt_left, own_name } from './outbox_owner';
import { UndoStack } from './undo';
import { kSaving as kWords } from './saving';

/** What is told of changes on their way; each part of the room takes what is its own. */
export interface Listener {
  saved?(entry: Entry, saved: Saved, names: ReadonlyMap<string, string>): void;
  /** True where it shows the refusal in its place. */
  refused?(entry: Entry, reply: Reply): boolean;
  /** Taken back before it was sent. */
  withdrawn?(entry: Entry): void;
  /** The record was changed otherwise: by others, or by taking a change back. Contexts where they are known. */
  changed?(contexts: readonly string[] | null): void;
}

const kInitials = 'sherdwright-initials';
const kUndo = '/api/undo';

function kept_initials(): string {
  try {
    return localStorage.getItem(kInitials) ?? '';
  } catch {
    return '';
  }
}

/** The sitting: changes on their way, what can be taken back, who sits here. */
class Session {
  waiting = $state(0);
  /** Why changes do not go: "no_program", "http_401"; "" where they go. */
  why = $state('');
  /** What has just been done, in one line. */
  said = $state('');
  /** A change that was refused and has no place of its own on the page. */
  trouble = $state.raw<{ label: string; text: string } | null>(null);
  undo_label = $state<string | null>(null);
  redo_label = $state<string | null>(null);
  initials = $state(kept_initials());
  site = '';
  #outbox: Outbox | null = null;
  #begun: Promise<void> | null = null;
  #early: Omit<Entry, 'id' | 'owner'>[] = [];
  #stack = new UndoStack();
  #undoing = new Map<string, { seq: number; again: boolean }>();
  #listeners = new Set<Listener>();

  /** Changes wait in this browser for the account that typed them; "" where the program has none. */
  begin(site: string, account = ''): Promise<void> {
    this.site = site;
    this.#begun ??= this.#open(account ? `${site} ${account}` : site);
    return this.#begun;
  }

  listen(listener: Listener): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  set_initials(text: string): void {
    this.initials = text.trim();
    try {
      localStorage.setItem(kInitials, this.initials);
    } catch {
      // Without storage they hold until the page is closed.
    }
  }

  say(text: string): void {
    this.said = text;
  }

  /** Not sent yet, the oldest first. */
  unsent(): readonly Entry[] {
    return this.#outbox?.waiting ?? [];
  }

  /** Takes back what has not been sent and makes no sense any more. */
  withdraw(which: (entry: Entry) => boolean): void {
    for (const entry of this.unsent().filter(which)) void this.#outbox?.take_back(entry.change);
  }

  /** One change of one or more steps. `temps` are the page's names of the rows that its add steps make, in order. */
  change(label: string, steps: Step[], temps: string[] = []): string {
    const change = new_uid();
    this.#put({ path: '/api/edits', label, change, steps, temps, ...(this.initials && !account.who?.account ? { who: this.initials } : {}) });
    return change;
  }

  /** Takes the newest change of this sitting back: out of the queue, or through the program. */
  async undo(): Promise<void> {
    const last = [...this.unsent()].reverse().find((entry) => entry.path !== kUndo);
    if (last && (await this.#outbox?.take_back(last.change))) {
      for (const one of this.#listeners) one.withdrawn?.(last);
      this.say(kWords.undone(last.label));
      return;
    }
    const next = this.#stack.next_undo;
    if (next) this.#take_back(next.seq, next.label, false);
    else this.say(kWords.nothing_to_undo);
  }

  redo(): void {
    const next = this.#stack.next_redo;
    if (next) this.#take_back(next.seq, next.label, true);
    else this.say(kWords.nothing_to_redo);
  }

  /** Any change of the history. */
  undo_change(seq: number, label: string): void {
    this.#take_back(seq, label, false);
  }

  resume(): void {
    this.#outbox?.resume();
  }

  #take_back(seq: number, label: string, again: boolean): void {
    const change = new_uid();
    this.#stack.going(seq);
    this.#undoing.set(change, { seq, again });
    this.#put({ path: kUndo, label, change, steps: [], temps: [], body: { change: seq } });
    this.#labels();
  }

  #put(entry: Omit<Entry, 'id' | 'owner'>): void {
    news.own(entry.change);
    this.trouble = null;
    if (this.#outbox) void this.#outbox.put(entry);
    else this.#early.push(entry);
  }

  async #open(site: string): Promise<void> {
    const outbox = new Outbox(await own_name(site), kBrowserKeep, kWire, {
      saved: (entry, saved, names) => this.#saved(entry, saved, names),
      refused: (entry, reply) => this.#refused(entry, reply),
      state: (waiting, why) => {
        this.waiting = waiting;
        this.why = why;
        if (why === 'http_401') account.lost();
      },
    });
    await outbox.begin();
    await adopt_left(outbox, site).catch(() => {});
    for (const entry of outbox.waiting) news.own(entry.change);
    this.#outbox = outbox;
    for (const entry of this.#early.splice(0)) void outbox.put(entry);
    addEventListener('online', () => outbox.resume());
    account.when_back(() => outbox.resume());
    news.listen((contexts) => {
      outbox.resume();
      for (const one of this.#listeners) one.changed?.(contexts);
    });
  }

  #saved(entry: Entry, saved: Saved, names: ReadonlyMap<string, string>): void {
    if (entry.path === kUndo) return this.#undone(entry, saved);
    if (saved.seq !== null) this.#stack.made({ seq: saved.seq, label: entry.label });
    this.#labels();
    for (const one of this.#listeners) one.saved?.(entry, saved, names);
    const notes = (saved.notes ?? []).map((note) => note.message || note.text);
    if (notes.length) this.say(notes.join('; '));
  }

  #undone(entry: Entry, answer: unknown): void {
    const going = this.#undoing.get(entry.change);
    this.#undoing.delete(entry.change);
    const change = (answer as HistoryResponse).changes[0];
    if (change) news.own(change.uid);
    if (going && change) {
      if (going.again) this.#stack.redone(going.seq, change.seq);
      else this.#stack.undone(going.seq, change.seq);
    }
    this.#labels();
    this.say(going?.again ? kWords.redone(entry.label) : kWords.undone(entry.label));
    for (const one of this.#listeners) one.changed?.(null);
  }

  #refused(entry: Entry, reply: Reply): void {
    const going = this.#undoing.get(entry.change);
    if (going) {
      this.#undoing.delete(entry.change);
      this.#stack.dropped(going.seq);
      this.#labels();
    }
    let shown = false;
    for (const one of this.#listeners) shown = one.refused?.(entry, reply) === true || shown;
    if (!shown) this.trouble = { label: entry.label, text: words_of(reply) };
  }

  #labels(): void {
    this.undo_label = this.#stack.next_undo?.label ?? null;
    this.redo_label = this.#stack.next_redo?.label ?? null;
  }
}

/** What a refusal says, in a sentence or two. */
function words_of(reply: Reply): string {
  const conflicts: Conflict[] = conflicts_of(reply.body);
  if (conflicts.length) return conflicts.map((one) => kWords.conflict(one.column, one.seen, one.now, one.who)).join(' ');
  const problems = problems_of(reply.body);
  return problems.length
    ? problems.map((one) => [one.message, one.hint].filter(Boolean).join('; ')).join('. ')
    : kWords.answered(reply.status);
}

const kTooLong = 30_000;
const kWire = {
  post: (path: string, body: object): Promise<Reply> => send('POST', path, body, AbortSignal.timeout(kTooLong)),
  wait: (milliseconds: number, then: () => void) => {
    const timer = setTimeout(then, milliseconds);
    return () => clearTimeout(timer);
  },
};

export const session = new Session();
