import { describe, expect, test } from 'vitest';
import { close_span, place, span_of, step_of, ticks_of } from './scale';

describe('the axis of years', () => {
  test('it is widened to whole steps and holds every year', () => {
    expect(span_of([1635, null, 1970, 60], 5)).toEqual({ from: 0, to: 2000 });
    expect(span_of([-43, 70], 6)).toEqual({ from: -60, to: 80 });
    expect(span_of([1720], 5)).toEqual({ from: 1720, to: 1721 });
    expect(span_of([null], 5)).toBeNull();
    expect(close_span([-17, null, 1983])).toEqual({ from: -57, to: 2023 });
    expect(close_span([1720])).toEqual({ from: 1719, to: 1721 });
    expect(close_span([null])).toBeNull();
  });
  test('there are never more steps than asked for', () => {
    for (const width of [1, 7, 33, 100, 480, 1999, 20000]) expect(width / step_of({ from: 0, to: width }, 5)).toBeLessThanOrEqual(5);
  });
  test('ticks stand on whole steps inside the span', () => {
    expect(ticks_of({ from: 0, to: 2000 }, 5)).toEqual([0, 500, 1000, 1500, 2000]);
    expect(ticks_of({ from: -60, to: 80 }, 4)).toEqual([-50, 0, 50]);
  });
  test('a year outside is put at the end', () => {
    const span = { from: 1000, to: 2000 };
    expect(place(1500, span, 300)).toBe(150);
    expect(place(900, span, 300)).toBe(0);
    expect(place(2500, span, 300)).toBe(300);
  });
});
