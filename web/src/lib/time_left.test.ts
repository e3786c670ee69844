import { expect, test } from 'vitest';
import { time_left } from './time_left';

test('it goes on as it went', () => {
  expect(time_left(0.5, 38000)).toBe('about 40 s left');
  expect(time_left(0.25, 4000)).toBe('about 15 s left');
  expect(time_left(0.1, 20000)).toBe('about 3 min left');
  expect(time_left(0.02, 300000)).toBe('about 5 h left');
});

test('nothing is said where it cannot be known or need not be', () => {
  expect(time_left(0.5, 2900)).toBe('');
  expect(time_left(0.01, 100000)).toBe('');
  expect(time_left(0.99, 100000)).toBe('');
  expect(time_left(1, 100000)).toBe('');
});
