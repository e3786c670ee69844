import { expect, test } from 'vitest';
import { cautions_of, choice_of, options_of, request_of, where_is } from './choice';

test('an address is a choice, and a choice is a command', () => {
  const choice = choice_of(new URLSearchParams('theme=cooking&period=C13&for=handling&most=6&include=away'));
  expect(request_of(choice)).toEqual({ theme: 'cooking', period: 'C13', for: 'handling', most: 6, include: ['away'] });
  expect(options_of(choice)).toBe('--theme cooking --period C13 --for handling --most 6 --include away');
  expect(options_of({ ...choice, period: 'early medieval' })).toContain('--period "early medieval"');
});

test('where nothing is asked nothing is said', () => {
  const choice = choice_of(new URLSearchParams());
  expect(request_of(choice)).toEqual({ most: 12 });
  expect(options_of(choice)).toBe('');
  expect(request_of({ ...choice, most: 'many' })).toEqual({});
});

test('what is away is not in its bag', () => {
  expect(where_is({ tray: '', bag: '45', box: '17', away: '' }, 'nowhere')).toBe('bag 45, box 17');
  expect(where_is({ tray: '', bag: '45', box: '17', away: 'out: museum' }, 'nowhere')).toBe('out: museum');
  expect(where_is({ tray: '', bag: '', box: '', away: '' }, 'nowhere')).toBe('nowhere');
});

test('a caution is said once', () => {
  const food = { caution: 'food', text: 'Do not eat.' };
  expect(cautions_of([{ cautions: [food] }, { cautions: [food, { caution: 'lead', text: 'Wash.' }] }])).toEqual(['Do not eat.', 'Wash.']);
});
