import { describe, expect, test } from 'vitest';
import { Balance, read_amount, read_balance, without_doubt } from './typed';

const value = (text: string, amount: Parameters<typeof read_amount>[1]) => {
  const read = read_amount(text, amount);
  return read.ok ? [read.value, read.shown] : read.problem;
};

describe('amounts as hands type them', () => {
  test('sums are added and shown', () => expect(value('12+7+30', 'count')).toEqual([49, '= 49']));
  test('a plain number shows nothing', () => expect(value('49', 'count')).toEqual([49, '']));
  test('a decimal comma is a point', () => expect(value('12,5', 'weight')).toEqual([12.5, '= 12.5 g']));
  test('units are understood', () => {
    expect(value('1.2 kg', 'weight')).toEqual([1200, '= 1200 g']);
    expect(value('3 cm', 'length')).toEqual([30, '= 30 mm']);
    expect(value('12%', 'percent')).toEqual([12, '= 12 %']);
  });
  test('a unit at the end holds for the terms before it', () => {
    expect(value('1,2+0,8 kg', 'weight')).toEqual([2000, '= 2000 g']);
    expect(value('500 g + 1 kg', 'weight')).toEqual([1500, '= 1500 g']);
  });
  test('a comma before three digits may be either, and is asked for', () => {
    expect(value('1,450', 'weight')).toBe('"1,450" may be 1450 or 1.450');
    expect(value('0,450', 'weight')).toEqual([0.45, '= 0.45 g']);
    expect(value('1,234.5', 'weight')).toEqual([1234.5, '= 1234.5 g']);
  });
  test('half a sherd is none', () => expect(value('2.5', 'count')).toBe('"2.5" is finer than the record keeps'));
  test('words and wrong units are no amount', () => {
    expect(value('4x', 'count')).toBe('"4x" is not read as a number');
    expect(value('3 kg', 'length')).toBe('"3 kg" is not read as a number');
    expect(value('-3', 'count')).toBe('"-3" is not read as a number');
    expect(value('3++4', 'count')).toBe('"3++4" is not read as a number');
  });
  test('years before and after Christ, and none between', () => {
    expect(value('AD 120', 'year')).toEqual([120, '= AD 120']);
    expect(value('50 BC', 'year')).toEqual([-50, '= 50 BC']);
    expect(value('0', 'year')).toBe('there is no year 0');
  });
});

test('one question mark is probable, two are possible', () => {
  expect(without_doubt('grey-1?')).toEqual(['grey-1', '?']);
  expect(without_doubt('grey-1 ??')).toEqual(['grey-1', '??']);
  expect(without_doubt('grey-1')).toEqual(['grey-1', '']);
});

describe('a balance that types', () => {
  test('is read with its blanks, its unit and its words', () => {
    expect(read_balance('  12.4 g')).toEqual({ grams: 12.4, tare: false, stable: true });
    expect(read_balance('ST,NT, +  1.204 kg')).toEqual({ grams: 1204, tare: true, stable: true });
    expect(read_balance('US,GS 12.4 g')).toEqual({ grams: 12.4, tare: false, stable: false });
    expect(read_balance('~ 12.4 g')?.stable).toBe(false);
    expect(read_balance('N   0.0 g')?.tare).toBe(true);
    expect(read_balance('overload')).toBeNull();
  });
  test('a reading is taken once, at rest, with something on the pan', () => {
    const balance = new Balance();
    const read = (text: string) => read_balance(text) as NonNullable<ReturnType<typeof read_balance>>;
    expect(balance.take(read('12.4 g'), 0)).toBe('');
    expect(balance.take(read('12.4 g'), 600)).toBe('the same reading again');
    expect(balance.take(read('12.4 g'), 2000)).toBe('');
    expect(balance.take(read('12.6 g'), 2100)).toBe('');
    expect(balance.take(read('~12.9 g'), 2200)).toBe('not at rest');
    expect(balance.take(read('0.0 g'), 2300)).toBe('nothing on the pan');
    expect(balance.take(read('- 0.2 g'), 2400)).toBe('nothing on the pan');
  });
});
