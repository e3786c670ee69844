import { createSubscriber } from 'svelte/reactivity';
import { problem_of, type Problem } from './client';

type Ask<T> = (options: { signal: AbortSignal }) => Promise<T>;

/** Grows each time the record has changed: an answer that was asked for before is old. */
let state = 0;
/** Those whose answer is on the screen. */
const shown = new Set<Resource<unknown>>();

/** The record has changed: what is on the screen is asked for again in its place, all else when it is looked at. */
export function read_anew(): void {
  state += 1;
  for (const one of shown) one.freshen();
}

/** One answer of the program and where it stands. A newer request stops the older one. */
export class Resource<T> {
  #value = $state.raw<T | null>(null);
  problem = $state.raw<Problem | null>(null);
  loading = $state(false);
  #stop: AbortController | null = null;
  #again: Ask<T> | null = null;
  #state = 0;
  #look = createSubscriber(() => {
    shown.add(this as Resource<unknown>);
    queueMicrotask(() => this.freshen());
    return () => void shown.delete(this as Resource<unknown>);
  });

  get value(): T | null {
    this.#look();
    return this.#value;
  }

  /** `again` asks anew for all that is shown, where `ask` brings only a part of it. */
  async load(ask: Ask<T>, again: Ask<T> = ask): Promise<void> {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    this.#again = again;
    if (again === ask) this.#state = state;
    this.loading = true;
    this.problem = null;
    try {
      const value = await ask({ signal: stop.signal });
      if (!stop.signal.aborted) this.#value = value;
    } catch (error) {
      if (!stop.signal.aborted) this.problem = problem_of(error);
    } finally {
      if (this.#stop === stop) {
        this.loading = false;
        if (shown.has(this as Resource<unknown>)) this.freshen();
      }
    }
  }

  /** Asks again where the answer is older than the record; what is there stays until the new one has come. */
  freshen(): void {
    if (this.#again && this.#state !== state && !this.loading) void this.load(this.#again);
  }

  forget(): void {
    this.#stop?.abort();
    this.#stop = null;
    this.#again = null;
    this.#value = null;
    this.problem = null;
    this.loading = false;
  }
}
