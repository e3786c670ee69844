/** A fragment's outline laid over a known section: paths in mm, y downwards. */
interface Point {
  r_mm: number;
  z_mm: number;
  conjectured?: boolean;
}
type Line = readonly Point[];
export interface Overlay {
  box: string;
  known: string[];
  fragment: string[];
  /** Stretches that nobody saw. */
  conjectured: string[];
}

function path(points: Line): string {
  return points.map((p, at) => `${at ? 'L' : 'M'}${round(p.r_mm)} ${round(-p.z_mm)}`).join('');
}
const round = (value: number) => Math.round(100 * value) / 100;

/** Stretches of a line that were seen, or those that were not; a stretch is as the point at its end says. */
function stretches(line: Line, conjectured: boolean): Point[][] {
  const out: Point[][] = [];
  line.forEach((point, at) => {
    const before = line[at - 1];
    if (!before || Boolean(point.conjectured) !== conjectured) return;
    const last = out[out.length - 1];
    if (last && last[last.length - 1] === before) last.push(point);
    else out.push([before, point]);
  });
  return out;
}

/** null where there is nothing to draw. */
export function overlay(under: readonly Line[], over: readonly Line[] = []): Overlay | null {
  const known = under.filter((side) => side.length > 1);
  const fragment = over.filter((side) => side.length > 1);
  const all = [...known, ...fragment].flat();
  if (all.length === 0) return null;
  const x = all.map((p) => p.r_mm);
  const y = all.map((p) => -p.z_mm);
  const margin = 4;
  const left = Math.min(...x) - margin;
  const top = Math.min(...y) - margin;
  const box = [left, top, Math.max(...x) - left + margin, Math.max(...y) - top + margin].map(round).join(' ');
  return {
    box,
    known: known.flatMap((side) => stretches(side, false)).map(path),
    fragment: fragment.map(path),
    conjectured: known.flatMap((side) => stretches(side, true)).map(path),
  };
}

export function overlay_of(place: { fragment_outer: Point[]; fragment_inner: Point[]; known_outer: Point[]; known_inner: Point[] }): Overlay | null {
  return overlay([place.known_outer, place.known_inner], [place.fragment_outer, place.fragment_inner]);
}
