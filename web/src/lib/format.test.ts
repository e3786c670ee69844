import { describe, expect, test } from 'vitest';
import { counted, day, fixed, mean_year, percent, sentence, weight, whole, words, year, years } from './format';

describe('numbers', () => {
  test('thousands are parted by commas and decimals are kept', () => {
    expect(whole(5230)).toBe('5,230');
    expect(whole(0)).toBe('0');
    expect(fixed(86016.8, 1)).toBe('86,016.8');
    expect(fixed(86.241, 2)).toBe('86.24');
    expect(fixed(29, 1)).toBe('29.0');
  });
  test('a headline weight is in g below one kilogram and in kg from there', () => {
    expect(weight(999.9)).toEqual({ number: '999.9', unit: 'g' });
    expect(weight(1000)).toEqual({ number: '1.0', unit: 'kg' });
    expect(weight(86016.8)).toEqual({ number: '86.0', unit: 'kg' });
  });
  test('a share too small to show is not shown as nothing', () => {
    expect(percent(0.12892)).toBe('12.9');
    expect(percent(0.0004)).toBe('<0.1');
    expect(percent(0.0005)).toBe('0.1');
    expect(percent(0)).toBe('0.0');
    expect(percent(1)).toBe('100.0');
  });
  test('what is counted agrees with its number', () => {
    expect(counted(1, 'line')).toBe('1 line');
    expect(counted(1509, 'line')).toBe('1,509 lines');
    expect(counted(2, 'entry', 'entries')).toBe('2 entries');
  });
});

// Year 1 BC is followed by AD 1: ISO 8601:2004 section 3.2.1 note 1 gives year 0000 to 1 BC, and historical reckoning has no year 0.
describe('years', () => {
  test('years before Christ say so and no year is 0', () => {
    expect(year(1680)).toBe('1680');
    expect(year(-43)).toBe('43 BC');
  });
  test('a range says which side of the first year each end lies on', () => {
    expect(years(120, 250)).toBe('120–250');
    expect(years(-50, 70)).toBe('50 BC–AD 70');
    expect(years(-100, -40)).toBe('100–40 BC');
    expect(years(1720, 1720)).toBe('1720');
  });
  test('an open end is said in words', () => {
    expect(years(270, null)).toBe('270 or later');
    expect(years(null, 410)).toBe('410 or earlier');
    expect(years(-20, null)).toBe('20 BC or later');
    expect(years(null, null)).toBe('');
  });
  test('a mean date is a whole year and never 0', () => {
    expect(mean_year(1598.56)).toBe('1599');
    expect(mean_year(0.3)).toBe('1');
    expect(mean_year(-0.3)).toBe('1 BC');
    expect(mean_year(-43.4)).toBe('43 BC');
  });
});

describe('words', () => {
  test('columns are written as words with their unit', () => {
    expect(words('weight_g')).toBe('weight (g)');
    expect(words('rim_diameter_mm')).toBe('rim diameter (mm)');
    expect(words('checked_by')).toBe('checked by');
    expect(words('make_up')).toBe('make-up');
  });
  test('a message becomes a sentence, and a code keeps its letters', () => {
    expect(sentence('the store is busy')).toBe('The store is busy.');
    expect(sentence('was it measured in cm?')).toBe('Was it measured in cm?');
    expect(sentence('grey-1 has no date')).toBe('grey-1 has no date.');
    expect(sentence('')).toBe('');
  });
  test('an instant is a day in words, and what is no instant is left alone', () => {
    expect(day('2026-11-25T23:59:55Z')).toBe('25 November 2026');
    expect(day('yesterday')).toBe('yesterday');
  });
});
