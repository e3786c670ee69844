/** What the Assemblage room can count by, and how a tally's figures are read and set out. */
import type { TallyResponse, TallyResponseRow, TallyRow } from '../api';
import { fixed, percent, whole, words } from './format';
import { lines_of } from './opening';
import { condition } from './query';
import { shade_of, type Grid } from './sheet';
import { natural } from './sort';
import type { Measure } from './types';

export interface FieldGroup {
  label: string;
  fields: string[];
}

export const kFields: FieldGroup[] = [
  { label: 'What it is', fields: ['fabric', 'fabric.ware_group', 'form', 'form.vessel_class', 'part', 'decoration', 'mark'] },
  {
    label: 'Where it lay',
    fields: ['context', 'context.phase', 'context.area', 'context.deposit', 'context.integrity', 'context.feature', 'context.group', 'context.recovery'],
  },
  { label: 'As recorded', fields: ['condition', 'judged', 'fabric_certainty', 'bag', 'box', 'sample', 'recorder', 'checked_by'] },
];

const kNames: Record<string, string> = {
  'fabric.ware_group': 'ware group',
  'form.vessel_class': 'vessel class',
  'context.phase': 'phase',
  'context.area': 'area',
  'context.deposit': 'deposit',
  'context.integrity': 'integrity',
  'context.feature': 'feature',
  'context.group': 'group',
  'context.recovery': 'recovery',
};

/** A field's name in words: "fabric.ware_group" -> "ware group", "extra.colour" -> "colour". */
export function field_name(field: string): string {
  return kNames[field] ?? words(field.replace(/^extra\./, '').replace('.', ': '));
}

export interface MeasureName {
  measure: Measure;
  label: string;
  unit: string;
  decimals: number;
}
export const kMeasures: MeasureName[] = [
  { measure: 'count', label: 'sherds', unit: '', decimals: 0 },
  { measure: 'weight', label: 'weight', unit: 'g', decimals: 1 },
  { measure: 'vessels', label: 'vessels', unit: '', decimals: 0 },
  { measure: 'eve', label: 'EVE', unit: '', decimals: 2 },
];

export function measure_name(measure: Measure): MeasureName {
  return kMeasures.find((one) => one.measure === measure) as MeasureName;
}

export function amount(row: TallyRow | TallyResponseRow, measure: Measure): number | null {
  return measure === 'weight' ? row.weight_g : row[measure];
}

/** An amount as it is written; null is nothing to write. */
export function amount_text(value: number | null, measure: Measure): string | null {
  if (value === null) return null;
  const { decimals } = measure_name(measure);
  return decimals === 0 ? whole(value) : fixed(value, decimals);
}

/** The row's value of a field; null is blank. */
export function key_of(row: TallyResponseRow, field: string): string | null {
  const value = row[field];
  return typeof value === 'string' && value !== '' ? value : null;
}

/** Conditions that the lines of the row meet. */
export function where_of(row: TallyResponseRow, by: readonly string[], where: readonly string[]): string[] {
  return [...where, ...by.map((field) => condition(field, key_of(row, field)))];
}

export type Show = 'amount' | 'of_row' | 'of_column';
export interface CrossCell {
  text: string | null;
  /** 0..7: how dark */
  density: number;
  where: string[];
}
export interface CrossRow {
  key: string | null;
  total: string | null;
  where: string[];
  cells: CrossCell[];
  /** For ordering. */
  values: (number | null)[];
  total_value: number | null;
}
export interface Cross {
  columns: { key: string | null; total: string | null; where: string[] }[];
  rows: CrossRow[];
  total: string | null;
}

/**
 * Sets a tally by two fields out as rows and columns. Totals come from tallies by each field alone (`rows_alone`,
 * `columns_alone`) and are never summed, since a vessel in two cells is one vessel in the total.
 */
