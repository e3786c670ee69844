/** What is seen on a piece: its keys, its place in the address, and the words in which the program speaks of it. */
import { sentence } from '../../lib/format';
import type { Value } from '../../lib/query';

export interface Key {
  key: string;
  label: string;
  /** An example of what may be written. */
  such_as: string;
  unit?: string;
}
export interface KeyGroup {
  label: string;
  keys: Key[];
}

export const kGroups: KeyGroup[] = [
  {
    label: 'What it is',
    keys: [
      { key: 'ware', label: 'Ware', such_as: 'creamware' },
      { key: 'fabric', label: 'Fabric', such_as: 'a code of this site' },
      { key: 'form', label: 'Form', such_as: 'plate, Dr 45' },
      { key: 'body', label: 'Body', such_as: 'bone china' },
      { key: 'firing', label: 'Firing', such_as: 'reduced' },
    ],
  },
  {
    label: 'How it is decorated',
    keys: [
      { key: 'decoration', label: 'Decoration', such_as: 'scratch blue' },
      { key: 'technique', label: 'Technique', such_as: 'transfer printed' },
      { key: 'print_colour', label: 'Print colour', such_as: 'brown' },
      { key: 'edge', label: 'Edge', such_as: 'feather edge' },
      { key: 'lattice_angle', label: 'Lattice angle', such_as: '60', unit: 'degrees' },
    ],
  },
  {
    label: 'What is on it',
    keys: [
      { key: 'mark', label: 'Mark', such_as: 'Rd No 821265, none' },
      { key: 'legend', label: 'Legend', such_as: 'W?DGW*' },
    ],
  },
  {
    label: 'Also',
    keys: [
      { key: 'bore', label: 'Bore of a stem', such_as: '5', unit: '64ths of an inch' },
      { key: 'region', label: 'Region', such_as: 'London' },
    ],
  },
];

const kKeys = new Map(kGroups.flatMap((group) => group.keys).map((key) => [key.key, key]));

/** Pairs of key and value in the order in which the fields stand. */
export function in_order(seen: Readonly<Record<string, string>>): [string, string][] {
  const places = [...kKeys.keys()];
  const place = (key: string) => (places.includes(key) ? places.indexOf(key) : places.length);
  return Object.entries(seen).sort(([a], [b]) => place(a) - place(b));
}

/** "print_colour" -> "print colour"; a key that the page does not know comes as it is, without its underscores. */
export function key_name(key: string): string {
  return (kKeys.get(key)?.label ?? key.replace(/_/g, ' ')).toLowerCase();
}

export interface Observation {
  key: string;
  value: string;
  /** Set aside: still written down, but not asked about. */
  aside: boolean;
}

export function as_text(one: Pick<Observation, 'key' | 'value'>): string {
  return `${one.key}=${one.value}`;
}

/** ("ware=creamware") -> ["ware", "creamware"]; null without "=", or where either side is blank. */
export function as_pair(text: string): [string, string] | null {
  const at = text.indexOf('=');
  const key = text.slice(0, at).trim();
  const value = text.slice(at + 1).trim();
  return at < 0 || key === '' || value === '' ? null : [key, value];
}

function same(a: Pick<Observation, 'key' | 'value'>, b: Pick<Observation, 'key' | 'value'>): boolean {
  return a.key === b.key && folded(a.value) === folded(b.value);
}

function folded(text: string): string {
  return text.trim().replace(/\s+/g, ' ').toLowerCase();
}

/** With it, in use; one that was set aside is used again, and the same one twice is one. */
export function with_seen(all: readonly Observation[], key: string, value: string): Observation[] {
  const text = value.trim().replace(/\s+/g, ' ');
  if (text === '') return [...all];
  const one = { key, value: text, aside: false };
  const there = all.find((other) => same(other, one));
  if (there) return all.map((other) => (other === there ? { ...other, aside: false } : other));
  return [...all, one];
}

export function without(all: readonly Observation[], one: Observation): Observation[] {
  return all.filter((other) => other !== one);
}

export function turned_aside(all: readonly Observation[], ones: readonly Observation[], aside: boolean): Observation[] {
  return all.map((other) => (ones.includes(other) ? { ...other, aside } : other));
}

/** The observation in place of those of its key: a reading in place of a stamp with lost letters, another ware. */
export function in_place(all: readonly Observation[], key: string, value: string, asked?: string): Observation[] {
  const gone = all.filter((one) => one.key === key && (asked === undefined || folded(one.value) === folded(asked)));
  return with_seen(turned_aside(all, gone, true), key, value);
}

export interface Asked {
  seen: Observation[];
  /** Years to consider, "FROM:TO"; blank for all. */
  window: string;
  /** Years by which a span may be wrong at its ends; null for as many as the program takes. */
  shoulders: number | null;
}

export function asked_of(query: URLSearchParams): Asked {
  const seen: Observation[] = [];
  for (const [name, text] of query) {
    const pair = name === 'seen' || name === 'aside' ? as_pair(text) : null;
    if (!pair) continue;
    const one = { key: pair[0], value: pair[1], aside: name === 'aside' };
    if (!seen.some((other) => same(other, one))) seen.push(one);
  }
  const shoulders = query.get('shoulders');
  return {
    seen,
    window: query.get('window') ?? '',
    shoulders: shoulders !== null && /^\d+$/.test(shoulders) ? Number(shoulders) : null,
  };
}

