import { describe, expect, test } from 'vitest';
import { grade_range, scales_of } from './notation';
import { known_words, memory_words, nature_words, range_words, ranges_words, statement_parts } from './words';

describe('the statement', () => {
  test('is a sentence', () => {
    expect(statement_parts('made between 1785 and 1810, most likely 1790-1805')).toEqual(['Made between 1785 and 1810, most likely 1790-1805.', '']);
  });
  test('its ways out stand apart, in plain words', () => {
    expect(statement_parts('no year fits all the evidence: set aside mark=england (then 1784-1840)')).toEqual([
      'No year fits all the evidence.',
      'Set aside mark england (then 1784-1840).',
    ]);
  });
});

describe('how it is known', () => {
  test('what is from memory says so, whatever it is', () => {
    expect(known_words('memory')).toBe('from memory');
    expect(known_words(null)).not.toBe('');
  });
  test('an end that rests on memory says what it is without', () => {
    expect(memory_words({ end: 'latest', year: 1790, without: null, evidence: ['edge=feather edge'] })).toBe(
      'The latest year, 1790, rests on edge feather edge, from memory; without that there is no latest year.',
    );
    expect(memory_words({ end: 'earliest', year: 1765, without: 1762, evidence: ['edge=feather edge'] })).toBe(
      'The earliest year, 1765, rests on edge feather edge, from memory; without that it is 1762.',
    );
    expect(memory_words({ end: 'earliest', year: null, without: 1762, evidence: ['ware=x'] })).toBe(
      'That there is no earliest year rests on ware x, from memory; without that it is 1762.',
    );
  });
  test('making, arrival and deposition are told apart', () => {
    expect(new Set((['made', 'arrived', 'deposited'] as const).map((basis) => nature_words('span', basis))).size).toBe(3);
    expect(nature_words('limit', 'made')).toContain('law');
  });
});

test('ranges in words', () => {
  expect(range_words(null, null)).toBe('no year of its own');
  expect(ranges_words([[1766, 1789], [-50, 70]])).toBe('1766–1789 and 50 BC–AD 70');
});

describe('a grade', () => {
  test('has its limits with the unit, an open end in words', () => {
    expect(grade_range(0.25, 0.5, 'mm')).toBe('0.25–0.5 mm');
    expect(grade_range(null, 0.00390625, 'mm')).toBe('up to 0.003906 mm');
    expect(grade_range(256, null, 'mm')).toBe('256 mm and above');
    expect(grade_range(null, null, 'mm')).toBe('');
    expect(grade_range(1.3219280948873622, 1.3219280948873622, 'phi')).toBe('1.322 phi');
  });
  test('can be read on each scale that the answer names', () => {
    expect(scales_of('pcrg', [{ scale: 'even-bins' }, { scale: 'nrfrc' }, { scale: 'even-bins' }])).toEqual(['even-bins', 'nrfrc', 'pcrg']);
    expect(scales_of('', [])).toEqual([]);
  });
});
