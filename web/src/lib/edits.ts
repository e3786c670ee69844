/** The one way in for rows of every kind, and what the page asks to record. */
import type { ErrorEntry } from '../api';
import { address, type Value } from './query';

export type Values = Record<string, string>;

export interface Step {
  do: 'add' | 'set' | 'remove';
  kind: string;
  /** A row by its uid or key, or "@name" of one added earlier in the same change. */
  row?: string;
  column?: string;
  seen?: string;
  value?: string;
  values?: Values;
  /** Names a row that is added. */
  as?: string;
  /** Kinds whose rows that name the removed one go with it. */
  with?: string[];
}

export interface Change {
  change: string;
  label: string;
  /** Who records, where it is not the one who runs the program. */
  who?: string;
  steps: Step[];
}

export interface Row {
  kind: string;
  uid: string;
  removed?: boolean;
  values: Values;
}

/** What a value was taken for. */
export interface Note {
  step: number;
  column: string;
  text: string;
  message: string;
}
export interface Saved {
  /** null where all stood so already. */
  seq: number | null;
  change: string;
  rows: Row[];
  notes: Note[];
}
/** Two values for one cell: what this page had seen, what stands there now, and what was to be written. */
export interface Conflict {
  step: number;
  kind: string;
  row: string;
  column: string;
  seen: string;
  now: string;
  value: string;
  who: string;
  at: string;
}
export interface StepProblem {
  step: number;
  column: string;
  text: string;
  code: string;
  message: string;
  hint: string;
}

/** What the program said to a request: its status and its document. */
export interface Reply {
  status: number;
  body: unknown;
}

/** The problems of a refusal; an error of the request as a whole is one of its step 0. */
export function problems_of(body: unknown): StepProblem[] {
  const document = body as { problems?: StepProblem[]; errors?: ErrorEntry[] } | null;
  if (document?.problems?.length) return document.problems;
  return (document?.errors ?? []).map((error) => ({
    step: 0,
    column: error.where?.column ?? '',
    text: '',
    code: error.code ?? '',
    message: error.message ?? '',
    hint: error.hint ?? '',
  }));
}

export function conflicts_of(body: unknown): Conflict[] {
  return (body as { conflicts?: Conflict[] } | null)?.conflicts ?? [];
}

/** 32 hex digits; also where the page came without encryption, and the browser keeps crypto.randomUUID to itself. */
export function new_uid(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** One request; rejects only where there is no answer. */
export async function send(method: string, path: string, body?: object, signal?: AbortSignal): Promise<Reply> {
  const answer = await fetch(path, {
    method,
    credentials: 'same-origin',
    headers: body === undefined ? {} : { 'Content-Type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    ...(signal ? { signal } : {}),
  });
  return { status: answer.status, body: await answer.json().catch(() => null) };
}

export function rows_address(kind: string, where: readonly string[], more: Record<string, Value> = {}): string {
  return address('/api/rows', { kind, where, ...more });
}
