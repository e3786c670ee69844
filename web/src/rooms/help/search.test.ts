import { describe, expect, it } from 'vitest';
import { find, type Words } from './search';

const kPages: Words[] = [
  {
    name: 'residuality',
    title: 'Residual and intrusive',
    sections: [
      { id: 'residual-and-intrusive', heading: 'Residual and intrusive', text: 'A sherd that was old when the deposit formed.' },
      { id: 'roots', heading: 'Roots and burrows', text: 'An intrusive sherd came in later. Look at the bag. Intrusive sherds set no terminus.' },
    ],
  },
  { name: 'methods/marks', title: 'Marks', sections: [{ id: 'marks', heading: 'Marks', text: 'Wörd "England" on a sherd.' }] },
];

describe('looking for words in the guide', () => {
  it('finds sections that hold every word, whole or begun, singular or plural', () => {
    expect(find(kPages, 'intrusive roots').map((one) => one.id)).toEqual(['roots']);
    expect(find(kPages, 'sherds burr').map((one) => one.id)).toEqual(['roots']);
    expect(find(kPages, 'roots kiln')).toEqual([]);
  });
  it('finds no word by its middle', () => {
    expect(find(kPages, 'herd')).toEqual([]);
  });
  it('puts the guide before the other documents, and what a heading says before what a text says', () => {
    expect(find(kPages, 'sherd').map((one) => one.page)).toEqual(['residuality', 'residuality', 'methods/marks']);
    expect(find(kPages, 'intrusive')[0]?.id).toBe('residual-and-intrusive');
  });
  it('marks the words in the text around them, accents aside', () => {
    expect(find(kPages, 'word england')[0]?.around).toEqual(['', 'Wörd', ' "', 'England', '" on a sherd.']);
  });
  it('gives nothing for nothing', () => {
    expect(find(kPages, ' . ')).toEqual([]);
  });
});
