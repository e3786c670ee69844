import { describe, expect, test } from 'vitest';
import { natural, sorted, turned } from './sort';

describe('order', () => {
  test('numbers inside words count as numbers', () => {
    expect(['grey-10', 'grey-2', 'Grey-1', '1002', '101'].sort(natural)).toEqual(['101', '1002', 'Grey-1', 'grey-2', 'grey-10']);
  });
  test('what is not recorded comes last both ways', () => {
    const rows = [null, 3, 1, null, 2];
    expect(sorted(rows, (row) => row, false)).toEqual([1, 2, 3, null, null]);
    expect(sorted(rows, (row) => row, true)).toEqual([3, 2, 1, null, null]);
    expect(sorted(['', 'b', 'a'], (row) => row, true)).toEqual(['b', 'a', '']);
  });
  test('zero and years before Christ are numbers like others', () => {
    expect(sorted([5, 0, -40], (row) => row, false)).toEqual([-40, 0, 5]);
  });
  test('equal rows keep their order, and the rows given stay as they were', () => {
    const rows = [
      { name: 'b', n: 1 },
      { name: 'a', n: 1 },
      { name: 'c', n: 0 },
    ];
    expect(sorted(rows, (row) => row.n, true).map((row) => row.name)).toEqual(['b', 'a', 'c']);
    expect(rows.map((row) => row.name)).toEqual(['b', 'a', 'c']);
  });
  test('the same column turns round and another starts its own way', () => {
    const order = { column: 'sherds', down: true };
    expect(turned(order, 'sherds', true)).toEqual({ column: 'sherds', down: false });
    expect(turned(order, 'context', false)).toEqual({ column: 'context', down: false });
  });
});
