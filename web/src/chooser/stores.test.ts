import { expect, test } from 'vitest';
import { within } from './stores';

test('a name within a folder, the top one too', () => {
  expect(within('/home/kv', 'mill.sherds')).toBe('/home/kv/mill.sherds');
  expect(within('/', 'mill.sherds')).toBe('/mill.sherds');
});
