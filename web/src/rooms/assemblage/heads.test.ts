import { describe, expect, it } from 'vitest';
import { heads_of, likely } from './heads';

describe('the heads of a table', () => {
  it('are read with commas, tabs or semicolons, and with quotes', () => {
    expect(heads_of('"Place","a ""b""",c\r\n1,2,3')).toEqual(['Place', 'a "b"', 'c']);
    expect(heads_of('Place\tx, y\tz\n')).toEqual(['Place', 'x, y', 'z']);
    expect(heads_of('\uFEFFOrt;x')).toEqual(['Ort', 'x']);
    expect(heads_of('')).toEqual(['']);
  });
  it('tell which column is likely the distance, the amount and the transport', () => {
    // The heads of the published table of Oxford and New Forest wares (M. Fulford & I. Hodder 1974).
    const heads = ['Place', 'OxfordPct', 'OxfordDst', 'NewForestPct', 'NewForestDst', 'WalledArea', 'WaterTrans'];
    expect(likely(heads)).toEqual({ amount: 'OxfordPct', far: 'OxfordDst', transport: 'WaterTrans', east: '', north: '' });
    expect(likely(['distance', 'km'])).toMatchObject({ far: 'km', amount: '' });
  });
});
