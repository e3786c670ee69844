import { describe, expect, test } from 'vitest';
import type { ChangeNews } from '../api';
import type { Problem } from './client';
import { Listening, type World } from './feed';
import { sentence_of } from './news.svelte';

function change(seq: number, who = 'Mary', command = 'import sherds sherds.csv'): ChangeNews {
  return { seq, uid: `u${seq}`, at: '2026-03-02T10:00:00Z', who, command, undoes: null, rows_added: 1, rows_changed: 0, rows_removed: 0 };
}

/** The program and the clock, by hand. */
class Stage implements World {
  streams: { address: string; events: EventSource; closed: boolean; tell: (name: string, data?: unknown) => void }[] = [];
  waits: { milliseconds: number; then: () => void; cancelled: boolean }[] = [];
  answer: number | null = 200;

  open(address: string): EventSource {
    const listeners: Record<string, (event: unknown) => void> = {};
    const events = {
      onopen: null as (() => void) | null,
      onmessage: null as ((event: unknown) => void) | null,
      onerror: null as (() => void) | null,
      addEventListener: (name: string, then: (event: unknown) => void) => (listeners[name] = then),
      close: () => (stream.closed = true),
    };
    const stream = {
      address,
      events: events as unknown as EventSource,
      closed: false,
      tell: (name: string, data?: unknown) => {
        if (name === 'open') events.onopen?.();
        else if (name === 'error') events.onerror?.();
        else if (name === 'message') events.onmessage?.({ data: JSON.stringify(data) });
        else listeners[name]?.({ data: JSON.stringify(data) });
      },
    };
    this.streams.push(stream);
    return stream.events;
  }
  status(): Promise<number> {
    return this.answer === null ? Promise.reject(new TypeError('Failed to fetch')) : Promise.resolve(this.answer);
  }
  wait(milliseconds: number, then: () => void): () => void {
    const one = { milliseconds, then, cancelled: false };
    this.waits.push(one);
    return () => (one.cancelled = true);
  }
  get stream() {
    return this.streams.at(-1)!;
  }
  /** Lets the last pause pass. */
  async pass(): Promise<void> {
    const last = this.waits.at(-1)!;
    if (!last.cancelled) last.then();
    await Promise.resolve();
    await Promise.resolve();
    await Promise.resolve();
  }
}

function listen(seen = 5) {
  const stage = new Stage();
  const heard: number[] = [];
  const troubles: (Problem | null)[] = [];
  let resets = 0;
  const listening = new Listening(
    seen,
    {
      change: (one) => heard.push(one.seq),
      reset: () => (resets += 1),
      trouble: (one) => troubles.push(one),
    },
    stage,
  );
  listening.resume();
  return { stage, heard, troubles, listening, resets: () => resets };
}

describe('listening to changes', () => {
  test('asks from where it stands and tells each change once', () => {
    const { stage, heard } = listen();
    expect(stage.stream.address).toBe('/api/feed?after=5');
    for (const seq of [6, 7, 7, 6, 8]) stage.stream.tell('message', change(seq));
    expect(heard).toEqual([6, 7, 8]);
  });

  test('comes back after a break from the last change heard, without a word', async () => {
    const { stage, troubles } = listen();
    stage.stream.tell('open');
    stage.stream.tell('message', change(6));
    stage.stream.tell('error');
    expect(stage.stream.closed).toBe(true);
    await stage.pass();
    expect(stage.streams).toHaveLength(2);
    expect(stage.stream.address).toBe('/api/feed?after=6');
    expect(troubles).toEqual([]);
  });

  test('says that the program does not answer, asks with growing pauses, and says when it is back', async () => {
    const { stage, troubles } = listen();
    stage.stream.tell('open');
    stage.answer = null;
    stage.stream.tell('error');
    for (let n = 0; n < 7; ++n) await stage.pass();
    expect(stage.waits.map((one) => one.milliseconds)).toEqual([500, 1000, 2000, 4000, 8000, 15000, 15000, 15000]);
    expect(troubles[0]).toMatchObject({ code: 'no_program', message: 'the program does not answer' });
    expect(stage.streams).toHaveLength(1);
    stage.answer = 200;
    await stage.pass();
    stage.stream.tell('open');
    expect(troubles.at(-1)).toBeNull();
    stage.stream.tell('error');
    expect(stage.waits.at(-1)!.milliseconds).toBe(500);
  });

  test('says that this browser has no leave, where the program was started anew', async () => {
    const { stage, troubles } = listen();
    stage.answer = 401;
    stage.stream.tell('error');
    await stage.pass();
    expect(troubles.at(-1)!.hint).toMatch(/open the address/);
  });

  test('waits without a word where too many come back at once', async () => {
    const { stage, troubles } = listen();
    stage.answer = 429;
    stage.stream.tell('error');
    await stage.pass();
    expect(stage.waits.map((one) => one.milliseconds)).toEqual([500, 1000]);
    stage.answer = 200;
    await stage.pass();
    expect(stage.streams).toHaveLength(2);
    expect(troubles).toEqual([]);
  });

  test('passes on what the program itself is told of its store', () => {
    const { stage, troubles } = listen();
    const where = { file: null, sheet: null, row: null, line: null, column: null, id: null };
    stage.stream.tell('trouble', { code: 'connection_lost', message: 'the line is cut', where, hint: 'wait' });
    stage.stream.tell('trouble', null);
    expect(troubles[0]).toMatchObject({ code: 'connection_lost', message: 'the line is cut', hint: 'wait' });
    expect(troubles[1]).toBeNull();
  });

  test('goes on from where another record stands', () => {
    const { stage, heard, listening, resets } = listen(50);
    stage.stream.tell('reset', { seq: 3 });
    stage.stream.tell('message', change(4));
    expect(resets()).toBe(1);
    expect(heard).toEqual([4]);
    listening.pause();
    listening.resume();
    expect(stage.stream.address).toBe('/api/feed?after=4');
  });

  test('paused, it listens no more and tries no more', async () => {
    const { stage, listening } = listen();
    listening.pause();
    expect(stage.stream.closed).toBe(true);
    stage.stream.tell('error');
    expect(stage.waits).toHaveLength(0);
    listening.resume();
    stage.stream.tell('error');
    listening.pause();
    await stage.pass();
    expect(stage.streams).toHaveLength(2);
  });
});

describe('a change in one line', () => {
  test('names who and what', () => {
    expect(sentence_of([change(6)])).toBe('Changed by Mary: sherds read in from sherds.csv');
  });
  test('of several names all hands once and the last of them', () => {
    const all = [change(6), change(7, 'John'), change(8, 'Mary', 'undo 7')];
    expect(sentence_of(all)).toBe('3 changes by Mary and John, the last: change 7 taken back');
    expect(sentence_of([...all, change(9, 'Ann')])).toBe('4 changes by Mary, John and others, the last: sherds read in from sherds.csv');
  });
});
