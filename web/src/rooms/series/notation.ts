/** The notations that the program reads, with examples of each. */

export interface Notation {
  what: string;
  label: string;
  examples: string[];
}

export const kNotations: Notation[] = [
  { what: 'date', label: 'a date', examples: ['L13-E14', 'c. 1120-35', '2nd half C17', '50 BC-AD 70', '270+'] },
  { what: 'mark', label: 'a mark', examples: ['Rd No 821265', 'diamond top=O left=G right=18 bottom=5', 'Made in England', 'VR 49'] },
  { what: 'colour', label: 'a Munsell colour', examples: ['10YR 5/4', '10YR 5/4-6/6', 'N 4/'] },
  { what: 'firing', label: 'a firing', examples: ['O/R/O', 'oxidised with a grey core', 'oxidised throughout'] },
  { what: 'size', label: 'a size of inclusions', examples: ['medium sand', '0.4 mm', 'granule'] },
  { what: 'rounding', label: 'rounding', examples: ['subangular', 'well rounded'] },
  { what: 'sorting', label: 'sorting', examples: ['moderately sorted', 'well sorted'] },
  { what: 'frequency', label: 'frequency', examples: ['sparse', '10 %'] },
  { what: 'hardness', label: 'hardness', examples: ['hard', '3'] },
];

/** The styles of a date, as its authorities count; the first is the one that is taken unless another is named. */
export const kDateStyles: [string, string][] = [
  ['default', 'as usual: C17 is 1601 to 1700, c. is 10 years'],
  ['cco', 'Cataloging Cultural Objects: c. is 5 years'],
  ['object-id', 'Object ID: c. is 10 years, fl. 20'],
  ['ucsd', 'UC San Diego: C17 is 1600 to 1699'],
  ['mid-30-70', 'the middle of a century is 30 to 70'],
  ['quarters', 'early and late are a quarter each'],
  ['edtf', 'EDTF alone'],
];

/** An end of a grade as read: at most four digits. */
function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** (0.25, 0.5, "mm") -> "0.25–0.5 mm"; an open end in words; "" where the scale gives no limits. */
export function grade_range(low: number | null, high: number | null, unit: string): string {
  const with_unit = (text: string) => (unit ? `${text} ${unit}` : text);
  if (low === null && high === null) return '';
  if (low === null) return with_unit(`up to ${shown(high as number)}`);
  if (high === null) return `${with_unit(shown(low))} and above`;
  return with_unit(low === high ? shown(low) : `${shown(low)}–${shown(high)}`);
}

/** The scales that an answer about a grade names, for the choice among them, in the order of the alphabet. */
export function scales_of(style: string, also: readonly { scale: string }[]): string[] {
  return style === '' ? [] : [...new Set([style, ...also.map((one) => one.scale)])].sort();
}
