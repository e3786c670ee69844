import type { ChangeNews } from '../api';
import type { Problem } from './client';
import { told } from './changes';
import { Listening } from './feed';
import { read_anew } from './resource.svelte';

/** What reading anew waits for, so that a burst of changes is one reading. */
const kTogether = 200;
/** After a change made on this page the rest of it waits until the hands rest: its own place shows it already. */
const kOwn = 1500;

/** What others did to the record while this page is open. */
class News {
  /** Those that came together, the newest last. */
  changes = $state.raw<ChangeNews[]>([]);
  problem = $state.raw<Problem | null>(null);
  #listening: Listening | null = null;
  #gathered: ChangeNews[] = [];
  #timer: ReturnType<typeof setTimeout> | null = null;
  #own = new Set<string>();
  #own_numbers = new Set<number>();
  #held = 0;
  #own_timer: ReturnType<typeof setTimeout> | null = null;
  #listeners = new Set<(contexts: readonly string[] | null) => void>();

  /** The change of this name is made here, and is no news. */
  own(change: string): void {
    this.#own.add(change);
  }

  /** While long work of this page may change the record, what is told waits until its answer says which change was its own. */
  hold(): { own: (change: number | null) => void; end: () => void } {
    this.#held += 1;
    return { own: (change) => void (change !== null && this.#own_numbers.add(change)), end: () => void (this.#held -= 1) };
  }

  /** Told of what others change: its contexts, null where they are not said. */
  listen(listener: (contexts: readonly string[] | null) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  /** From the change `seen` on; a page that is hidden does not listen. */
  begin(seen: number): void {
    if (this.#listening) return;
    this.#listening = new Listening(seen, {
      change: (change) => {
        if (this.#own.has(change.uid)) return this.#own_change();
        this.#gathered.push(change);
        this.#timer ??= setTimeout(() => this.#tell(), kTogether);
      },
      reset: () => {
        read_anew();
        this.#tell_listeners(null);
      },
      trouble: (problem) => (this.problem = problem),
    });
    const turn = () => {
      if (document.visibilityState === 'hidden') this.#listening?.pause();
      else this.#listening?.resume();
    };
    document.addEventListener('visibilitychange', turn);
    addEventListener('online', turn);
    turn();
  }

  close(): void {
    this.changes = [];
  }

  #tell(): void {
    this.#timer = this.#held > 0 ? setTimeout(() => this.#tell(), kTogether) : null;
    if (this.#timer) return;
    // Its answer may have told that a change is one's own only after the feed had told the change.
    const others = this.#gathered.filter((change) => !this.#own.has(change.uid) && !this.#own_numbers.has(change.seq));
    this.#gathered = [];
    if (others.length === 0) return this.#own_change();
    this.changes = others;
    read_anew();
    const contexts = this.changes.map((one) => (one as { contexts?: readonly string[] }).contexts ?? null);
    this.#tell_listeners(contexts.includes(null) ? null : contexts.flatMap((one) => one ?? []));
  }

  #own_change(): void {
    if (this.#own_timer) clearTimeout(this.#own_timer);
    this.#own_timer = setTimeout(() => {
      this.#own_timer = null;
      read_anew();
    }, kOwn);
  }

  #tell_listeners(contexts: readonly string[] | null): void {
    for (const listener of this.#listeners) listener(contexts);
  }
}

/** In one line: "Changed by Mary: sherds read in from sherds.csv". */
export function sentence_of(changes: readonly ChangeNews[]): string {
  const last = changes.at(-1);
  if (!last) return '';
  const who = [...new Set(changes.map((one) => one.who))];
  const names = who.length > 2 ? `${who.slice(0, 2).join(', ')} and others` : who.join(' and ');
  return changes.length === 1
    ? `Changed by ${names}: ${told(last.command)}`
    : `${changes.length} changes by ${names}, the last: ${told(last.command)}`;
}

export const news = new News();
