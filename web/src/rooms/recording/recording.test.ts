import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Row } from '../../lib/edits';
import { read_condition, write_condition } from './condition';
import { fields_of, required, shown } from '../../lib/fields';
import { merge_of, merge_steps, split_steps } from './merge';
import { cells_of, read_paste } from './paste';
import { at_share, chart_of, kCard, rim_of } from './rim';
import { read_wares, remainders, write_wares } from './scan';
import { kKeys } from './words';

describe('what a spreadsheet puts on the clipboard', () => {
  test('tabs between cells, line ends between rows, blank rows left out', () => {
    expect(cells_of('a\tb\r\nc\td\r\n\t\r\n')).toEqual([['a', 'b'], ['c', 'd']]);
  });
  test('quotes hold a line end and a doubled quote; a mark of inches is none', () => {
    expect(cells_of('"two\nlines"\t"a ""b"""\n6"\tx\n5"\t7')).toEqual([['two lines', 'a "b"'], ['6"', 'x'], ['5"', '7']]);
  });
  const basic = fields_of('basic');
  test('heads name the columns in any order; what no column is called is said', () => {
    const pasted = read_paste('Wt (g)\tFabric\tNo\tBoring\n12,5\tgrey-1?\t3\tyes\n', basic, 1, '1013');
    expect(pasted.rows).toEqual([{ weight_g: '12,5', fabric: 'grey-1?', count: '3' }]);
    expect(pasted.unknown).toEqual(['Boring']);
  });
  test('without heads the cells go into the columns shown, from the one at hand', () => {
    expect(read_paste('grey-1\tbody\t3\n', basic, 1, '1013').rows).toEqual([{ fabric: 'grey-1', part: 'body', count: '3' }]);
    expect(read_paste('3\t12\n', basic, 3, '1013').rows).toEqual([{ count: '3', weight_g: '12' }]);
  });
  test('rows of another context are left out and counted; record numbers do not come along', () => {
    const pasted = read_paste('context\trecord\tfabric\tcount\n1013\t1\tgrey-1\t2\n1014\t2\tgrey-1\t2\n', basic, 1, '1013');
    expect([pasted.rows, pasted.elsewhere]).toEqual([[{ fabric: 'grey-1', count: '2' }], 1]);
  });
});

describe('condition', () => {
  test('is triples of what, how much and where', () => {
    expect(read_condition('abraded, moderate, outside; sooted, heavy, base')).toEqual([
      { type: 'abraded', level: 'moderate', position: 'outside' },
      { type: 'sooted', level: 'heavy', position: 'base' },
    ]);
  });
  test('a word alone is what; a place without a level stays a place', () => {
    expect(read_condition('heavily abraded; sooted, base')).toEqual([
      { type: 'heavily abraded', level: '', position: '' },
      { type: 'sooted', level: '', position: 'base' },
    ]);
  });
  test('is written as it was read', () => {
    for (const text of ['abraded, moderate, outside; sooted, heavy, base', 'worn', 'sooted, base', '']) {
      expect(write_condition(read_condition(text))).toBe(text);
    }
  });
});

describe('fields', () => {
  test('a rim asks for its share of the circle, a body does not', () => {
    expect(required('basic', 'rim_percent', { part: 'rim' })).toBe(true);
    expect(required('basic', 'rim_percent', { part: 'body' })).toBe(false);
  });
  test('a doubt stands behind its code', () => {
    expect(shown('fabric', { fabric: 'grey-1', fabric_certainty: 'probable' })).toBe('grey-1?');
    expect(shown('fabric', { fabric: 'grey-1', fabric_certainty: 'possible' })).toBe('grey-1??');
    expect(shown('fabric', { fabric: 'grey-1', fabric_certainty: 'sure' })).toBe('grey-1');
  });
  test('every level shows the record number first, and the detailed one has them all', () => {
    for (const level of ['scan', 'basic', 'detailed'] as const) expect(fields_of(level)[0]?.column).toBe('record');
    const all = fields_of('detailed').map((field) => field.column);
    for (const field of fields_of('basic')) expect(all).toContain(field.column);
    expect(new Set(all).size).toBe(all.length);
  });
});

