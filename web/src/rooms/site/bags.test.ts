import { describe, expect, it } from 'vitest';
import type { BagEntry, RowState } from '../../api';
import { bags_of, boxes_of, is_of } from './bags';

const row = (uid: string, values: Record<string, string>): RowState => ({ kind: 'bags', uid, removed: false, changed: 1, values });
const entry = (bag: string, more: Partial<BagEntry> = {}): BagEntry => ({
  bag,
  uid: '',
  context: '',
  box: '',
  material: '',
  standing: 'expected',
  count: null,
  count_recorded: null,
  weight_g: null,
  weight_recorded_g: null,
  lines: 0,
  contexts: [],
  troubles: [],
  ...more,
});

describe('bags', () => {
  it('have their row of the finds list beside them, where there is one', () => {
    const bags = bags_of([entry('A', { uid: 'u1' }), entry('X')], [row('u1', { bag: 'A' })]);
    expect(bags.map((one) => one.row?.uid ?? null)).toEqual(['u1', null]);
  });
  it('add up by box, in the order of their numbers, those without a box last', () => {
    const boxes = boxes_of(
      bags_of(
        [
          entry('A', { box: '10', count: 4, count_recorded: 5, weight_g: 20, weight_recorded_g: 30, standing: 'received' }),
          entry('B', { box: '9', weight_g: 70 }),
          entry('X', { box: '9', count_recorded: 2, weight_recorded_g: 5, standing: 'unlisted' }),
          entry('C'),
        ],
        [],
      ),
    );
    expect(boxes.map((one) => [one.box, one.bags, one.received, one.listed, one.recorded, one.weight_g])).toEqual([
      ['9', 2, 0, null, 2, 75],
      ['10', 1, 1, 4, 5, 30],
      ['', 1, 0, null, null, null],
    ]);
  });
  it('are of a state by what is said of them; nothing said is still to do', () => {
    const [bag] = bags_of([entry('A', { uid: 'u1', troubles: ['count'] })], [row('u1', { bag: 'A', cleaning: 'washed' })]);
    expect(['open', 'received', 'differs', 'unwashed', 'unmarked', 'all'].map((state) => bag && is_of(bag, state))).toEqual([true, false, true, false, true, true]);
  });
  it('that only lines name are not on the list, and nothing is said of their cleaning', () => {
    const [bag] = bags_of([entry('X', { standing: 'unlisted', lines: 2 })], []);
    expect(['unlisted', 'open', 'unwashed'].map((state) => bag && is_of(bag, state))).toEqual([true, false, false]);
  });
});
