import { describe, expect, it } from 'vitest';
import { shade_of } from './sheet';

describe('the shade of a cell', () => {
  it('tells the smallest from nothing and less from more', () => {
    expect(shade_of(0, 10)).toBe(0);
    expect(shade_of(null, 10)).toBe(0);
    expect(shade_of(0.001, 10)).toBe(1);
    expect(shade_of(10, 10)).toBe(7);
    expect(shade_of(99, 10)).toBe(7);
    expect(shade_of(-10, 10)).toBe(-7);
    expect(shade_of(1, 0)).toBe(0);
  });
});
