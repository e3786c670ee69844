/** How numbers, years and shares are written on the page. Null is never a number: the caller shows "not recorded". */

const kGroups = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

/** 5230 -> "5,230" */
export function whole(value: number): string {
  return kGroups.format(value);
}

/** A number with a fixed count of decimals and commas between thousands: (86016.8, 1) -> "86,016.8" */
export function fixed(value: number, decimals: number): string {
  return value.toLocaleString('en-GB', { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
}

/** Weight for a headline: below 1 kg in g, from there in kg. */
export function weight(grams: number): { number: string; unit: string } {
  return grams < 1000 ? { number: fixed(grams, 1), unit: 'g' } : { number: fixed(grams / 1000, 1), unit: 'kg' };
}

/** 0.1284 -> "12.8". Not nothing, but too little to show, is "<0.1". */
export function percent(share: number): string {
  const value = 100 * share;
  return value > 0 && value < 0.05 ? '<0.1' : fixed(value, 1);
}

/** A historical year: 1680 -> "1680", -43 -> "43 BC". There is no year 0. */
export function year(value: number): string {
  return value > 0 ? String(value) : `${-value} BC`;
}

/**
 * Years inclusive at both ends; null is an open end: "120–250", "50 BC–AD 70", "100–40 BC", "270 or later",
 * "410 or earlier"; "" where both are open.
 */
export function years(earliest: number | null, latest: number | null): string {
  if (earliest === null && latest === null) return '';
  if (latest === null) return `${year(earliest as number)} or later`;
  if (earliest === null) return `${year(latest)} or earlier`;
  if (earliest === latest) return year(earliest);
  if (latest < 0) return `${-earliest}–${year(latest)}`;
  return earliest < 0 ? `${year(earliest)}–AD ${latest}` : `${earliest}–${latest}`;
}

/** Joins a mean date's real number to a year: astronomical numbers at or below 0 have had 1 taken away already. */
export function mean_year(value: number): string {
  const rounded = Math.round(value);
  return year(rounded === 0 ? (value > 0 ? 1 : -1) : rounded);
}

/** (1, "line") -> "1 line", (1509, "line") -> "1,509 lines" */
export function counted(number: number, one: string, many = `${one}s`): string {
  return `${whole(number)} ${number === 1 ? one : many}`;
}

/**
 * A message as a sentence of its own: a capital where it starts with a plain word (not with a code such as grey-1), and a
 * full stop where it ends without one.
 */
export function sentence(text: string): string {
  const start = /^[a-z]+(?=[\s,:;.]|$)/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text;
  return start === '' || /[.?!]$/.test(start) ? start : `${start}.`;
}

/** An instant in UTC as a day in words: "2026-11-25T14:07:55Z" -> "25 November 2026". As it came where it is no instant. */
export function day(instant: string): string {
  const date = new Date(instant);
  if (Number.isNaN(date.getTime())) return instant;
  return date.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
}

/** A code as words: "make_up" -> "make-up", "weight_g" -> "weight (g)", "not_before" -> "not before" */
export function words(code: string): string {
  if (code === 'make_up') return 'make-up';
  return code
    .replace(/_(g|mm)$/, ' ($1)')
    .replace(/_/g, ' ');
}
