import type { Values } from '../../lib/edits';

/** A context in one line: "grey-1 M; shell-3 12; sandy-2? 5 120g". */
export interface Ware {
  fabric: string;
  /** A rough amount, or a count; both absent where the ware is only named. */
  amount: 'S' | 'M' | 'L' | null;
  count: number | null;
  grams: number | null;
}

export function read_wares(text: string): Ware[] {
  return text
    .split(/[;\n]/)
    .map((part) => part.trim())
    .filter(Boolean)
    .map((part) => {
      const match = /^(.*?)\s+(?:([SML])|(\d+(?:\s*\+\s*\d+)*))?(?:\s*(\d+(?:[.,]\d+)?)\s*g)?$/.exec(part);
      if (!match || (!match[2] && !match[3] && !match[4])) return { fabric: part, amount: null, count: null, grams: null };
      const count = match[3] ? match[3].split('+').reduce((sum, one) => sum + Number(one), 0) : null;
      const grams = match[4] ? Number(match[4].replace(',', '.')) : null;
      return { fabric: match[1] ?? part, amount: (match[2] as Ware['amount']) ?? null, count, grams };
    });
}

export function write_wares(wares: readonly Ware[]): string {
  return wares.map((ware) => [ware.fabric, ware.amount ?? (ware.count === null ? '' : String(ware.count)), ware.grams === null ? '' : `${ware.grams}g`].filter(Boolean).join(' ')).join('; ');
}

export interface Remainder {
  ware: Ware;
  recorded: number;
  lines: number;
  /** Sherds of the scan that no line has; null where the scan gave no count: then only whether there is a line. */
  left: number | null;
}

const plain = (fabric: string) => fabric.replace(/\?+$/, '').trim();

/** What the lines do not account for yet, by ware. */
export function remainders(wares: readonly Ware[], lines: readonly Values[]): Remainder[] {
  return wares.map((ware) => {
    const own = lines.filter((line) => line.fabric === plain(ware.fabric));
    const recorded = own.reduce((sum, line) => sum + (Number(line.count) || 0), 0);
    return { ware, recorded, lines: own.length, left: ware.count === null ? null : ware.count - recorded };
  });
}
