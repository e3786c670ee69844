import { expect, test } from 'vitest';
import { base64_of, grey_of, reduction } from './grey';
import { overlay, overlay_of } from './overlay';
import { mm_per_pixel, on_vessel, thinned } from './tracing';

test('two clicks and a length give the scale', () => {
  expect(mm_per_pixel([{ x: 10, y: 10 }, { x: 310, y: 410 }], 100)).toBeCloseTo(0.2, 12);
  expect(mm_per_pixel([{ x: 10, y: 10 }], 100)).toBeNull();
  expect(mm_per_pixel([{ x: 10, y: 10 }, { x: 10, y: 10 }], 100)).toBeNull();
  expect(mm_per_pixel([{ x: 0, y: 0 }, { x: 9, y: 0 }], 0)).toBeNull();
});

test('the section lies left of the axis, unless it is said to lie right of it', () => {
  const axis = { x: 500, y: 800 };
  expect(on_vessel([{ x: 300, y: 800 }, { x: 250, y: 400 }], axis, 0.5, false)).toEqual([
    { r_mm: 100, z_mm: 0 },
    { r_mm: 125, z_mm: 200 },
  ]);
  expect(on_vessel([{ x: 700, y: 600 }], axis, 0.5, true)).toEqual([{ r_mm: 100, z_mm: 100 }]);
  expect(on_vessel([{ x: 503, y: 800 }], axis, 0.5, false)[0]?.r_mm).toBe(0);
});

test('a straight line is thinned to its ends, a corner stays', () => {
  const straight = Array.from({ length: 50 }, (_, i) => ({ r_mm: i, z_mm: 2 * i }));
  expect(thinned(straight, 0.1)).toEqual([straight[0], straight[49]]);
  const corner = [...straight, { r_mm: 60, z_mm: 98 }];
  expect(thinned(corner, 0.1)).toEqual([straight[0], straight[49], corner[50]]);
});

test('what is left of a circle stays within the tolerance', () => {
  const circle = Array.from({ length: 400 }, (_, i) => ({ r_mm: 100 + 80 * Math.cos((Math.PI * i) / 399), z_mm: 80 * Math.sin((Math.PI * i) / 399) }));
  const few = thinned(circle, 0.2);
  expect(few.length).toBeLessThan(60);
  for (let i = 1; i < few.length; i += 1) {
    const a = few[i - 1] as { r_mm: number; z_mm: number };
    const b = few[i] as { r_mm: number; z_mm: number };
    const middle = Math.hypot((a.r_mm + b.r_mm) / 2 - 100, (a.z_mm + b.z_mm) / 2);
    expect(80 - middle).toBeLessThan(0.25);
  }
});

test('grey is the luma, and what is transparent is paper', () => {
  const grey = grey_of(new Uint8ClampedArray([0, 0, 0, 255, 255, 255, 255, 255, 0, 0, 0, 0, 255, 0, 0, 255]), 2, 2);
  expect([...grey.pixels]).toEqual([0, 255, 255, 54]);
  expect(base64_of(new Uint8Array([0, 255, 16]))).toBe('AP8Q');
  expect(reduction(3200, 100)).toBe(0.5);
  expect(reduction(300, 100)).toBe(1);
});

test('a fragment over a known section is drawn within its box; nothing gives nothing', () => {
  const drawn = overlay_of({
    known_outer: [{ r_mm: 40, z_mm: 0 }, { r_mm: 60, z_mm: 100 }],
    known_inner: [],
    fragment_outer: [{ r_mm: 55, z_mm: 70 }, { r_mm: 61, z_mm: 101 }],
    fragment_inner: [],
  });
  expect(drawn?.box).toBe('36 -105 29 109');
  expect(drawn?.known).toEqual(['M40 0L60 -100']);
  expect(overlay_of({ known_outer: [], known_inner: [], fragment_outer: [], fragment_inner: [] })).toBeNull();
});

test('stretches that nobody saw are drawn apart', () => {
  const line = [
    { r_mm: 40, z_mm: 0 },
    { r_mm: 50, z_mm: 20 },
    { r_mm: 55, z_mm: 40, conjectured: true },
    { r_mm: 58, z_mm: 60 },
  ];
  const drawn = overlay([line]);
  expect(drawn?.known).toEqual(['M40 0L50 -20', 'M55 -40L58 -60']);
  expect(drawn?.conjectured).toEqual(['M50 -20L55 -40']);
});
