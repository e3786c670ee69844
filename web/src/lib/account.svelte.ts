import { problem_of, when_signed_out, Problem } from './client';
import { send } from './edits';
import { ApiError, type ErrorEntry } from '../api';
import { read_anew } from './resource.svelte';

/** Who works here. `account` is "" where the program has no accounts: then it is whoever started it. */
export interface Who {
  account: string;
  recorder: string;
  role: Role;
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

export const kRoles = ['reader', 'recorder', 'editor', 'owner'] as const;
export type Role = (typeof kRoles)[number];
/** An account as an owner sees it. */
export interface Listed {
  name: string;
  recorder: string;
  role: Role;
  must_change: boolean;
  mine: boolean;
  sessions: number;
}
/** `password`: one made at random, said this once; else "". */
export interface Accounts {
  accounts: Listed[];
  password: string;
}
/** What an owner does to one account. */
export type Act =
  | { do: 'add'; name: string; recorder: string; role: Role }
  | { do: 'alter'; name: string; role?: Role; new_password?: true; end_sessions?: true }
  | { do: 'remove'; name: string };

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
    const found = await this.#read<{ sessions: Sitting[] }>('GET', '/api/sessions');
    return found instanceof Problem ? found : found.sessions;
  }

  async end_sitting(id: string): Promise<Problem | null> {
    return this.#do('DELETE', `/api/sessions/${encodeURIComponent(id)}`, undefined, () => {});
  }

  /** All accounts; for an owner. */
  async accounts(): Promise<Accounts | Problem> {
    return this.#read('GET', '/api/accounts');
  }

  /** The accounts as they are after it. Problem `prove_first`: the own password is to be given once more. */
  async act(act: Act): Promise<Accounts | Problem> {
    if (act.do === 'add') return this.#read('POST', '/api/accounts', { name: act.name, recorder: act.recorder || act.name, role: act.role });
    const path = `/api/accounts/${encodeURIComponent(act.name)}`;
    if (act.do === 'remove') return this.#read('DELETE', path);
    const { do: _, name: __, ...asked } = act;
    return this.#read('POST', path, asked);
  }

  async prove(password: string): Promise<Problem | null> {
    return this.#do('POST', '/api/proof', { password }, () => {});
  }

  async #read<T>(method: string, path: string, body?: object): Promise<T | Problem> {
    let found: T | null = null;
    const problem = await this.#do(method, path, body, (answer) => (found = answer as T));
    return problem ?? (found as T);
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
