import { expect, test } from 'vitest';
import type { CostSheetResponse, Spread } from '../../api';
import { hours, likely, money, range, tasks_csv } from './costs';

const spread = (least: number, middle: number, most: number): Spread => ({ least, likely: middle, most, mean: middle, low: least + 1, middle, high: most - 1 });

test('a range is shown where there is one', () => {
  expect(range(spread(10, 20, 40), hours)).toBe('11.0–39.0');
  expect(range(spread(20, 20, 20), hours)).toBe('20.0');
  expect(range(spread(0, 0, 0), money)).toBe('–');
  expect(likely(spread(0, 0, 0), hours)).toBe('–');
  expect(likely(spread(1000, 2345.6, 4000), money)).toBe('2,346');
});

test('tasks go out as a table that a spreadsheet reads', () => {
  const sum = { hours: spread(10, 20, 40), money: spread(100, 200, 400), outside: spread(0, 0, 0) };
  const sheet = {
    currency: '£',
    lines: [{ estimate: 'E1', stage: 'analysis', task: 'basic record, by hand', grade: '', basis: 'boxes', amount: 12, sherds: 2400, sum, note: '' }],
  } as unknown as CostSheetResponse;
  expect(tasks_csv(sheet).split('\n')[1]).toBe('analysis,"basic record, by hand",,boxes,12,2400,11.00,20.00,39.00,101.00,200.00,399.00,£,');
});
