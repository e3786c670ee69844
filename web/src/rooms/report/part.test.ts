import { describe, expect, it } from 'vitest';
import { is_for, part_of, type_of, with_field } from './part';

describe('the address of the Report room', () => {
  it('names a part and a type, or the usual ones', () => {
    expect(part_of(new URLSearchParams('part=texts'))).toBe('texts');
    expect(part_of(new URLSearchParams('part=nothing'))).toBe('needs');
    expect(type_of(new URLSearchParams('type=3'))).toBe(3);
    expect(type_of(new URLSearchParams('type=7'))).toBe(2);
  });
});

describe('a text', () => {
  it('is for the types that it names, for all where it names none', () => {
    expect(is_for('', 1)).toBe(true);
    expect(is_for(undefined, 1)).toBe(true);
    expect(is_for('2, 3', 1)).toBe(false);
    expect(is_for('2, 3', 3)).toBe(true);
  });
  it('takes a field at the cursor in place of what is chosen', () => {
    expect(with_field('ab', 1, 1, '{{x}}')).toEqual({ text: 'a{{x}}b', at: 6 });
    expect(with_field('abc', 1, 2, '{{x}}')).toEqual({ text: 'a{{x}}c', at: 6 });
  });
});