describe('lines made one, and one made two', () => {
  const a = { key: 'u1', values: { record: '1', fabric: 'grey-1', count: '3', weight_g: '10.1', decoration: '', notes: 'a' } };
  const b = { key: 'u2', values: { record: '2', fabric: 'grey-1', count: '4', weight_g: '0.2', decoration: 'combed', notes: 'b' } };
  test('amounts add up exactly, notes are put together, what differs is told', () => {
    const merged = merge_of([a.values, b.values]);
    expect(merged.values).toMatchObject({ record: '1', count: '7', weight_g: '10.3', notes: 'a; b', decoration: '' });
    expect(merged.differ).toEqual([{ column: 'decoration', values: ['', 'combed'] }]);
  });
  test('what named the others names the first; a link between them goes', () => {
    const naming: { row: Row; column: string }[] = [
      { row: { kind: 'rims', uid: 'm', values: { record: '2', rim_percent: '5' } }, column: 'record' },
      { row: { kind: 'joins', uid: 'j', values: { record_a: '1', record_b: '2' } }, column: 'record_b' },
      { row: { kind: 'joins', uid: 'k', values: { record_a: '2', record_b: '9' } }, column: 'record_a' },
    ];
    const steps = merge_steps([a, b], naming);
    expect(steps.map((step) => [step.do, step.kind, step.row, step.column, step.value])).toEqual([
      ['set', 'sherds', 'u1', 'count', '7'],
      ['set', 'sherds', 'u1', 'weight_g', '10.3'],
      ['set', 'sherds', 'u1', 'notes', 'a; b'],
      ['set', 'rims', 'm', 'record', '1'],
      ['set', 'joins', 'k', 'record_a', '1'],
      ['remove', 'joins', 'j', undefined, undefined],
      ['remove', 'sherds', 'u2', undefined, undefined],
    ]);
  });
  test('a split takes from one what it gives to the other', () => {
    const steps = split_steps(a, { count: 1, weight_g: 4.05 }, { fabric: 'grey-2' });
    expect(steps[0]).toMatchObject({ do: 'set', row: 'u1', column: 'count', seen: '3', value: '2' });
    expect(steps[1]).toMatchObject({ column: 'weight_g', seen: '10.1', value: '6.05' });
    expect(steps[2]).toMatchObject({ do: 'add', values: { fabric: 'grey-2', count: '1', weight_g: '4.05', notes: 'a' } });
    expect(steps[2]?.values).not.toHaveProperty('record');
  });
});

describe('a rim from its chord and sagitta', () => {
  // Worked by hand: a circle of 200 mm, chord 120 mm: half chord 60, r - s = sqrt(100^2 - 60^2) = 80, s = 20 (a 3-4-5 triangle).
  test('a 3-4-5 triangle gives its circle and its share', () => {
    const size = rim_of(120, 20, 0.5);
    expect(size?.diameter_mm).toBeCloseTo(200, 9);
    expect(size?.percent).toBeCloseTo((100 * 2 * Math.asin(0.6)) / (2 * Math.PI), 9);
  });
  // dD/dc = 120 / 40 = 3, dD/ds = 1 - 14400 / 1600 = -8; 0.5 sqrt(9 + 64) = 4.272.
  test('the error goes through the slopes of the formula', () => {
    const size = rim_of(120, 20, 0.5);
    expect(((size?.high95_mm ?? 0) - (size?.low95_mm ?? 0)) / (2 * 1.96)).toBeCloseTo(4.272, 3);
  });
  test('more than half a circle is more than 50 percent; nothing is no rim', () => {
    expect(rim_of(120, 180, 0.5)?.percent).toBeCloseTo(100 - (100 * 2 * Math.asin(0.6)) / (2 * Math.PI), 9);
    expect(rim_of(0, 10, 0.5)).toBeNull();
    expect(rim_of(100, 0, 0.5)).toBeNull();
  });
  test('the chart: an eighth of the circle lies on the diagonal', () => {
    const [x, y] = at_share(200, 12.5);
    expect(x).toBeCloseTo(70.711, 3);
    expect(y).toBeCloseTo(70.711, 3);
    expect(chart_of(300).largest).toBe(300);
  });
  // ISO/IEC 7810, ID-1: 85.60 mm by 53.98 mm.
  test('a bank card is of the standard size', () => expect(kCard).toEqual({ width_mm: 85.6, height_mm: 53.98 }));
});

describe('a scan', () => {
  const wares = read_wares('grey-1 M; shell-3 12; sandy-2? 3+4 120,5 g;tin-glaze');
  test('names wares with a rough amount, a count, a sum or nothing', () => {
    expect(wares).toEqual([
      { fabric: 'grey-1', amount: 'M', count: null, grams: null },
      { fabric: 'shell-3', amount: null, count: 12, grams: null },
      { fabric: 'sandy-2?', amount: null, count: 7, grams: 120.5 },
      { fabric: 'tin-glaze', amount: null, count: null, grams: null },
    ]);
    expect(write_wares(wares)).toBe('grey-1 M; shell-3 12; sandy-2? 7 120.5g; tin-glaze');
  });
  test('says what no line accounts for, and where there are more than were counted', () => {
    const lines = [{ fabric: 'shell-3', count: '5' }, { fabric: 'shell-3', count: '4' }, { fabric: 'sandy-2', count: '9' }];
    expect(remainders(wares, lines).map((one) => [one.ware.fabric, one.lines, one.left])).toEqual([
      ['grey-1', 0, null],
      ['shell-3', 2, 3],
      ['sandy-2?', 1, -2],
      ['tin-glaze', 0, null],
    ]);
  });
});

test('the page on recording holds the card of keys as the room prints it', () => {
  const page = readFileSync(new URL('../../../../docs/recording.md', import.meta.url), 'utf8');
  for (const [title, rows] of kKeys) {
    expect(page).toContain(`**${title}**`);
    for (const [keys, what] of rows) expect(page).toContain(`| ${keys} | ${what} |`);
  }
});
