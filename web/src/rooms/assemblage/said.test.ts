import { describe, expect, it } from 'vitest';
import { as_said, made_of, plural, warned } from './said';
import type { Compared } from './answer';

const found = (table: Partial<Compared['table']>) =>
  ({ table: { rows: 8, columns: 1, total: 5173, measure: 'count', empty_rows: [], empty_columns: [], blank_lines: 0, rows_field: 'context.phase', columns_field: 'fabric.ware_group', ...table } }) as unknown as Compared;

describe('what an answer was made of', () => {
  it('is said with its measure', () => {
    expect(made_of(found({}))).toBe('8 phases by 1 ware group, 5,173 sherds.');
    expect(made_of(found({ rows_field: 'context', columns: 0, measure: 'weight_g', total: 12.25 }))).toBe('8 contexts, 12.3 g.');
    expect(made_of(found({ rows_field: 'context', columns: 0, measure: 'eve', total: 86.24 }))).toBe('8 contexts, 86.24 EVE.');
  });
  it.each([['ware group', 'ware groups'], ['vessel class', 'vessel classes'], ['recovery', 'recoveries'], ['bag', 'bags']])('%s are %s', (one, many) => {
    expect(plural(one)).toBe(many);
  });
  it('says in one sentence what was left out, before all else', () => {
    expect(warned(['small', 'left out: 3 lines', 'left out: 2 lines without context.phase'])).toEqual(['left out: 3 lines; 2 lines without phase', 'small']);
    expect(warned([])).toEqual([]);
  });
  it('is said in the page’s words where the program speaks of its command line', () => {
    expect(as_said('left out: 42 lines without context.phase or fabric.ware_group')).toBe('left out: 42 lines without phase or ware group');
    expect(as_said('these types could be counted as one: --merge "a+b c"')).toBe('these types could be counted as one');
  });
});