export function cross_of(
  both: TallyResponse,
  rows_alone: TallyResponse,
  columns_alone: TallyResponse,
  where: readonly string[],
  measure: Measure,
  show: Show,
): Cross {
  const [first = '', second = ''] = both.by;
  const cells = new Map(both.rows.map((row) => [JSON.stringify([key_of(row, first), key_of(row, second)]), row]));
  const columns = [...columns_alone.rows].sort((a, b) => by_key(key_of(a, second), key_of(b, second)));
  const whole_of = (row: TallyResponseRow, column: TallyResponseRow) =>
    show === 'of_row' ? amount(row, measure) : show === 'of_column' ? amount(column, measure) : null;

  const value_at = (row: TallyResponseRow, column: TallyResponseRow): number | null => {
    const cell = cells.get(JSON.stringify([key_of(row, first), key_of(column, second)]));
    const value = cell ? amount(cell, measure) : null;
    if (value === null || show === 'amount') return value;
    const base = whole_of(row, column);
    return base ? value / base : null;
  };
  const values = rows_alone.rows.map((row) => columns.map((column) => value_at(row, column)));
  const most = Math.max(0, ...values.flat().map((value) => value ?? 0));
  const text = (value: number | null) =>
    show === 'amount' ? amount_text(value, measure) : value === null ? null : percent(value);

  return {
    columns: columns.map((column) => ({
      key: key_of(column, second),
      total: amount_text(amount(column, measure), measure),
      where: where_of(column, [second], where),
    })),
    rows: rows_alone.rows.map((row, index) => ({
      key: key_of(row, first),
      total: amount_text(amount(row, measure), measure),
      total_value: amount(row, measure),
      where: where_of(row, [first], where),
      values: values[index] ?? [],
      cells: columns.map((column, at) => {
        const value = values[index]?.[at] ?? null;
        return {
          text: text(value),
          density: density(value, most),
          where: [...where_of(row, [first], where), condition(second, key_of(column, second))],
        };
      }),
    })),
    total: amount_text(amount(both.total, measure), measure),
  };
}

function by_key(a: string | null, b: string | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return natural(a, b);
}

/** 0 for nothing, then 1..7 in equal steps of the square root, so that small amounts are told from none. */
export function density(value: number | null, most: number): number {
  return value === null || value <= 0 ? 0 : shade_of(value, most);
}

const kNotGiven = 'not given';

/** The crossed table as the page shows it. */
export function grid_of(by: readonly string[], cross: Cross, where: readonly string[], measure: Measure, show: Show): Grid {
  const down = field_name(by[0] ?? '');
  const across = field_name(by[1] ?? '');
  const unit = measure === 'weight' && show === 'amount' ? ' in g' : '';
  const shares = { amount: '', of_row: ', % of each row', of_column: ', % of each column' }[show];
  const name = (field: string, key: string | null) => `${field} ${key ?? kNotGiven}`;
  return {
    kind: 'grid',
    title: `By ${down} and ${across}`,
    caption: `${capital(measure_name(measure).label)}${unit} by ${down} (down) and ${across} (across)${shares}. The stronger the shade, the more.`,
    down,
    columns: cross.columns.map((column) => ({
      label: column.key ?? kNotGiven,
      total: { text: column.total, opens: lines_of(name(across, column.key), column.where) },
    })),
    rows: cross.rows.map((row) => {
      const opens = lines_of(name(down, row.key), row.where);
      return { label: row.key ?? kNotGiven, opens, total: { text: row.total, value: row.total_value, opens } };
    }),
    cell: (r, c) => {
      const row = cross.rows[r];
      const cell = row?.cells[c];
      if (!row || !cell) return { text: null, shade: 0 };
      const title = `${name(down, row.key)}, ${name(across, cross.columns[c]?.key ?? null)}`;
      return { text: cell.text, value: row.values[c] ?? null, shade: cell.density, opens: lines_of(title, cell.where) };
    },
    totals_label: 'All',
    total: { text: cross.total, opens: lines_of('all lines counted', where) },
  };
}

export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
