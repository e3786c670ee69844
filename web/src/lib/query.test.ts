import { describe, expect, test } from 'vitest';
import { queryOf } from '../api';
import { address, condition, hash_of, holds, parts, route_of } from './query';

describe('addresses', () => {
  test('a list repeats its key, and what is not there is left out', () => {
    expect(address('/x', { where: ['a=1', 'b='], by: 'fabric', limit: null, more: undefined, on: false })).toBe(
      '/x?where=a%3D1&where=b%3D&by=fabric',
    );
    expect(address('/x', {})).toBe('/x');
  });
  test('values with signs of the query in them come back whole', () => {
    const value = 'note=10 % & more + "x" #1 é';
    const query = new URLSearchParams(queryOf({ where: [value] }).slice(1));
    expect(query.getAll('where')).toEqual([value]);
  });
  test('a condition may ask for blank and may hold an equals sign', () => {
    expect(condition('checked_by', null)).toBe('checked_by=');
    expect(parts('notes=a=b')).toEqual(['notes', 'a=b']);
    expect(parts('notes')).toEqual(['notes', '']);
  });
});

describe('rooms', () => {
  test('the address names the room and its choices', () => {
    const hash = hash_of('assemblage', { by: 'fabric,context.phase', where: ['context=1013'] });
    const route = route_of(hash);
    expect(route.room).toBe('assemblage');
    expect(route.query.get('by')).toBe('fabric,context.phase');
    expect(route.query.getAll('where')).toEqual(['context=1013']);
  });
  test('an address that names no room is the Site room', () => {
    for (const hash of ['', '#', '#/', '#/kitchen', '#main']) expect(route_of(hash).room).toBe('site');
  });
});

describe('the filter', () => {
  test('every word must occur, in any text and in any case', () => {
    expect(holds('a4 DUMP', ['1013', 'phase A4', 'dump'])).toBe(true);
    expect(holds('a4 silting', ['1013', 'phase A4', 'dump'])).toBe(false);
    expect(holds('  ', ['1013'])).toBe(true);
  });
  test('a typed hyphen finds the dash of a range', () => {
    expect(holds('1650-1680', ['1650–1680'])).toBe(true);
  });
});
