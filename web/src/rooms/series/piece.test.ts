import { describe, expect, test } from 'vitest';
import { hash_of, route_of } from '../../lib/query';
import {
  asked_of,
  at_fault,
  evidence_parts,
  fault_of,
  in_place,
  meant,
  plain,
  query_of,
  resting_on,
  to_set_aside,
  turned_aside,
  window_of,
  with_seen,
  year_of,
  type Observation,
} from './piece';

const seen = (key: string, value: string, aside = false): Observation => ({ key, value, aside });

describe('what is seen', () => {
  test('the same thing said twice is one, in whatever case, and is used again where it was set aside', () => {
    const all = with_seen(with_seen([], 'ware', 'creamware'), 'ware', '  Creamware ');
    expect(all).toEqual([seen('ware', 'creamware')]);
    expect(with_seen([seen('ware', 'creamware', true)], 'ware', 'creamware')).toEqual([seen('ware', 'creamware')]);
  });
  test('several values of a key stand side by side, and blanks are nothing', () => {
    expect(with_seen([seen('decoration', 'cable')], 'decoration', 'twig')).toHaveLength(2);
    expect(with_seen([], 'ware', '   ')).toEqual([]);
  });
  test('a reading takes the place of the letters that were asked for, and of no other legend', () => {
    const all = [seen('legend', 'P*WELL*'), seen('legend', 'ENGLAND')];
    expect(in_place(all, 'legend', 'powell & bishop', 'p*well*')).toEqual([
      seen('legend', 'P*WELL*', true),
      seen('legend', 'ENGLAND'),
      seen('legend', 'powell & bishop'),
    ]);
  });
});

describe('the address', () => {
  test('everything that was asked comes back from it, also values with signs of the query in them', () => {
    const asked = {
      seen: [seen('mark', 'Rd No 1 & 2 = #3'), seen('legend', 'W?DGW*'), seen('ware', 'pearlware', true)],
      window: '-50:200',
      shoulders: 0,
    };
    expect(asked_of(route_of(hash_of('series', query_of(asked))).query)).toEqual(asked);
  });
  test('what is no observation is left out, and what is there twice is one', () => {
    const query = new URLSearchParams('seen=ware&seen==x&seen=ware%3D&seen=ware%3Da&aside=ware%3DA&shoulders=many');
    expect(asked_of(query)).toEqual({ seen: [seen('ware', 'a')], window: '', shoulders: null });
  });
});

describe('years that are typed', () => {
  test.each([
    ['1785', 1785],
    [' 50 BC', -50],
    ['-50', -50],
    ['AD 70', 70],
    ['0', null],
    ['-50 BC', null],
    ['about 1700', null],
  ])('%j', (text, wanted) => expect(year_of(text)).toBe(wanted));
  test('a window needs both years, the earlier one first', () => {
    expect(window_of('', ' ')).toBe('');
    expect(window_of('50 BC', '200')).toBe('-50:200');
    expect(window_of('1700', '')).toBeNull();
    expect(window_of('1900', '1700')).toBeNull();
  });
});

describe('rows told by their evidence', () => {
  test('a value may hold commas', () => {
    expect(evidence_parts('ware=pearlware, edge=even scalloped shell edge, curved lines, print_colour=blue')).toEqual([
      ['ware', 'pearlware'],
      ['edge', 'even scalloped shell edge, curved lines'],
      ['print_colour', 'blue'],
    ]);
  });
  test('keys are made plain, and an equals sign of anything else stays', () => {
    expect(plain('lattice_angle=110, bore=5; diamond top=O left=G')).toBe('lattice angle 110, bore of a stem 5; diamond top=O left=G');
  });
  test('a row rests on the observation whatever its spelling, its synonym or its broader kind', () => {
    const mine = [seen('ware', 'BB1'), seen('technique', 'transfer printed'), seen('mark', 'England')];
    const understood = ['ware=black-burnished ware 1', 'technique=transfer print', 'mark=england'];
    expect(resting_on('mark=england', mine, understood)).toEqual([mine[2]]);
    expect(resting_on('technique=transfer print', mine, understood)).toEqual([mine[1]]);
    expect(resting_on('ware=black-burnished ware 1, mark=england', mine, understood)).toEqual([mine[0], mine[2]]);
    expect(resting_on('ware=black-burnished ware', mine, understood)).toEqual([mine[0]]);
  });
  test('of two marks the one that was understood so is meant', () => {
    const mine = [seen('mark', 'Made in England'), seen('mark', 'GR cipher')];
    expect(resting_on('mark=cipher gr', mine, ['mark=made in england', 'mark=cipher gr'])).toEqual([mine[1]]);
  });
});

describe('setting aside', () => {
  const mine = [seen('ware', 'pearlware'), seen('technique', 'transfer printed'), seen('mark', 'England')];
  const understood = ['ware=pearlware', 'technique=transfer print', 'mark=england'];
  const row = 'ware=pearlware, technique=transfer print';

  test('takes all on which the row rests where nothing else does', () => {
    expect(to_set_aside([row], [row, 'mark=england'], mine, understood)).toEqual([mine[0], mine[1]]);
    expect(to_set_aside(['mark=england'], [row, 'mark=england'], mine, understood)).toEqual([mine[2]]);
  });
  test('leaves what another reason needs', () => {
    expect(to_set_aside([row], [row, 'ware=pearlware', 'mark=england'], mine, understood)).toEqual([mine[1]]);
  });
  test('takes them all where each bears another reason, so that the press is never without effect', () => {
    expect(to_set_aside([row], [row, 'ware=pearlware', 'technique=transfer print'], mine, understood)).toEqual([mine[0], mine[1]]);
  });
  test('what was set aside before bears no reason', () => {
    const now = turned_aside(mine, [mine[2] as Observation], true);
    expect(to_set_aside(['mark=england'], ['mark=england'], now, understood)).toEqual([]);
  });
});

describe('errors', () => {
  test('did you mean', () => {
    expect(meant('did you mean "pearlware"? "sherdwright evidence --values ware" lists them all')).toEqual(['pearlware']);
    expect(meant('"sherdwright evidence --values fabric" lists them all')).toEqual([]);
  });
  test('the observation at fault is the one whose words and key are repeated', () => {
    const mine = [seen('form', 'pearlwre'), seen('ware', 'pearlwre'), seen('bore', 'abc')];
    expect(at_fault('no ware "pearlwre" is known', mine)).toBe(mine[1]);
    expect(at_fault('"abc" is no bore', mine)).toBe(mine[2]);
    expect(at_fault('no ware "else" is known', mine)).toBeNull();
  });
  test('a problem of the line to the program is no fault of an observation', () => {
    expect(fault_of({ code: 'no_program', message: 'the program does not answer', hint: '' }, [seen('ware', 'x')])).toBeNull();
    expect(fault_of({ code: 'unknown_value', message: 'no ware "x" is known', hint: 'did you mean "y"?' }, [seen('ware', 'x')])).toEqual({
      one: seen('ware', 'x'),
      message: 'No ware "x" is known.',
      meant: ['y'],
    });
  });
});
