import type { ChangeNews } from '../api';
import type { Problem } from './client';
import { told } from './changes';
import { Listening } from './feed';
import { read_anew } from './resource.svelte';

/** What reading anew waits for, so that a burst of changes is one reading. */
const kTogether = 200;

/** What others did to the record while this page is open. */
class News {
  /** Those that came together, the newest last. */
  changes = $state.raw<ChangeNews[]>([]);
  problem = $state.raw<Problem | null>(null);
  #listening: Listening | null = null;
  #gathered: ChangeNews[] = [];
  #timer: ReturnType<typeof setTimeout> | null = null;

  /** From the change `seen` on; a page that is hidden does not listen. */
  begin(seen: number): void {
    if (this.#listening) return;
    this.#listening = new Listening(seen, {
      change: (change) => {
        this.#gathered.push(change);
        this.#timer ??= setTimeout(() => this.#tell(), kTogether);
      },
      reset: () => read_anew(),
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
    this.#timer = null;
    this.changes = this.#gathered;
    this.#gathered = [];
    read_anew();
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
