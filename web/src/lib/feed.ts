import type { ChangeNews, ErrorEntry } from '../api';
import { ApiError } from '../api';
import { problem_of, type Problem } from './client';

/** What listens to the program's changes: told of each, and of what stands in the way. */
export interface Heard {
  change(change: ChangeNews): void;
  /** The record is another one than it was: all of it is to be read anew. */
  reset(): void;
  /** Why changes do not come in; null when they do again. */
  trouble(problem: Problem | null): void;
}

/** The browser's part, or a test's. */
export interface World {
  open(address: string): EventSource;
  /** The status of an address without its body; rejects where the program does not answer. */
  status(address: string): Promise<number>;
  wait(milliseconds: number, then: () => void): () => void;
}
const kBrowser: World = {
  open: (address) => new EventSource(address),
  status: async (address) => (await fetch(address, { method: 'HEAD', credentials: 'same-origin' })).status,
  wait: (milliseconds, then) => {
    const timer = setTimeout(then, milliseconds);
    return () => clearTimeout(timer);
  },
};

const kShortest = 500;
const kLongest = 15_000;
/** All pages come back at once where the program was away: those that find no room wait without a word. */
const kCrowded = 429;

/** Listens from the change `seen` on until paused, and again and again where the program is not there. */
export class Listening {
  #seen: number;
  #events: EventSource | null = null;
  #cancel: (() => void) | null = null;
  #pause = kShortest;
  #lost = false;
  #heard: Heard;
  #world: World;

  constructor(seen: number, heard: Heard, world: World = kBrowser) {
    this.#seen = seen;
    this.#heard = heard;
    this.#world = world;
  }

  /** Also at once where it waits for another go. */
  resume(): void {
    if (this.#events) return;
    this.#cancel?.();
    this.#cancel = null;
    const events = this.#world.open(this.#address());
    this.#events = events;
    events.onopen = () => this.#found();
    events.onmessage = (event: MessageEvent<string>) => {
      const change = JSON.parse(event.data) as ChangeNews;
      if (change.seq <= this.#seen) return;
      this.#seen = change.seq;
      this.#heard.change(change);
    };
    events.addEventListener('reset', (event: MessageEvent<string>) => {
      this.#seen = (JSON.parse(event.data) as { seq: number }).seq;
      this.#heard.reset();
    });
    events.addEventListener('trouble', (event: MessageEvent<string>) => {
      const error = JSON.parse(event.data) as ErrorEntry | null;
      this.#heard.trouble(error && problem_of(new ApiError(0, [error])));
    });
    events.onerror = () => this.#broken(events);
  }

  /** Costs the program nothing meanwhile; `resume` brings what came. */
  pause(): void {
    this.#events?.close();
    this.#events = null;
    this.#cancel?.();
    this.#cancel = null;
  }

  #address(): string {
    return `/api/feed?after=${this.#seen}`;
  }

  #found(): void {
    this.#pause = kShortest;
    if (!this.#lost) return;
    this.#lost = false;
    this.#heard.trouble(null);
  }

  /** The browser's own way of coming back knows no growing pauses, and does not say why. */
  #broken(events: EventSource): void {
    events.close();
    if (this.#events !== events) return;
    this.#events = null;
    const pause = this.#pause;
    this.#pause = Math.min(2 * pause, kLongest);
    this.#cancel = this.#world.wait(pause, () => void this.#try_again());
  }

  async #try_again(): Promise<void> {
    let stopped = false;
    this.#cancel = () => (stopped = true);
    let problem: Problem | null = null;
    let crowded = false;
    try {
      const status = await this.#world.status(this.#address());
      crowded = status === kCrowded;
      if (status >= 400 && !crowded) problem = problem_of(new ApiError(status, []));
    } catch (error) {
      problem = problem_of(error);
    }
    if (stopped) return;
    this.#cancel = null;
    if (!problem && !crowded) return this.resume();
    if (problem) {
      this.#lost = true;
      this.#heard.trouble(problem);
    }
    const pause = this.#pause;
    this.#pause = Math.min(2 * pause, kLongest);
    this.#cancel = this.#world.wait(pause, () => void this.#try_again());
  }
}
