import { expect, it } from 'vitest';
import { sample_of } from './samples';

it('a mark of a sample names it and its record, other marks none', () => {
  expect(sample_of('sample=t-12&record=10357')).toEqual({ sample: 't-12', record: '10357' });
  expect(sample_of('sample=wall%20%26%20base')).toEqual({ sample: 'wall & base', record: '' });
  expect(sample_of('sample=a=b')).toEqual({ sample: 'a=b', record: '' });
  expect(sample_of('context=101')).toBeNull();
  expect(sample_of(null)).toBeNull();
});
