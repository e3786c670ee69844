import { describe, expect, test } from 'vitest';
import { counted_uses, match_codes, one_slip, type Code } from './codes';

const code = (name: string, words = '', synonyms: string[] = []): Code => ({ code: name, name: words, synonyms, note: '' });
const kCodes = [
  code('grey-1', 'Fine sandy grey ware'),
  code('grey-2', 'Coarse sandy grey ware'),
  code('green-glaze-1', 'Early glazed sandy ware'),
  code('shell-3', 'Shelly ware', ['SHEL']),
  code('sandy-2', 'Sandy ware'),
  code('tin-glaze', 'Tin-glazed ware'),
];
const found = (text: string, used: Record<string, number> = {}) => match_codes(kCodes, text, new Map(Object.entries(used))).map((one) => one.code.code);

describe('codes complete', () => {
  test('by their first letters', () => expect(found('gr')).toEqual(['grey-1', 'grey-2', 'green-glaze-1']));
  test('those used here most go first', () => expect(found('gr', { 'green-glaze-1': 4, 'grey-2': 1 })).toEqual(['green-glaze-1', 'grey-2', 'grey-1']));
  test('without the hyphen', () => expect(found('shell3')[0]).toBe('shell-3'));
  test('the whole code beats any use', () => expect(found('grey-2', { 'grey-1': 9 })[0]).toBe('grey-2'));
  test('by words of the name, in any order', () => expect(found('ware coarse')).toEqual(['grey-2']));
  test('by a name of another series', () => expect(found('shel')[0]).toBe('shell-3'));
  test('by letters in their order', () => expect(found('ggl')).toEqual(['green-glaze-1']));
  test('with a slip of the hand', () => expect(found('gery1')).toEqual(['grey-1']));
  test('nothing typed lists what is used most', () => expect(found('', { 'tin-glaze': 2 })[0]).toBe('tin-glaze'));
  test('what fits nothing finds nothing', () => expect(found('zzz')).toEqual([]));
});

test('a slip is one letter wrong, missing, too many or two the wrong way round', () => {
  expect(['gray', 'gry', 'greey', 'gery'].map((text) => one_slip(text, 'grey'))).toEqual([true, true, true, true]);
  expect(['gary', 'g', 'greeyy'].map((text) => one_slip(text, 'grey'))).toEqual([false, false, false]);
});

test('uses are counted without the blanks', () => {
  expect([...counted_uses(['a', '', undefined, 'b', 'a'])]).toEqual([['a', 2], ['b', 1]]);
});
