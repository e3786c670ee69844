import { describe, expect, it } from 'vitest';
import type { Grid, Sheet } from '../../lib/sheet';
import { clusters, nearest_pairs, similarity } from './likeness';
import type { Compared, Ground } from './answer';

const ground: Ground = { rows: 'context.phase', columns: 'fabric', where: ['part!=base'], others: new Set(['Mill Close']), plain: false };

describe('pairs that are most alike', () => {
  it('are the same as by sorting them all', () => {
    let state = 7;
    const next = () => (state = (state * 48271) % 2147483647) % 200;
    const matrix = Array.from({ length: 60 }, () => Array.from({ length: 60 }, next));
    const all = matrix.flatMap((row, a) => row.map((value, b) => ({ a, b, value })).filter(({ b }) => b > a));
    all.sort((one, other) => other.value - one.value || one.a - other.a || one.b - other.b);
    const found = nearest_pairs(matrix, 20);
    expect(found.map(({ value }) => value)).toEqual(all.slice(0, 20).map(({ value }) => value));
  });
  it('are all of them where they are few, and none of one row', () => {
    expect(nearest_pairs([[200, 10, 30], [10, 200, 20], [30, 20, 200]], 9).map(({ a, b }) => [a, b])).toEqual([[0, 2], [1, 2], [0, 1]]);
    expect(nearest_pairs([[200]], 9)).toEqual([]);
  });
});

describe('a table of similarity', () => {
  const found = { labels: ['A', 'B'], matrix: [[200, 112.7], [112.7, 200]], p_matrix: [[null, 0.2], [0.2, null]] } as unknown as Compared;
  it('marks what chance could do, and opens the lines of both sides as they were counted', () => {
    const [grid] = similarity(found, ground) as [Grid];
    expect(grid.cell(0, 1)).toMatchObject({ text: '113?', opens: { where: ['part!=base', 'context.phase=A||B'] } });
    expect(grid.cell(0, 0).text).toBeNull();
  });
});

describe('a row that another site published', () => {
  it('opens nothing, and in a pair only the lines of this site', () => {
    const found = { labels: ['A', 'Mill Close'], matrix: [[200, 50], [50, 200]] } as unknown as Compared;
    const [grid] = similarity(found, ground) as [Grid];
    expect(grid.rows.map((row) => row.opens === null)).toEqual([false, true]);
    expect(grid.cell(0, 1).opens).toMatchObject({ where: ['part!=base', 'context.phase=A'] });
  });
});

describe('a tree', () => {
  it('names rows by their labels and what was joined before by its step', () => {
    const found = {
      labels: ['A', 'B', 'C'],
      cut: [],
      merges: [{ a: 0, b: 2, height: 1, size: 2 }, { a: 1, b: 3, height: 2, size: 3 }],
    } as unknown as Compared;
    const steps = clusters(found, ground).find((one) => one.title === 'How they join') as Sheet;
    expect(steps.rows.map((row) => [row[1]?.text, row[2]?.text])).toEqual([['A', 'C'], ['B', 'step 1']]);
  });
});
