import { expect, test } from 'vitest';
import { answers_of, blank_row, is_blank } from './answers';

test('an answer is written as short as it may be', () => {
  expect(answers_of([{ picture: '3', pieces: '5', part: '', grams: '' }])).toEqual(['3:5']);
  expect(answers_of([{ picture: '0', pieces: ' 2 ', part: 'rim', grams: '' }])).toEqual(['0:2:rim']);
  expect(answers_of([{ picture: '12', pieces: '1', part: '', grams: '23.5' }])).toEqual(['12:1::23.5']);
});

test('rows where nothing stands are no answers', () => {
  expect(is_blank(blank_row())).toBe(true);
  expect(answers_of([blank_row(), { ...blank_row(), part: 'rim' }])).toEqual([]);
});

test('a row that is half filled is sent, so that the program can say what is missing', () => {
  expect(answers_of([{ picture: '', pieces: '4', part: '', grams: '' }])).toEqual([':4']);
});
