import { describe, expect, it } from 'vitest';
import { hash_of, route_of } from '../../lib/query';
import { choice_of, note_of, request_of, request_of_places, request_of_table, tally_where, with_setting } from './choice';

const of = (query: string) => choice_of(new URLSearchParams(query));

describe('the choice of what to compare', () => {
  it('comes back from the address as it went', () => {
    const choice = of(
      'how=clusters&rows=context&columns=fabric&measure=eve&where=context.phase%3DA1&where=part%3Drim&doubtful=out&unchecked=out&linkage=ward&cut=4&merge=a%2Bb&merge=c%2Bd',
    );
    expect(choice).toMatchObject({ view: 'clusters', rows: 'context', measure: 'eve', doubtful_out: true, unchecked_out: true });
    expect(choice.settings.merge).toEqual(['a+b', 'c+d']);
    const again = choice_of(route_of(hash_of('assemblage', note_of(choice))).query);
    expect(again).toEqual(choice);
  });

  it('says nothing in the address of what is as it is unless said', () => {
    expect(hash_of('assemblage', note_of(of('')))).toBe('#/assemblage');
  });

  it('falls back on what there is where the address names what there is not', () => {
    expect(of('how=augury&measure=beauty')).toMatchObject({ view: 'tally', measure: 'count' });
  });
});

describe('what the program is asked', () => {
  it('holds the settings of the view alone, numbers as numbers', () => {
    const choice = of('how=clusters&linkage=ward&cut=4&method=axis&layer=form&merge=a%2Bb');
    expect(request_of(choice, 'clusters')).toEqual({
      how: 'clusters',
      rows: 'context.phase',
      columns: 'fabric.ware_group',
      measure: 'count',
      linkage: 'ward',
      cut: 4,
      merge: ['a+b'],
    });
  });

  it('names weight as its column is named', () => {
    expect(request_of(of('measure=weight'), 'similarity').measure).toBe('weight_g');
  });

  it('leaves columns and measure to the views that have them', () => {
    expect(request_of(of('measure=eve&weights=size%3D2'), 'key-groups')).toEqual({ how: 'key-groups', rows: 'context.phase', weights: ['size=2'] });
  });

  it('drops a number that is none', () => {
    expect(request_of(of('cut=many'), 'clusters')).not.toHaveProperty('cut');
  });

  it('asks for doubtful and unchecked lines out only where they are', () => {
    expect(request_of(of('doubtful=out'), 'order')).toMatchObject({ doubtful: 'out' });
    expect(request_of(of(''), 'order')).not.toHaveProperty('unchecked');
  });
});

describe('a setting', () => {
  it('is changed, and taken away where nothing is given', () => {
    const choice = with_setting(of(''), 'linkage', ['ward']);
    expect(choice.settings).toEqual({ linkage: ['ward'] });
    expect(with_setting(choice, 'linkage', ['']).settings).toEqual({});
  });
});

describe('what a tally leaves out', () => {
  it('are the lines of which a field that it counts by is in doubt, and those nobody checked', () => {
    expect(tally_where(of('by=form,context.phase&doubtful=out&unchecked=out&where=part%3Drim'))).toEqual([
      'part=rim',
      'form_certainty!=probable',
      'form_certainty!=possible',
      'checked_by!=',
    ]);
    expect(tally_where(of('by=context.phase&doubtful=out'))).toEqual([]);
  });
});

describe('a table of its own', () => {
  it('is asked about without what only a record has', () => {
    const choice = of('how=clusters&linkage=ward&rows=context&where=part%3Drim&unchecked=out&with=all');
    expect(request_of_table(choice, 'clusters', 'a,b')).toEqual({ how: 'clusters', linkage: 'ward', table: 'a,b' });
  });
  it('of places is asked about once amount and distance are known', () => {
    const table = 'place,n,km,mode\nA,1,2,land';
    expect(request_of_places(of('how=distance'), table)).toBeNull();
    expect(request_of_places(of('how=distance&amount=n&zeros=add-half'), table)).toEqual({
      how: 'distance',
      table,
      measure: 'n',
      columns: 'km',
      groups: 'mode',
      zeros: 'add-half',
    });
  });
});
