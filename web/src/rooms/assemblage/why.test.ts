// Three types worked by hand from the definitions: rims of 0.80, 0.23 and 0.92 EVE, 9, 4 and 12 sherds, 4, 2 and 3 vessels.
import { describe, expect, it } from 'vitest';
import type { TallyResponse, TallyResponseRow } from '../../api';
import { gap, reasons } from './why';

function row(count: number, weight_g: number, vessels: number, eve: number | null): TallyResponseRow {
  const all = { count: 25, weight: 250, vessels: 9, eve: 1.95 };
  return {
    lines: 1,
    count,
    weight_g,
    vessels,
    eve,
    mean_weight_g: weight_g / count,
    brokenness: eve ? count / eve : null,
    completeness: eve === null ? null : eve / vessels,
    shares: { count: count / all.count, weight: weight_g / all.weight, vessels: vessels / all.vessels, eve: eve === null ? null : eve / all.eve },
    capped: [],
    intervals: null,
  };
}
const total = row(25, 250, 9, 1.95) as unknown as TallyResponse['total'];

describe('why four measures differ', () => {
  it('the shares part as the means do', () => {
    const b = row(4, 40, 2, 0.23);
    const shares = b.shares;
    expect((shares.count as number) / (shares.eve as number)).toBeCloseTo((b.brokenness as number) / (total.brokenness as number), 12);
    expect((shares.vessels as number) / (shares.eve as number)).toBeCloseTo((total.completeness as number) / (b.completeness as number), 12);
    expect(gap(b)).toBeCloseTo(2 / 9 - 0.23 / 1.95, 12);
  });
  it('a type in many pieces, with little of each vessel, says so', () => {
    expect(reasons(row(4, 40, 2, 0.23), total)).toEqual([
      'In many pieces (17.4 sherds an EVE, all 12.8): more by sherds than by EVE.',
      'Little of each vessel (0.12 EVE, all 0.22): more by vessels than by EVE.',
    ]);
  });
  it('heavy sherds say so', () => {
    expect(reasons(row(12, 200, 3, 0.92), total)[0]).toBe('Heavy sherds (16.7 g, all 10.0 g): more by weight than by sherds.');
  });
  it('a type without a rim is told apart from one with nothing', () => {
    expect(reasons(row(12, 120, 3, null), total)).toEqual(['No rim was measured: EVE says nothing of it.']);
    expect(gap(row(12, 120, 3, null))).toBeCloseTo(0.48 - 3 / 9, 12);
  });
  it('nothing is said where nothing is out of the way', () => {
    expect(reasons(row(25, 250, 9, 1.95), total)).toEqual([]);
  });
});
