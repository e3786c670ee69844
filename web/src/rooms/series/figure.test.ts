import { describe, expect, test } from 'vitest';
import { areas, bar_of, on_line, span_to_draw, YearLine } from './figure';

const bins = (from: number, values: number[]) => values.map((value, at) => ({ from: from + at, to: from + at, value }));

describe('the line of years', () => {
  test('there is no year 0: 1 BC lies beside AD 1, and each is as wide as any other', () => {
    expect(on_line(1) - on_line(-1)).toBe(1);
    const line = new YearLine({ from: -2, to: 2 }, 400);
    expect([-2, -1, 1, 2].map((year) => line.start(year))).toEqual([0, 100, 200, 300]);
    expect(line.end(-1)).toBe(line.start(1));
    expect(line.end(2)).toBe(400);
  });
  test('all of the density is drawn, and ends of evidence only where they lie near it', () => {
    const span = span_to_draw(bins(1755, new Array(46).fill(0.02)), [{ earliest: 1762, latest: 1820 }, { earliest: 43, latest: null }], 8);
    expect(span).toEqual({ from: 1750, to: 1820 });
  });
  test('without a density the ends of the evidence are, and without any of them nothing', () => {
    expect(span_to_draw([], [{ earliest: 1784, latest: 1840 }, { earliest: 1890, latest: null }], 8)).toEqual({ from: 1780, to: 1900 });
    expect(span_to_draw([], [{ earliest: null, latest: null }], 8)).toBeNull();
  });
});

describe('a bar', () => {
  const line = new YearLine({ from: 1700, to: 1799 }, 100);
  test('runs to the end of its last year', () => {
    expect(bar_of({ earliest: 1710, latest: 1719 }, line)).toEqual({ left: 10, right: 20, on_left: false, on_right: false });
  });
  test('with open ends, or ends beyond the axis, goes on', () => {
    expect(bar_of({ earliest: null, latest: 1719 }, line)).toEqual({ left: 0, right: 20, on_left: true, on_right: false });
    expect(bar_of({ earliest: 1650, latest: 1900 }, line)).toEqual({ left: 0, right: 100, on_left: true, on_right: true });
  });
  test('of one year is still seen, at the end of the axis, too', () => {
    for (const year of [1700, 1750, 1799]) {
      const bar = bar_of({ earliest: year, latest: year }, line);
      expect(bar.right - bar.left).toBe(3);
      expect(bar.right).toBeLessThanOrEqual(100);
    }
  });
});

describe('the areas of the density', () => {
  const line = new YearLine({ from: 1700, to: 1709 }, 100);
  test('are cut where the ranges begin and end, within a bin, too', () => {
    const all = areas([{ from: 1700, to: 1709, value: 0.1 }], [[1704, 1705]], [[1702, 1707]], line, 50);
    expect(all.map((area) => area.depth)).toEqual(['rest', 'most', 'core', 'most', 'rest']);
    expect(all[2]?.path).toBe('M40 50L40 0L60 0L60 50Z');
  });
  test('stand on the base line, and the highest reaches the top', () => {
    const all = areas(bins(1700, [0.1, 0.4, 0.2]), [], [], line, 80);
    expect(all).toEqual([{ depth: 'rest', path: 'M0 80L0 60L10 60L10 0L20 0L20 40L30 40L30 80Z' }]);
  });
  test('cover every year of the density once, across the change of era, too', () => {
    const era = new YearLine({ from: -3, to: 3 }, 60);
    const all = areas([{ from: -3, to: 3, value: 1 }], [[-1, 1]], [[-2, 2]], era, 10);
    expect(all.map((area) => area.path.match(/^M(\S+)/)?.[1])).toEqual(['0', '10', '20', '40', '50']);
  });
  test('of nothing are none', () => {
    expect(areas([], [], [], line, 50)).toEqual([]);
  });
});
