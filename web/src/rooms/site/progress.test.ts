import { describe, expect, it } from 'vitest';
import type { QueueContext } from '../../api';
import { places_of } from './progress';
import { part_of } from './part';

const context = (area: string, phase: string, stage: 'to_do' | 'begun' | 'done', lines = 1) => ({ area, phase, stage, lines }) as QueueContext;

describe('progress by place', () => {
  it('counts stages by area and phase, in the order of their numbers', () => {
    const places = places_of([context('A', '10', 'done', 4), context('A', '9', 'begun'), context('', '', 'to_do', 0), context('A', '10', 'to_do', 0)]);
    expect(places).toEqual([
      { name: 'A, 9', to_do: 0, begun: 1, done: 0, lines: 1 },
      { name: 'A, 10', to_do: 1, begun: 0, done: 1, lines: 4 },
      { name: '', to_do: 1, begun: 0, done: 0, lines: 0 },
    ]);
  });
});

describe('the part of the Site room that an address names', () => {
  it('is the overview where it names none or an unknown one', () => {
    expect(part_of(new URLSearchParams('find=1013'))).toBe('overview');
    expect(part_of(new URLSearchParams('part=attic'))).toBe('overview');
    expect(part_of(new URLSearchParams('part=bags'))).toBe('bags');
  });
});
