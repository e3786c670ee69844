import { problem_of, when_signed_out, Problem } from './client';
import { send } from './edits';
import { ApiError, type ErrorEntry } from '../api';
import { read_anew } from './resource.svelte';

/** Who works here. `account` is "" where the program has no accounts: then it is whoever started it. */
export interface Who {
  account: string;
  recorder: string;
  role: 'reader' | 'recorder' | 'editor' | 'owner';
  must_change: boolean;
}
export interface Sitting {
  id: string;
  account: string;
  peer: string;
  began: number;
  seen: number;
  this_one: boolean;
}

/** Signing in and out, where the program asks for it. */
class Account {
  who = $state.raw<Who | null>(null);
  /** Whether somebody has to sign in, or to choose a password, before anything else. */
  needs = $state<'nothing' | 'sign_in' | 'password'>('nothing');
  asked = $state(false);
  #back = new Set<() => void>();

  constructor() {
    when_signed_out(() => this.lost());
  }

  /** Told when somebody who was away is back. */
  when_back(then: () => void): void {
    this.#back.add(then);
  }

  /** The sitting is over: what stands on the page waits behind the sign-in. */
  lost(): void {
    if (this.who?.account) this.needs = 'sign_in';
  }

  /** At the start; a program that knows nothing of accounts is one without. */
  async ask(): Promise<void> {
    const reply = await send('GET', '/api/session').catch(() => null);
    if (reply?.status === 200) this.#take(reply.body as Who);
    else if (error_of(reply?.body)?.code === 'not_signed_in') this.needs = 'sign_in';
    this.asked = true;
  }

  async sign_in(name: string, password: string): Promise<Problem | null> {
    return this.#do('POST', '/api/sign-in', { name, password }, (who) => this.#take(who as Who));
  }

  async change_password(old: string, fresh: string): Promise<Problem | null> {
    return this.#do('POST', '/api/password', { old, new: fresh }, (who) => this.#take(who as Who));
  }

  async sign_out(): Promise<Problem | null> {
    return this.#do('POST', '/api/sign-out', {}, () => location.reload());
  }

  async sittings(): Promise<Sitting[] | Problem> {
    let found: Sitting[] = [];
    const problem = await this.#do('GET', '/api/sessions', undefined, (body) => (found = (body as { sessions: Sitting[] }).sessions));
    return problem ?? found;
  }

  async end_sitting(id: string): Promise<Problem | null> {
    return this.#do('DELETE', `/api/sessions/${encodeURIComponent(id)}`, undefined, () => {});
  }

  /** Somebody else at the same page finds it as new, and nothing of the one before. */
  #take(who: Who): void {
    if (this.who && this.who.account !== who.account) return location.reload();
    const was_away = this.needs !== 'nothing';
    this.who = who;
    this.needs = who.must_change ? 'password' : 'nothing';
    if (!was_away || this.needs !== 'nothing') return;
    read_anew();
    for (const one of this.#back) one();
  }

  async #do(method: string, path: string, body: object | undefined, then: (answer: unknown) => void): Promise<Problem | null> {
    try {
      const reply = await send(method, path, body);
      if (reply.status === 200) then(reply.body);
      else throw new ApiError(reply.status, [error_of(reply.body)].filter((one) => one !== null), reply.body);
      return null;
    } catch (error) {
      return problem_of(error);
    }
  }
}

function error_of(body: unknown): ErrorEntry | null {
  return (body as { errors?: ErrorEntry[] } | null)?.errors?.[0] ?? null;
}

export const account = new Account();
