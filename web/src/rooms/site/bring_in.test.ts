import { expect, test } from 'vitest';
import { mapping_text, on_page, read_as, read_mapping, table_of, taken_for } from './bring_in';

test('the name of a file says what its rows may be', () => {
  expect(table_of('contexts.csv')).toBe('contexts');
  expect(table_of('Mill Close - Fabric series.xlsx')).toBe('fabrics');
  expect(table_of('old-finds.csv')).toBe('sherds');
  expect(table_of('2024.ods')).toBeNull();
});

test('a heading fills one column, and what is said beside stays', () => {
  const mapping = { columns: { fabric: 'Ware', notes: ['Remarks', 'Spot'], rim_diameter_mm: { from: 'Rim', times: 10 } }, decimal: ',' };
  expect(taken_for(mapping, 'Ware', 'form')).toEqual({ columns: { notes: ['Remarks', 'Spot'], rim_diameter_mm: { from: 'Rim', times: 10 }, form: 'Ware' }, decimal: ',' });
  expect(taken_for(mapping, 'Spot', 'extra').columns).toEqual({ fabric: 'Ware', notes: ['Remarks'], rim_diameter_mm: { from: 'Rim', times: 10 }, extra: 'Spot' });
  expect(taken_for(mapping, 'Rim', 'rim_diameter_mm').columns?.rim_diameter_mm).toBe('Rim');
  expect(taken_for({}, 'Cxt', 'context')).toEqual({ columns: { context: 'Cxt' } });
});

test('codes are given their meaning one by one', () => {
  const once = read_as({}, 'fabric', 'GW', 'grey-1');
  expect(read_as(once, 'fabric', 'SW', 'sandy-2')).toEqual({ codes: { fabric: { GW: 'grey-1', SW: 'sandy-2' } } });
});

test('hints speak of the page, not of the command', () => {
  expect(on_page('import it first, or let --new-codes add it as provisional')).toBe('import it first, or tick that codes and contexts are added');
  expect(on_page('say which with --columns: {"eve": {"as": "vessels"}} or {"eve": {"as": "percent"}}')).toBe('say which above');
  expect(on_page('to read it once more, say --again')).toBe('to read it once more, tick that it is read once more');
  expect(on_page('did you mean "1001"?')).toBe('did you mean "1001"?');
});

test('what is no mapping is no mapping', () => {
  expect(read_mapping('')).toEqual({});
  expect(read_mapping('{"decimal": ","}')).toEqual({ decimal: ',' });
  for (const text of ['{', '[]', '3', 'null']) expect(read_mapping(text)).toBeNull();
  expect(mapping_text({})).toBe('');
  expect(read_mapping(mapping_text({ decimal: ',' }))).toEqual({ decimal: ',' });
});
