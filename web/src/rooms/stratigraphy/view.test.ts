import { describe, expect, it } from 'vitest';
import { first_view, moved, text_of, view_of, view_on, zoomed } from './view';

const kWhole = { x: 0, y: 0, width: 400, height: 200 };

describe('the view on a drawing', () => {
  it('is read from a viewBox and written as one', () => {
    expect(view_of('0 0 400 200')).toEqual(kWhole);
    expect(view_of('0,0,400,-1')).toBeNull();
    expect(view_of('0 0 400')).toBeNull();
    expect(view_of(null)).toBeNull();
    expect(text_of(kWhole)).toBe('0.00 0.00 400.00 200.00');
  });

  it('keeps the point under the pointer where it is', () => {
    const about = { x: 100, y: 50 };
    const near = zoomed(kWhole, 2, about, kWhole);
    expect(near.width).toBe(200);
    expect((about.x - near.x) / near.width).toBeCloseTo(about.x / 400);
    expect((about.y - near.y) / near.height).toBeCloseTo(about.y / 200);
  });

  it('comes no nearer and goes no farther than makes sense', () => {
    expect(zoomed(kWhole, 1e6, { x: 0, y: 0 }, kWhole).width).toBeCloseTo(200 / 60);
    expect(zoomed(kWhole, 1e-6, { x: 0, y: 0 }, kWhole).width).toBe(800);
  });

  it('never loses the drawing', () => {
    const far = moved(kWhole, 1e6, -1e6, kWhole);
    expect(far.x).toBe(400 - 80);
    expect(far.y).toBe(-160);
  });

  it('begins with the whole width, in the shape of the frame', () => {
    expect(first_view(kWhole, { width: 800, height: 600 })).toEqual({ x: 0, y: 0, width: 400, height: 300 });
  });

  it('goes to a box', () => {
    const seen = view_on({ x: 300, y: 100, width: 10, height: 10 }, kWhole, 100);
    expect(seen).toEqual({ x: 255, y: 80, width: 100, height: 50 });
  });
});
