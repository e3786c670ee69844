import { expect, it } from 'vitest';
import { sample_of } from './samples';

it('a mark of a sample names it, other marks none', () => {
  expect(sample_of('sample=t-12')).toBe('t-12');
  expect(sample_of('sample=a=b')).toBe('a=b');
  expect(sample_of('context=101')).toBeNull();
  expect(sample_of(null)).toBeNull();
});
