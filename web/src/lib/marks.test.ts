import { describe, expect, it } from 'vitest';
import { kArrows, next_mark } from './marks';

const box = (left: number, top: number) => ({ left, top, width: 10, height: 10 });
const go = (boxes: ReturnType<typeof box>[], from: number, key: string) => next_mark(boxes, from, kArrows[key] as [number, number]);

describe('the next mark of a drawing', () => {
  const square = [box(0, 0), box(100, 0), box(0, 100), box(100, 100)];

  it('lies in the direction of the key', () => {
    expect(go(square, 0, 'ArrowRight')).toBe(1);
    expect(go(square, 0, 'ArrowDown')).toBe(2);
    expect(go(square, 3, 'ArrowUp')).toBe(1);
    expect(go(square, 3, 'ArrowLeft')).toBe(2);
  });

  it('is none at the edge', () => {
    expect(go(square, 0, 'ArrowUp')).toBe(-1);
    expect(go([], 0, 'ArrowUp')).toBe(-1);
  });

  it('is rather one straight ahead than one that is nearer but off the way', () => {
    expect(go([box(0, 0), box(200, 0), box(60, 80)], 0, 'ArrowRight')).toBe(1);
  });
});
