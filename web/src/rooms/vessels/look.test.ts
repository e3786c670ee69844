import { expect, test } from 'vitest';
import { asked, command_options, kLook } from './look';
import { part_of } from './part';

test('a drawing as usual is asked for by its scale alone', () => {
  expect(asked(kLook)).toEqual({ scale: '1:4' });
});

test('what is not as usual is said, and the command says the same', () => {
  const look = { ...kLook, scale: '1:2', side: 'right', edges: false };
  expect(asked(look)).toEqual({ scale: '1:2', side: 'right', no_edges: true });
  expect(command_options(look)).toBe('--scale 1:2 --side right --no-edges');
});

test('an address that names no part shows the pieces', () => {
  expect(part_of(new URLSearchParams('part=plate'))).toBe('plate');
  expect(part_of(new URLSearchParams('part=points'))).toBe('points');
  expect(part_of(new URLSearchParams('part=kiln'))).toBe('pieces');
});
