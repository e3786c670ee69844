import { describe, expect, it } from 'vitest';
import { chance, extent, figures } from './words';

describe('the words of the chemistry room', () => {
  it('gives an amount four figures', () => {
    expect(figures(12.3456)).toBe('12.35');
    expect(figures(0.00123456)).toBe('0.001235');
    expect(figures(310.2)).toBe('310.2');
    expect(figures(0)).toBe('0');
    expect(figures(null)).toBe('–');
    expect(figures(NaN)).toBe('–');
  });
  it('says a small probability as a bound', () => {
    expect(chance(0.0342)).toBe('0.034');
    expect(chance(0.0000001)).toBe('below 0.001');
    expect(chance(undefined)).toBe('–');
  });
  it('tells means from single readings', () => {
    expect(extent(3, 3)).toBe('3 samples');
    expect(extent(1, 2)).toBe('1 sample, means of 2 readings');
  });
});
