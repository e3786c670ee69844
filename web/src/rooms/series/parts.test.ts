import { describe, expect, it } from 'vitest';
import { row_of } from './rows';
import { part_of } from './part';

describe('the part of the room that an address names', () => {
  it('is the list where it names none', () => expect(part_of(new URLSearchParams())).toBe('list'));
  it('is the named one', () => expect(part_of(new URLSearchParams('part=key&lens=hardness%3Dhard'))).toBe('key'));
  it('is the piece for addresses that only a piece has', () => {
    expect(part_of(new URLSearchParams('seen=ware%3Dcreamware'))).toBe('piece');
    expect(part_of(new URLSearchParams('read=date&text=1720'))).toBe('piece');
  });
  it('is the list where it names an unknown one', () => expect(part_of(new URLSearchParams('part=cellar'))).toBe('list'));
});

describe('a row of an answer for the edits', () => {
  it('has its columns as text, blank ones left out, lists and the change left out', () => {
    const entry = { uid: 'u1', changed: 4, inclusion: 'quartz', size_most_mm: 0.5, size_least_mm: null, notes: '', list: ['x'] };
    const row = row_of('inclusions', entry);
    expect(row).toEqual({ kind: 'inclusions', uid: 'u1', values: { inclusion: 'quartz', size_most_mm: '0.5', notes: '' } });
  });
});
