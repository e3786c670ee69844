import { describe, expect, it } from 'vitest';
import { inclusion_text, lens_of, nothing, observations, with_answer } from './lens';

describe('what is seen under the lens', () => {
  it('goes to the address and comes back the same', () => {
    const seen = ['hardness=hard', 'core=N 4/', 'inclusion=quartz, common, 0.3-0.8 mm, well sorted, subrounded', 'inclusion=flint, none'];
    expect(observations(lens_of(seen, true))).toEqual(seen);
    expect(lens_of(seen, true).only).toBe(true);
  });
  it('parts an inclusion by what its words look like', () => {
    const [one] = lens_of(['inclusion=shell, to 2 mm, angular'], false).inclusions;
    expect(one).toEqual({ kind: 'shell', amount: '', size: 'to 2 mm', sorting: '', rounding: 'angular' });
    expect(lens_of(['inclusion=quartz, medium sand, 10%'], false).inclusions[0]).toMatchObject({ size: 'medium sand', amount: '10%' });
  });
  it('leaves out what is no observation', () => {
    expect(observations(lens_of(['colour=red', 'hardness= '], false))).toEqual([]);
  });
});

describe('an answer to what was to be looked at', () => {
  it('fills the field that it is about', () => {
    expect(observations(with_answer(nothing(), 'hardness', 'soft'))).toEqual(['hardness=soft']);
    expect(observations(with_answer(nothing(), 'quartz', 'common'))).toEqual(['inclusion=quartz, common']);
  });
  it('goes to the inclusion that is there already', () => {
    const quartz = with_answer(nothing(), 'quartz', 'common');
    const sized = with_answer(quartz, 'quartz size', '0.2-0.5 mm');
    expect(sized.inclusions.map(inclusion_text)).toEqual(['quartz, common, 0.2-0.5 mm']);
    expect(quartz.inclusions.map(inclusion_text)).toEqual(['quartz, common']);
  });
  it('adds a zone to the firing that was said', () => {
    const outside = with_answer(nothing(), 'firing outside', 'oxidised');
    expect(with_answer(outside, 'firing core', 'unoxidised').plain.firing).toBe('outside oxidised, core unoxidised');
  });
});
