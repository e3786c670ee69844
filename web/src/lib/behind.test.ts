import { describe, expect, test } from 'vitest';
import type { Finding } from '../api';
import { about_context, target_of } from './behind';

function finding(table: string, id: string, column: string, message = ''): Finding {
  return { severity: 'warning', code: '', message, where: { table, id, column }, hint: '' };
}

describe('what lies behind a finding', () => {
  test('a finding on a line opens that record and asks about its column', () => {
    expect(target_of(finding('sherds', '10302', 'vessels'))).toEqual({ where: ['record=10302'], column: 'vessels' });
    expect(target_of(finding('rims', '10302', 'rim_percent'))).toEqual({ where: ['record=10302'], column: 'rim_percent' });
  });
  test('a finding on a box, bag or vessel opens all its lines', () => {
    expect(target_of(finding('sherds', '48', 'box'))).toEqual({ where: ['box=48'], column: 'box' });
    expect(target_of(finding('sherds', 'jug-1', 'vessel'))).toEqual({ where: ['vessel=jug-1'], column: 'vessel' });
  });
  test('lines still to check are those whose checker is blank', () => {
    expect(target_of(finding('sherds', '', 'checked_by'))).toEqual({ where: ['checked_by='], column: 'checked_by' });
  });
  test('a finding on a context or a relation opens the context', () => {
    expect(target_of(finding('contexts', '2020', 'deposit'))).toEqual({ context: '2020' });
    expect(target_of(finding('relations', '1035', 'earlier'))).toEqual({ context: '1035' });
  });
  test('a finding on a whole table has nothing to open', () => {
    expect(target_of(finding('contexts', '', 'context'))).toBeNull();
    expect(target_of(finding('dates', '', 'earliest'))).toBeNull();
  });
  test('a finding is about the contexts that its sentence names, and no others', () => {
    const one = finding('sherds', '10302', 'vessels', 'record 10302 (context 1015): 5 vessels from 2 sherds');
    expect(about_context(one, '1015')).toBe(true);
    expect(about_context(one, '101')).toBe(false);
    expect(about_context(finding('contexts', '2020', 'deposit', 'x'), '2020')).toBe(true);
  });
});
