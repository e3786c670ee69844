/** What the program answered, and how its rows and columns are found again among the lines. */
import type { CompareResponse } from '../../api';
import { fixed, percent } from '../../lib/format';
import { lines_of, type Opening } from '../../lib/opening';
import { condition } from '../../lib/query';
import type { SheetCell } from '../../lib/sheet';
import { field_name } from '../../lib/tallies';

export type Compared = CompareResponse;

/** Where the figures of an answer come from. */
export interface Ground {
  rows: string;
  columns: string;
  /** All that the lines met, so that a list of lines holds those that were counted. */
  where: readonly string[];
  /** Rows that other sites published: no line lies behind them. */
  others: ReadonlySet<string>;
  /** A table of its own, with no lines behind any of it. */
  plain: boolean;
}

/** A label as the lines are asked for it: types that were counted as one are any of them. */
const asked = (label: string) => label.split(' + ').join('||');

export function row_lines(ground: Ground, label: string): Opening | null {
  if (ground.plain || ground.others.has(label)) return null;
  return lines_of(`${field_name(ground.rows)} ${label}`, [...ground.where, condition(ground.rows, label)]);
}
export function column_lines(ground: Ground, label: string): Opening | null {
  if (ground.plain) return null;
  return lines_of(`${field_name(ground.columns)} ${label}`, [...ground.where, condition(ground.columns, asked(label))]);
}
export function cell_lines(ground: Ground, row: string, column: string): Opening | null {
  if (ground.plain || ground.others.has(row)) return null;
  const title = `${field_name(ground.rows)} ${row}, ${field_name(ground.columns)} ${column}`;
  return lines_of(title, [...ground.where, condition(ground.rows, row), condition(ground.columns, asked(column))]);
}
export function rows_lines(ground: Ground, labels: readonly string[], records?: readonly string[]): Opening | null {
  const own = labels.filter((label) => !ground.others.has(label));
  if (ground.plain || own.length === 0) return null;
  return lines_of(`${field_name(ground.rows)} ${own.join(' and ')}`, [...ground.where, condition(ground.rows, own.join('||'))], records);
}

/** A number in a cell; null where there is none. */
export function number(value: number | null | undefined, decimals: number, more: Partial<SheetCell> = {}): SheetCell {
  return value === null || value === undefined
    ? { text: null, value: null, says: 'undefined', ...more }
    : { text: signed(fixed(value, decimals)), value, ...more };
}
export function share(value: number | null | undefined, more: Partial<SheetCell> = {}): SheetCell {
  return value === null || value === undefined ? { text: null, value: null, says: 'undefined', ...more } : { text: percent(value), value, ...more };
}
export const plain = (text: string | null, more: Partial<SheetCell> = {}): SheetCell => ({ text, ...more });

/** A true minus sign; what is rounded to nothing has none. */
export function signed(text: string): string {
  return text.replace(/^-(?=[0.,]*$)/, '').replace(/^-/, '−');
}

/** A probability: never 0, which no test finds. */
export function p_text(p: number | null | undefined): string | null {
  if (p === null || p === undefined) return null;
  return p < 0.001 ? '<0.001' : fixed(p, 3);
}

export function range(low: number | null | undefined, high: number | null | undefined, decimals: number): string | undefined {
  if (low === null || low === undefined || high === null || high === undefined) return undefined;
  return `${signed(fixed(low, decimals))} to ${signed(fixed(high, decimals))}`;
}
