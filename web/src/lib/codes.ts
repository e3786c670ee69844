/** Codes that complete as one types: by code, name and synonym, those used most in this place first. */

export interface Code {
  code: string;
  name: string;
  synonyms: readonly string[];
  /** Beside the name: the ware group, the years. */
  note: string;
}

export interface Match {
  code: Code;
  /** 0 the same, 1 begins so, 2 words begin so, 3 occurs in it, 4 its letters in this order, 5 a slip of the hand. */
  rank: number;
}

function folded(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[-–_./]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** True where the letters of `typed` occur in `value` in their order, the first of them at its start. */
function in_order(typed: string, value: string): boolean {
  if (typed[0] !== value[0]) return false;
  let at = 0;
  for (const letter of value) if (letter === typed[at]) at += 1;
  return at === typed.length;
}

/** One letter wrong, missing, too many, or two the wrong way round. */
export function one_slip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at += 1;
  const [left, right] = [a.slice(at), b.slice(at)];
  if (left === right) return true;
  if (left.slice(1) === right.slice(1) || left.slice(1) === right || left === right.slice(1)) return true;
  return left.length > 1 && left[0] === right[1] && left[1] === right[0] && left.slice(2) === right.slice(2);
}

function rank_of(typed: string, code: Code): number | null {
  const own = folded(code.code);
  if (own === typed) return 0;
  const tight = typed.replace(/ /g, '');
  const own_tight = own.replace(/ /g, '');
  if (own.startsWith(typed) || own_tight.startsWith(tight)) return 1;
  const texts = [own, folded(code.name), ...code.synonyms.map(folded)];
  const words = texts.join(' ').split(' ');
  const parts = typed.split(' ');
  if (parts.every((part) => words.some((word) => word.startsWith(part)))) return 2;
  if (parts.every((part) => texts.some((text) => text.includes(part)))) return 3;
  if (tight.length > 1 && in_order(tight, own_tight)) return 4;
  return tight.length > 3 && one_slip(tight, own_tight) ? 5 : null;
}

/** At most `most` of the codes, the likeliest first; all of them, the most used first, where nothing is typed. */
export function match_codes(codes: readonly Code[], text: string, used: ReadonlyMap<string, number>, most = 8): Match[] {
  const typed = folded(text);
  const uses = (code: Code) => used.get(code.code) ?? 0;
  const found = codes
    .map((code, at) => ({ code, at, rank: typed === '' ? 1 : rank_of(typed, code) }))
    .filter((one): one is typeof one & { rank: number } => one.rank !== null);
  // What begins with the letters stands together, whether in the code or the name: use decides among them.
  const group = (rank: number) => (rank === 2 ? 1 : rank);
  found.sort((a, b) => group(a.rank) - group(b.rank) || uses(b.code) - uses(a.code) || a.rank - b.rank || (typed === '' ? 0 : a.code.code.length - b.code.code.length) || a.at - b.at);
  return found.slice(0, most).map(({ code, rank }) => ({ code, rank }));
}

/** How often each value stands in the texts; blanks are none. */
export function counted_uses(values: Iterable<string | undefined>): Map<string, number> {
  const out = new Map<string, number>();
  for (const value of values) if (value) out.set(value, (out.get(value) ?? 0) + 1);
  return out;
}
