import { describe, expect, it } from 'vitest';
import { condition_of, said, text_of } from './conditions';

describe('a condition', () => {
  it.each(['context.phase=A1', 'part!=rim', 'fabric=a||b', 'checked_by=', 'checked_by!=', 'notes=a=b'])('%s is read and written the same', (text) => {
    expect(text_of(condition_of(text))).toBe(text);
  });
  it('is said in words', () => {
    expect(said(condition_of('fabric=a||b'))).toBe('a or b');
    expect(said(condition_of('checked_by!='))).toBe('not blank');
    expect(said(condition_of('context.phase='))).toBe('blank');
  });
});
