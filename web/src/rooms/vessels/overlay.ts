/** A fragment's outline laid over a known section: paths in mm, y downwards. */
interface Point {
  r_mm: number;
  z_mm: number;
}
export interface Overlay {
  box: string;
  known: string[];
  fragment: string[];
}

function path(points: readonly Point[]): string {
  return points.map((p, at) => `${at ? 'L' : 'M'}${round(p.r_mm)} ${round(-p.z_mm)}`).join('');
}
const round = (value: number) => Math.round(100 * value) / 100;

/** null where there is nothing to draw. */
export function overlay_of(place: { fragment_outer: Point[]; fragment_inner: Point[]; known_outer: Point[]; known_inner: Point[] }): Overlay | null {
  const known = [place.known_outer, place.known_inner].filter((side) => side.length > 1);
  const fragment = [place.fragment_outer, place.fragment_inner].filter((side) => side.length > 1);
  const all = [...known, ...fragment].flat();
  if (all.length === 0) return null;
  const x = all.map((p) => p.r_mm);
  const y = all.map((p) => -p.z_mm);
  const margin = 4;
  const left = Math.min(...x) - margin;
  const top = Math.min(...y) - margin;
  const box = [left, top, Math.max(...x) - left + margin, Math.max(...y) - top + margin].map(round).join(' ');
  return { box, known: known.map(path), fragment: fragment.map(path) };
}