export function query_of(asked: Asked): Record<string, Value> {
  return {
    seen: asked.seen.filter((one) => !one.aside).map(as_text),
    aside: asked.seen.filter((one) => one.aside).map(as_text),
    window: asked.window || null,
    shoulders: asked.shoulders,
  };
}

/** "50 BC" -> -50, "-50" -> -50, "AD 70" -> 70, "1785" -> 1785; null where it is no year. There is no year 0. */
export function year_of(text: string): number | null {
  const found = /^(-)?(?:ad\s*)?(\d{1,5})(\s*bc)?$/i.exec(text.trim());
  if (!found || (found[1] && found[3])) return null;
  const number = Number(found[2]);
  if (number === 0) return null;
  return found[1] || found[3] ? -number : number;
}

/** What the two fields of the window say: "FROM:TO", "" where both are blank, null where they say no years. */
export function window_of(from: string, to: string): string | null {
  if (from.trim() === '' && to.trim() === '') return '';
  const [a, b] = [year_of(from), year_of(to)];
  return a === null || b === null || b < a ? null : `${a}:${b}`;
}

const kNames = [...kKeys.keys()].join('|');
const kPart = new RegExp(`, (?=(?:${kNames})=)`);
const kPair = new RegExp(`\\b(${kNames})=`, 'g');

/** "ware=pearlware, edge=shell edge, curved lines" -> [["ware", "pearlware"], ["edge", "shell edge, curved lines"]] */
export function evidence_parts(evidence: string): [string, string][] {
  return evidence
    .split(kPart)
    .map(as_pair)
    .filter((pair) => pair !== null);
}

/** Words of the program with their KEY=VALUE made plain: "mark=england 1890 or later" -> "mark england 1890 or later" */
export function plain(text: string): string {
  return text.replace(kPair, (_, key: string) => `${key_name(key)} `);
}

/**
 * Those of the piece's observations on which a row rests that is told as `evidence`. Rows speak of an observation in the
 * words of the table, and may name a broader kind of it: first the same words count, then what was understood of them,
 * then the key alone.
 */
export function resting_on(
  evidence: string,
  seen: readonly Observation[],
  understood: readonly string[],
): Observation[] {
  const used = seen.filter((one) => !one.aside);
  const out = new Set<Observation>();
  for (const [key, value] of evidence_parts(evidence)) {
    const mine = used.filter((one) => one.key === key);
    const theirs = understood.map(as_pair).filter((pair) => pair !== null && pair[0] === key);
    const rank = theirs.findIndex((pair) => pair !== null && folded(pair[1]) === folded(value));
    const exact = mine.filter((one) => folded(one.value) === folded(value));
    const read = mine[rank];
    for (const one of exact.length ? exact : read && theirs.length === mine.length ? [read] : mine) out.add(one);
  }
  return [...out];
}

/**
 * The observations to set aside so that the rows of `drop` fall away and no other reason does; where every one of them
 * also bears another reason, all of them.
 */
export function to_set_aside(
  drop: readonly string[],
  reasons: readonly string[],
  seen: readonly Observation[],
  understood: readonly string[],
): Observation[] {
  const others = new Set(
    reasons.filter((reason) => !drop.includes(reason)).flatMap((reason) => resting_on(reason, seen, understood)),
  );
  const out = new Set<Observation>();
  for (const row of drop) {
    const mine = resting_on(row, seen, understood);
    const free = mine.filter((one) => !others.has(one));
    for (const one of free.length ? free : mine) out.add(one);
  }
  return [...out];
}

/** What an error says was meant: `did you mean "pearlware" or "creamware"? ...` -> both. */
export function meant(hint: string): string[] {
  const found = /did you mean ([^?]*)\?/i.exec(hint);
  return found ? [...(found[1] as string).matchAll(/"([^"]+)"/g)].map((one) => one[1] as string) : [];
}

export interface Fault {
  /** The observation that the program does not take. */
  one: Observation;
  message: string;
  /** What may have been meant by it. */
  meant: string[];
}

/** The error of an observation, where the problem is one; null for every other problem. */
export function fault_of(
  problem: { code: string; message: string; hint: string } | null,
  seen: readonly Observation[],
): Fault | null {
  if (!problem || !['unknown_value', 'unknown_key', 'not_a_number', 'impossible_mark'].includes(problem.code)) return null;
  const one = at_fault(problem.message, seen);
  if (!one) return null;
  const told = problem.message.replace(/\n\s*\^\s*/g, ': ');
  const way = problem.code === 'not_a_number' ? `: ${problem.hint}` : '';
  return { one, message: sentence(told + way), meant: meant(problem.hint) };
}

/** The observation of which an error speaks: the one whose words it repeats, `no ware "pearlwre" is known`. */
export function at_fault(message: string, seen: readonly Observation[]): Observation | null {
  const quoted = [...message.matchAll(/"([^"]*)"/g)].map((one) => folded(one[1] as string));
  const used = seen.filter((one) => !one.aside);
  const named = used.filter((one) => quoted.includes(folded(one.value)));
  const of_key = (one: Observation) => folded(message).includes(key_name(one.key)) || message.includes(one.key);
  return named.find(of_key) ?? named[0] ?? used.find((one) => folded(message).includes(folded(one.value))) ?? null;
}
