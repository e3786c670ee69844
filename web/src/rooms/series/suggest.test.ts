import { expect, test } from 'vitest';
import { suggest } from './suggest';

const kEdges = ['embossed edge', 'even scalloped shell edge', 'feather edge', 'shell edge', 'unscalloped shell edge'];

test('what begins with the typed words comes before what holds them', () => {
  expect(suggest(kEdges, 'shell')).toEqual(['shell edge', 'even scalloped shell edge', 'unscalloped shell edge']);
});
test('words may be typed in any order and in part', () => {
  expect(suggest(kEdges, 'edge feath')).toEqual(['feather edge']);
});
test('case, accents, hyphens and dots do not count', () => {
  expect(suggest(['höhr stoneware', 'drag. 18/31'], 'HOHR')).toEqual(['höhr stoneware']);
  expect(suggest(['black-burnished ware 1'], 'black burn')).toEqual(['black-burnished ware 1']);
  expect(suggest(['drag. 18/31', 'drag. 37'], 'drag 37')).toEqual(['drag. 37']);
});
test('nothing typed offers all in their order, up to the limit', () => {
  expect(suggest(kEdges, ' ')).toEqual(kEdges);
  expect(suggest(kEdges, '', 2)).toEqual(kEdges.slice(0, 2));
});
test('what is in none of them offers nothing', () => {
  expect(suggest(kEdges, 'zz')).toEqual([]);
});
