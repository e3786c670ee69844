import { expect, it } from 'vitest';
import { sample_of } from './samples';

it('a mark of a sample names it and its record, other marks none', () => {
  expect(sample_of('sample=t-12&record=10357')).toEqual({ of: 'sample', sample: 't-12', record: '10357' });
  expect(sample_of('sample=wall%20%26%20base')).toEqual({ of: 'sample', sample: 'wall & base', record: '' });
  expect(sample_of('sample=a=b')).toEqual({ of: 'sample', sample: 'a=b', record: '' });
  expect(sample_of('reading=31')).toEqual({ of: 'reading', sample: '31', record: '' });
  expect(sample_of('standard=B2')).toEqual({ of: 'standard', sample: 'B2', record: '' });
  expect(sample_of('context=101')).toBeNull();
  expect(sample_of(null)).toBeNull();
});
