import { describe, expect, test } from 'vitest';
import type { TallyResponse, TallyResponseRow } from '../api';
import { amount_text, cross_of, density, field_name, key_of, where_of } from './tallies';

function row(fields: Record<string, string | null>, count: number | null, vessels: number | null = null): TallyResponseRow {
  return {
    ...fields,
    lines: 1,
    count,
    weight_g: null,
    vessels,
    eve: null,
    mean_weight_g: null,
    brokenness: null,
    completeness: null,
    shares: { count: null, weight: null, vessels: null, eve: null },
    capped: [],
    intervals: null,
  };
}
function tally(by: string[], rows: TallyResponseRow[], count: number, vessels: number | null = null): TallyResponse {
  const provenance = { version: '', inputs: [], settings: {}, seed: null };
  return { ok: true, errors: [], warnings: [], provenance, by, rows, total: row({}, count, vessels), intervals: null, pictures: [], document: null, files: [] };
}

// One jug lies in phases A and B: 1 vessel in each cell and 1 in the row's total.
const both = tally(
  ['fabric', 'context.phase'],
  [
    row({ fabric: 'grey-2', 'context.phase': 'A' }, 30, 1),
    row({ fabric: 'grey-2', 'context.phase': 'B' }, 10, 1),
    row({ fabric: 'grey-10', 'context.phase': null }, 5, null),
  ],
  45,
  1,
);
const by_fabric = tally(['fabric'], [row({ fabric: 'grey-10' }, 5), row({ fabric: 'grey-2' }, 40, 1)], 45, 1);
const by_phase = tally(
  ['context.phase'],
  [row({ 'context.phase': null }, 5), row({ 'context.phase': 'B' }, 10, 1), row({ 'context.phase': 'A' }, 30, 1)],
  45,
  1,
);

describe('a tally by two fields', () => {
  test('its columns are in order with the blank last', () => {
    const cross = cross_of(both, by_fabric, by_phase, [], 'count', 'amount');
    expect(cross.columns.map((column) => column.key)).toEqual(['A', 'B', null]);
    expect(cross.rows.map((one) => one.key)).toEqual(['grey-10', 'grey-2']);
    expect(cross.rows[1]?.cells.map((cell) => cell.text)).toEqual(['30', '10', null]);
    expect(cross.total).toBe('45');
  });
  test('totals are those of the tally by one field, not sums: a vessel in two cells is one vessel', () => {
    const cross = cross_of(both, by_fabric, by_phase, [], 'vessels', 'amount');
    expect(cross.rows[1]?.cells.map((cell) => cell.text)).toEqual(['1', '1', null]);
    expect(cross.rows[1]?.total).toBe('1');
    expect(cross.total).toBe('1');
  });
  test('shares are of the row or of the column', () => {
    expect(cross_of(both, by_fabric, by_phase, [], 'count', 'of_row').rows[1]?.cells.map((cell) => cell.text)).toEqual(['75.0', '25.0', null]);
    expect(cross_of(both, by_fabric, by_phase, [], 'count', 'of_column').rows[1]?.cells.map((cell) => cell.text)).toEqual([
      '100.0',
      '100.0',
      null,
    ]);
  });
  test('each cell knows its lines, with the conditions already set', () => {
    const cross = cross_of(both, by_fabric, by_phase, ['part=rim'], 'count', 'amount');
    expect(cross.rows[0]?.cells[2]?.where).toEqual(['part=rim', 'fabric=grey-10', 'context.phase=']);
    expect(cross.columns[0]?.where).toEqual(['part=rim', 'context.phase=A']);
  });
});

describe('figures', () => {
  test('nothing recorded has no text, and nought has', () => {
    expect(amount_text(null, 'eve')).toBeNull();
    expect(amount_text(0, 'vessels')).toBe('0');
    expect(amount_text(12962.2, 'weight')).toBe('12,962.2');
  });
  test('a little is darker than nothing and the most is darkest', () => {
    expect(density(null, 10)).toBe(0);
    expect(density(0, 10)).toBe(0);
    expect(density(1, 100000)).toBe(1);
    expect(density(10, 10)).toBe(7);
  });
  test('a blank value is null and asks for blank lines', () => {
    const blank = row({ mark: '' }, 1);
    expect(key_of(blank, 'mark')).toBeNull();
    expect(where_of(blank, ['mark'], [])).toEqual(['mark=']);
  });
  test('fields have names in words, those of the file their own', () => {
    expect(field_name('fabric.ware_group')).toBe('ware group');
    expect(field_name('extra.surface_colour')).toBe('surface colour');
    expect(field_name('fabric.source_area')).toBe('fabric: source area');
  });
});
