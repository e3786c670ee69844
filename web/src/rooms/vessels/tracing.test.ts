import { expect, test } from 'vitest';
import { base64_of } from '../../lib/base64';
import { grey_of, reduction } from './grey';
import { overlay, overlay_of } from './overlay';
import { added, axis_beside, axis_of, between, closed, guessed, inserted, kNoClicks, kNoLines, mm_per_pixel, moved, nearest, on_vessel, outline_of, removed, thinned, unseen, type Axis } from './tracing';

test('two clicks and a length give the scale', () => {
  expect(mm_per_pixel([{ x: 10, y: 10 }, { x: 310, y: 410 }], 100)).toBeCloseTo(0.2, 12);
  expect(mm_per_pixel([{ x: 10, y: 10 }], 100)).toBeNull();
  expect(mm_per_pixel([{ x: 10, y: 10 }, { x: 10, y: 10 }], 100)).toBeNull();
  expect(mm_per_pixel([{ x: 0, y: 0 }, { x: 9, y: 0 }], 0)).toBeNull();
});

test('the section lies left of the axis, unless it is said to lie right of it', () => {
  const axis = axis_of([{ x: 500, y: 800 }]) as Axis;
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

test('a third click begins scale or axis anew, sides grow', () => {
  const [a, b, c] = [{ x: 1, y: 1 }, { x: 9, y: 1 }, { x: 5, y: 5 }] as const;
  const scale = added(added(kNoClicks, 'scale', a), 'scale', b);
  expect(scale.scale).toEqual([a, b]);
  expect(added(scale, 'scale', c).scale).toEqual([c]);
  expect(added({ ...kNoClicks, axis: [a, b] }, 'axis', c).axis).toEqual([c]);
  const side = [a, b, c].reduce((clicks, place) => added(clicks, 'outer', place), kNoClicks);
  expect(side.outer).toEqual([a, b, c]);
  expect(moved(side, 'outer', 1, c).outer).toEqual([a, c, c]);
  expect(removed(side, 'outer', 0).outer).toEqual([b, c]);
  expect(inserted(side, 'outer', 1, c).outer).toEqual([a, c, b, c]);
  expect(side.outer).toEqual([a, b, c]);
});

test('the nearest click within reach is picked, none beyond it', () => {
  const places = [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 13, y: 0 }];
  expect(nearest(places, { x: 11, y: 0 }, 5)).toBe(1);
  expect(nearest(places, { x: 12, y: 0 }, 5)).toBe(2);
  expect(nearest(places, { x: 5, y: 0 }, 4.9)).toBeNull();
  expect(nearest([], { x: 5, y: 0 }, 100)).toBeNull();
});

test('a click on the line goes between its neighbours; one past the ends is a further one', () => {
  const line = [{ x: 0, y: 50 }, { x: 40, y: 10 }, { x: 50, y: 0 }, { x: 100, y: 50 }]; // down, and up again; long segments
  const clicks = [{ x: 0, y: 50 }, { x: 50, y: 0 }, { x: 100, y: 50 }];
  expect(between(line, clicks, { x: 20, y: 31 }, 3)).toBe(1);
  expect(between(line, clicks, { x: 80, y: 31 }, 3)).toBe(2);
  expect(between(line, clicks, { x: 20, y: 60 }, 3)).toBeNull();
  expect(between(line, clicks, { x: 0, y: 50 }, 3)).toBeNull();
  expect(between([], [], { x: 0, y: 0 }, 3)).toBeNull();
});

test('a page that lies askew is put right by a second click on the axis, wherever on it', () => {
  const lean = (degrees: number, [x, y]: readonly [number, number]) => {
    const t = (Math.PI * degrees) / 180;
    return { x: 500 + x * Math.cos(t) - y * Math.sin(t), y: 800 + x * Math.sin(t) + y * Math.cos(t) };
  };
  for (const degrees of [-30, 0, 7]) {
    for (const other of [[0, -300], [0, 40]] as const) {
      const axis = axis_of([{ x: 500, y: 800 }, lean(degrees, other)]) as Axis;
      const [point] = on_vessel([lean(degrees, [-200, -400])], axis, 0.5, false);
      expect(point?.r_mm).toBeCloseTo(100, 9);
      expect(point?.z_mm).toBeCloseTo(200, 9);
    }
  }
  expect(axis_of([])).toBeNull();
  expect(axis_of([{ x: 5, y: 5 }, { x: 5, y: 5 }])?.up).toEqual({ x: 0, y: -1 });
});

test('without an axis all lies to its own side of one beside the lines', () => {
  const lines = { ...kNoLines, outer: [{ x: 10, y: 90 }, { x: 20, y: 10 }], inner: [{ x: 30, y: 95 }, { x: 20, y: 10 }] };
  expect(axis_beside(lines, false)?.foot).toEqual({ x: 30, y: 95 });
  expect(axis_beside(lines, true)?.foot).toEqual({ x: 10, y: 95 });
  expect(axis_beside(kNoLines, false)).toBeNull();
});

test('what was not seen is told stretch by stretch, also where the line was thinned', () => {
  const line = Array.from({ length: 61 }, (_, i) => ({ x: 0, y: 60 - i }));
  const side = [{ x: 0, y: 60 }, { x: 0, y: 40 }, { x: 0, y: 20 }, { x: 0, y: 0 }];
  const clicks = guessed({ ...kNoClicks, outer: side }, 'outer', 2, true).outer;
  const not_seen = unseen(line, clicks);
  expect(not_seen.indexOf(true)).toBe(21);
  expect(not_seen.lastIndexOf(true)).toBe(40);
  const place = (points: readonly { x: number; y: number }[]) => points.map((p) => ({ r_mm: 50 + p.x, z_mm: 60 - p.y }));
  expect(outline_of(line, clicks, place, 0.1)).toEqual([
    { r_mm: 50, z_mm: 0 },
    { r_mm: 50, z_mm: 20 },
    { r_mm: 50, z_mm: 40, conjectured: true },
    { r_mm: 50, z_mm: 60 },
  ]);
  expect(outline_of(line, side, place, 0.1)).toEqual([{ r_mm: 50, z_mm: 0 }, { r_mm: 50, z_mm: 60 }]);
  expect(outline_of([], [], place, 0.1)).toEqual([]);
});

test('sides that all but meet on axis and rim meet there; others stay open', () => {
  const outer = [{ r_mm: 0.6, z_mm: 0 }, { r_mm: 60, z_mm: 90 }, { r_mm: 62, z_mm: 100 }];
  const inner = [{ r_mm: 0.2, z_mm: 6 }, { r_mm: 61.5, z_mm: 100.4, conjectured: true }];
  const met = closed({ outer, inner }, 1);
  expect(met.outer).toEqual([{ r_mm: 0, z_mm: 0 }, { r_mm: 60, z_mm: 90 }, { r_mm: 62, z_mm: 100 }]);
  expect(met.inner).toEqual([{ r_mm: 0, z_mm: 6 }, { r_mm: 62, z_mm: 100, conjectured: true }]);
  expect(closed({ outer, inner }, 0.1)).toEqual({ outer, inner });
  expect(closed({ outer: [], inner: [] }, 1)).toEqual({ outer: [], inner: [] });
});
