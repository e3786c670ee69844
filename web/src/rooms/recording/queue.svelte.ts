import { send } from '../../lib/edits';
import { ApiError, type ErrorEntry } from '../../api';
import { Resource } from '../../lib/resource.svelte';
import { session } from './session.svelte';

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
  uid?: string;
  stage: Stage | null;
  type?: string;
  area?: string;
  phase?: string;
  lines: number;
  count: number | null;
  weight_g: number | null;
  to_check: number;
  scan?: QueueScan | null;
  touched?: { who: string; at: string } | null;
  flags: string[];
}
export interface QueueAnswer {
  contexts: QueueRow[];
}

/** An answer of a request by its address, as the room's parts ask for them. */
export async function ask<T>(path: string, signal?: AbortSignal): Promise<T> {
  const reply = await send('GET', path, undefined, signal);
  if (reply.status !== 200) throw new ApiError(reply.status, (reply.body as { errors?: ErrorEntry[] } | null)?.errors ?? []);
  return reply.body as T;
}

const kPause = 400;

/** The contexts, how far each is. */
class Queue {
  answer = new Resource<QueueAnswer>();
  #timer: ReturnType<typeof setTimeout> | null = null;
  #begun = false;

  read(): void {
    if (this.#begun) return;
    this.#begun = true;
    this.#load();
    session.listen({ saved: () => this.soon(), changed: () => this.soon() });
  }
  soon(): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#load(), kPause);
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

/** Nothing said is what the lines say: none is to do, some is begun. */
export function stage_of(row: QueueRow): Stage {
  return row.stage ?? (row.lines > 0 ? 'begun' : 'to_do');
}
