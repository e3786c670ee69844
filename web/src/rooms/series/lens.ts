/** What is seen under the lens, as the page holds it and as the program is asked. */
export const kPlain = ['hardness', 'feel', 'fracture', 'outside', 'core', 'inside', 'firing'] as const;
export type Plain = (typeof kPlain)[number];

export interface SeenInclusion {
  kind: string;
  amount: string;
  size: string;
  sorting: string;
  rounding: string;
}
export interface Lens {
  plain: Record<Plain, string>;
  inclusions: SeenInclusion[];
  only: boolean;
}

export const kNotThere = 'none';

export function nothing(): Lens {
  return { plain: Object.fromEntries(kPlain.map((key) => [key, ''])) as Record<Plain, string>, inclusions: [], only: false };
}

export function inclusion_text(one: SeenInclusion): string {
  return [one.kind, one.amount, one.size, one.sorting, one.rounding].filter(Boolean).join(', ');
}

/** "hardness=hard", "inclusion=quartz, common, 0.3 mm": as the program is asked, and as the address keeps it. */
export function observations(lens: Lens): string[] {
  return [
    ...kPlain.filter((key) => lens.plain[key].trim() !== '').map((key) => `${key}=${lens.plain[key].trim()}`),
    ...lens.inclusions.map((one) => `inclusion=${inclusion_text(one)}`),
  ];
}

/** The parts of an inclusion by what they look like; an address that was written otherwise keeps its order. */
export function inclusion_of(text: string): SeenInclusion {
  const [kind = '', ...parts] = text.split(',').map((part) => part.trim());
  const out: SeenInclusion = { kind, amount: '', size: '', sorting: '', rounding: '' };
  for (const part of parts) {
    if (/\d|sand|silt|granule|pebble/.test(part) && !part.includes('%')) out.size = part;
    else if (/sorted/.test(part)) out.sorting = part;
    else if (/angular|rounded/.test(part)) out.rounding = part;
    else out.amount = part;
  }
  return out;
}

export function lens_of(seen: readonly string[], only: boolean): Lens {
  const lens = nothing();
  lens.only = only;
  for (const one of seen) {
    const at = one.indexOf('=');
    const key = one.slice(0, at);
    const value = one.slice(at + 1);
    if (key === 'inclusion') lens.inclusions.push(inclusion_of(value));
    else if ((kPlain as readonly string[]).includes(key)) lens.plain[key as Plain] = value;
  }
  return lens;
}

/** Takes an answer to what was to be looked at next: "hardness", "quartz", "quartz size", "firing core". */
export function with_answer(lens: Lens, key: string, value: string): Lens {
  const next: Lens = { plain: { ...lens.plain }, inclusions: lens.inclusions.map((one) => ({ ...one })), only: lens.only };
  if ((kPlain as readonly string[]).includes(key)) {
    next.plain[key as Plain] = value;
    return next;
  }
  if (key.startsWith('firing ')) {
    next.plain.firing = [lens.plain.firing, `${key.slice('firing '.length)} ${value}`].filter(Boolean).join(', ');
    return next;
  }
  const part = /^(.+) (size|sorting|rounding)$/.exec(key);
  const kind = part?.[1] ?? key;
  let one = next.inclusions.find((each) => each.kind.toLowerCase() === kind);
  if (!one) {
    one = { kind, amount: '', size: '', sorting: '', rounding: '' };
    next.inclusions.push(one);
  }
  if (part) one[part[2] as 'size' | 'sorting' | 'rounding'] = value;
  else one.amount = value === 'present' ? '' : value;
  return next;
}
