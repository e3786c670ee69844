/** What hands type into a cell, read at once, so that the page can show how it was taken. The program reads it again and decides. */

export type Amount = 'count' | 'weight' | 'length' | 'percent' | 'year' | 'volume';

export interface Read {
  ok: true;
  /** In the unit of the column: g, mm, percent, litres. */
  value: number;
  /** As it is written in the record: "1200". */
  text: string;
  /** How it was taken, where that is not plain from what was typed: "= 1200 g"; else "". */
  shown: string;
}
export interface Unread {
  ok: false;
  problem: string;
  hint: string;
}

interface Kind {
  unit: string;
  decimals: number;
  /** Units that may be typed, each with what it is in the column's own. */
  units: Record<string, number>;
}
const kKinds: Record<Exclude<Amount, 'year'>, Kind> = {
  count: { unit: '', decimals: 0, units: {} },
  weight: { unit: 'g', decimals: 3, units: { g: 1, gr: 1, gram: 1, grams: 1, kg: 1000, mg: 0.001 } },
  length: { unit: 'mm', decimals: 2, units: { mm: 1, cm: 10, m: 1000, in: 25.4, inch: 25.4, '"': 25.4 } },
  percent: { unit: '%', decimals: 1, units: { '%': 1, pc: 1, eve: 100 } },
  volume: { unit: 'l', decimals: 3, units: { l: 1, litre: 1, litres: 1, ml: 0.001 } },
};

const kTerm = /^(\d{1,3}(?:,\d{3})+\.\d+|\d+(?:[.,]\d+)?|[.,]\d+)\s*([a-z%"]*)$/i;
/** One and a half thousand, or one and a half: nobody can know. */
const kEither = /^[1-9]\d{0,2},\d{3}$/;

function unread(text: string, hint: string): Unread {
  return { ok: false, problem: `"${text}" is not read as a number`, hint };
}

function hint_of(kind: Kind): string {
  const units = Object.keys(kind.units);
  const with_unit = units.length ? `, a unit (${[...new Set(units.slice(0, 6))].join(', ')})` : '';
  return kind.decimals === 0 ? 'a whole number or a sum such as 12+7+30' : `a number such as 12.5 or 12,5, a sum such as 12+7+30${with_unit}`;
}

function rounded(value: number, decimals: number): number {
  const tens = 10 ** decimals;
  return Math.round(value * tens) / tens;
}

/** "12+7+30" -> 49; "12,5" -> 12.5; "1.2 kg" of a weight -> 1200. A unit at the end holds for the terms before it that have none. */
export function read_amount(text: string, amount: Amount): Read | Unread {
  const trimmed = text.trim();
  if (amount === 'year') return read_year(trimmed);
  const kind = kKinds[amount];
  const terms = trimmed.split('+').map((term) => kTerm.exec(term.trim()));
  if (terms.some((term) => term === null)) return unread(trimmed, hint_of(kind));
  const last_unit = (terms[terms.length - 1]?.[2] ?? '').toLowerCase();
  let sum = 0;
  for (const term of terms) {
    const number = term?.[1] ?? '';
    if (kEither.test(number)) {
      const whole = number.replace(',', '');
      return { ok: false, problem: `"${number}" may be ${whole} or ${number.replace(',', '.')}`, hint: `write ${whole} or ${number.replace(',', '.')}` };
    }
    const unit = (term?.[2] || last_unit).toLowerCase();
    const times = unit === '' ? 1 : kind.units[unit];
    if (times === undefined) return unread(trimmed, hint_of(kind));
    sum += Number(number.includes('.') ? number.replace(/,/g, '') : number.replace(',', '.')) * times;
  }
  const value = rounded(sum, kind.decimals);
  if (Math.abs(value - sum) > 1e-9) {
    const least = kind.decimals === 0 ? 'whole numbers only' : `at most ${kind.decimals} decimals of ${kind.unit}`;
    return { ok: false, problem: `"${trimmed}" is finer than the record keeps`, hint: least };
  }
  const plain = String(value);
  const shown = plain === trimmed ? '' : `= ${plain}${kind.unit ? ` ${kind.unit}` : ''}`;
  return { ok: true, value, text: plain, shown };
}

/** "1650", "AD 1650", "50 BC", "-50". Notations of several years are read by the program. */
function read_year(text: string): Read | Unread {
  const match = /^(?:AD\s*)?(-?\d{1,6})\s*(BCE?|CE|AD)?$/i.exec(text);
  const hint = 'a year such as 1650 or 50 BC';
  if (!match) return unread(text, hint);
  const before = /^BC/i.test(match[2] ?? '');
  const number = Number(match[1]) * (before ? -1 : 1);
  if (number === 0) return { ok: false, problem: 'there is no year 0', hint };
  const plain = String(number);
  return { ok: true, value: number, text: plain, shown: plain === text ? '' : `= ${number > 0 ? `AD ${number}` : `${-number} BC`}` };
}

/** "grey-1?" -> ["grey-1", "?"]: one question mark is probable, two are possible. */
export function without_doubt(text: string): [string, '' | '?' | '??'] {
  const match = /^(.*?)\s*(\?+|\(\?\))$/.exec(text.trim());
  return match ? [match[1] ?? '', match[2] === '??' ? '??' : '?'] : [text.trim(), ''];
}

export interface Reading {
  grams: number;
  /** What stands on the pan beside the pot, as the balance says it. */
  tare: boolean;
  stable: boolean;
}

/**
 * A line as a balance types it: "  12.4 g", "+ 1.204 kg", "ST,GS, 12.4 g", "N 12.4 g". null where it is no reading.
 * US, "~" and "?" say that the pan had not come to rest, NT and N that the tare is taken off.
 */
export function read_balance(line: string): Reading | null {
  const match = /^\s*((?:[A-Z]{1,2}[ ,]+)*)([~?])?\s*([+-]?)\s*(\d+(?:[.,]\d+)?)\s*(kg|g|mg)?\s*([~?])?\s*$/.exec(line);
  if (!match) return null;
  const words = (match[1] ?? '').split(/[ ,]+/);
  const times = match[5] === 'kg' ? 1000 : match[5] === 'mg' ? 0.001 : 1;
  const grams = rounded(Number((match[4] ?? '').replace(',', '.')) * times, 3) * (match[3] === '-' ? -1 : 1);
  return {
    grams,
    tare: words.some((word) => ['NT', 'N'].includes(word)),
    stable: !match[2] && !match[6] && !words.some((word) => ['US', 'U', 'SD'].includes(word)),
  };
}

const kSame = 1000;

/** Takes the readings of a balance in: those at rest, each once. */
export class Balance {
  #last: { grams: number; at: number } | null = null;

  /** Why a reading is not taken; "" where it is. `now` in milliseconds. */
  take(reading: Reading, now: number): string {
    if (!reading.stable) return 'not at rest';
    if (reading.grams <= 0) return 'nothing on the pan';
    const last = this.#last;
    this.#last = { grams: reading.grams, at: now };
    return last && last.grams === reading.grams && now - last.at < kSame ? 'the same reading again' : '';
  }
}
