import { send } from '../../lib/edits';
import { ApiError, type ErrorEntry } from '../../api';
import { Resource } from '../../lib/resource.svelte';
import { session } from '../../lib/session.svelte';

export type Stage = 'to_do' | 'begun' | 'done';

/** What a scan counted of a context, and how much of it no line accounts for. */
export interface QueueScan {
  wares: string;
  amount: string | null;
  count: number | null;
  weight_g: number | null;
  count_left: number | null;
  weight_left_g: number | null;
}
export interface QueueRow {
  context: string;
  /** What its recorder says, else what its lines do. */
  stage: Stage;
  type?: string;
  area?: string;
  phase?: string;
  lines: number;
  count: number | null;
  weight_g: number | null;
  to_check: number;
  scan?: QueueScan | null;
  who: string;
  at: string;
  flags: string[];
}
export interface QueueAnswer {
  contexts: QueueRow[];
}

/** Pauses before a program that is busy is asked again, in milliseconds. */
const kAgain = [200, 600, 1500];

/** An answer of a request by its address, as the room's parts ask for them. */
export async function ask<T>(path: string, signal?: AbortSignal): Promise<T> {
  let reply = await send('GET', path, undefined, signal);
  for (const pause of kAgain) {
    if (reply.status !== 503 && reply.status !== 429) break;
    await new Promise((then) => setTimeout(then, pause));
    reply = await send('GET', path, undefined, signal);
  }
  if (reply.status !== 200) throw new ApiError(reply.status, (reply.body as { errors?: ErrorEntry[] } | null)?.errors ?? []);
  return reply.body as T;
}

/** Of others' changes the list is asked for soon; of one's own once the hands rest, since it reads all contexts. */
const kPause = 400;
const kRest = 2500;

/** The contexts, how far each is. */
class Queue {
  answer = new Resource<QueueAnswer>();
  #timer: ReturnType<typeof setTimeout> | null = null;
  #begun = false;

  read(): void {
    if (this.#begun) return;
    this.#begun = true;
    this.#load();
    session.listen({ saved: () => this.soon(kRest), changed: () => this.soon() });
  }
  soon(pause = kPause): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#load(), pause);
  }
  again(): void {
    this.#load();
  }
  #load(): void {
    this.#timer = null;
    void this.answer.load((options) => ask<QueueAnswer>('/api/queue', options.signal));
  }
}

export const queue = new Queue();
