import { expect, test } from 'vitest';
import { number_of, points_of, read_points, rows_from, wrong_in } from './points';

test('a number is read with point or comma, below the line and with its unit', () => {
  expect(['12.5', '12,5', '-3', '−3', '.5', '40 mm', '4.'].map(number_of)).toEqual([12.5, 12.5, -3, -3, 0.5, 40, 4]);
  expect(['', 'NaN', '1e5', '12 cm', 'four', '1.2.3', 'Infinity'].map(number_of)).toEqual([null, null, null, null, null, null, null]);
});

test('cells of a spreadsheet without a head are distance, height, side and conjecture', () => {
  const { rows, problems } = read_points('0\t0\n40,5\t0\touter\n38\t6\tinner\tx\n', 'outer');
  expect(problems).toEqual([]);
  expect(points_of(rows)).toEqual([
    { side: 'outer', r_mm: 0, z_mm: 0, conjectured: false },
    { side: 'outer', r_mm: 40.5, z_mm: 0, conjectured: false },
    { side: 'inner', r_mm: 38, z_mm: 6, conjectured: true },
  ]);
});

test('a head names the columns in any order', () => {
  const { rows } = read_points('side\tz_mm\tr_mm\tdrawn\ninner\t6\t38\tconjectured\nouter\t0\t40\tseen', 'outer');
  expect(points_of(rows)).toEqual([
    { side: 'inner', r_mm: 38, z_mm: 6, conjectured: true },
    { side: 'outer', r_mm: 40, z_mm: 0, conjectured: false },
  ]);
});

test('text with commas or semicolons between the cells is read too', () => {
  expect(points_of(read_points('r_mm,z_mm,side\n40.5,0,outer\n36,2,inner', 'outer').rows).map((p) => [p.r_mm, p.z_mm, p.side])).toEqual([
    [40.5, 0, 'outer'],
    [36, 2, 'inner'],
  ]);
  expect(points_of(read_points('40,5;0\n36,2;2', 'inner').rows).map((p) => [p.r_mm, p.z_mm, p.side])).toEqual([
    [40.5, 0, 'inner'],
    [36.2, 2, 'inner'],
  ]);
});

test('what is no number or no side is told with its row', () => {
  expect(read_points('1\t2\tback', 'outer').problems).toEqual(['row 1: "back" is no side; outer, inner, handle or handle_section']);
  expect(
    wrong_in([
      { side: 'outer', r: '', z: ' ', conjectured: false },
      { side: 'outer', r: 'NaN', z: '1', conjectured: false },
      { side: 'outer', r: '4', z: '', conjectured: false },
    ]),
  ).toEqual(['row 2: "NaN" is no number of millimetres', 'row 3 has no height']);
});

test('a section of the record comes as rows, side by side', () => {
  const line = (r_mm: number, conjectured = false) => ({ r_mm, z_mm: 1.006, conjectured });
  expect(rows_from({ outer: [line(40)], inner: [line(36, true)], handle: [], handle_section: [] })).toEqual([
    { side: 'outer', r: '40', z: '1.01', conjectured: false },
    { side: 'inner', r: '36', z: '1.01', conjectured: true },
  ]);
});
