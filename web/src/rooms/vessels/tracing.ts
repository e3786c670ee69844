import { kSides, type Side } from './points';

/** Places on a picture and what they are on the vessel. */
export interface Place {
  x: number;
  y: number;
}
export interface Click extends Place {
  /** The stretch that ends here was not seen. */
  conjectured?: boolean;
}
export type Step = 'scale' | 'axis' | Side;
export const kSteps: readonly Step[] = ['scale', 'axis', ...kSides];
export type Clicks = Readonly<Record<Step, readonly Click[]>>;
export type Lines = Readonly<Record<Side, readonly Place[]>>;
export const kNoClicks: Clicks = { scale: [], axis: [], outer: [], inner: [], handle: [], handle_section: [] };
export const kNoLines: Lines = { outer: [], inner: [], handle: [], handle_section: [] };
export const is_side = (step: Step): step is Side => step !== 'scale' && step !== 'axis';

/** What a further click makes of them: a third one of scale or axis begins it anew. */
export function added(clicks: Clicks, step: Step, place: Place): Clicks {
  const most = is_side(step) ? Infinity : 2;
  return { ...clicks, [step]: clicks[step].length >= most ? [place] : [...clicks[step], place] };
}
export function inserted(clicks: Clicks, step: Step, index: number, place: Place): Clicks {
  return { ...clicks, [step]: [...clicks[step].slice(0, index), place, ...clicks[step].slice(index)] };
}
export function moved(clicks: Clicks, step: Step, index: number, place: Place): Clicks {
  return { ...clicks, [step]: clicks[step].map((was, at) => (at === index ? { ...was, x: place.x, y: place.y } : was)) };
}
/** The stretch up to a click was not seen, or was. */
export function guessed(clicks: Clicks, step: Step, index: number, conjectured: boolean): Clicks {
  return { ...clicks, [step]: clicks[step].map((was, at) => (at === index ? { ...was, conjectured } : was)) };
}
export function removed(clicks: Clicks, step: Step, index: number): Clicks {
  return { ...clicks, [step]: clicks[step].filter((_, at) => at !== index) };
}

/** The index of the place nearest to `at`, none farther than `reach`; null where there is none. */
export function nearest(places: readonly Place[], at: Place, reach: number): number | null {
  let best: number | null = null;
  let least = reach;
  for (const [index, place] of places.entries()) {
    const off = Math.hypot(place.x - at.x, place.y - at.y);
    if (off <= least) [best, least] = [index, off];
  }
  return best;
}
/** The place of a line that is nearest to `at`: how far off, and where along the line, in its segments. */
function along(line: readonly Place[], at: Place): { off: number; way: number } {
  const best = { off: Infinity, way: 0 };
  for (const [index, b] of line.entries()) {
    const a = line[Math.max(0, index - 1)] as Place;
    const square = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
    const share = square === 0 ? 1 : Math.min(1, Math.max(0, ((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / square));
    const off = Math.hypot(a.x + share * (b.x - a.x) - at.x, a.y + share * (b.y - a.y) - at.y);
    if (off < best.off) Object.assign(best, { off, way: index - 1 + share });
  }
  return best;
}
/** Where among the clicks one on their line belongs; null where the line does not pass within `reach`. */
export function between(line: readonly Place[], clicks: readonly Place[], at: Place, reach: number): number | null {
  const { off, way } = along(line, at);
  if (off > reach) return null;
  const index = clicks.filter((click) => along(line, click).way < way).length;
  return index > 0 && index < clicks.length ? index : null;
}

/** Millimetres in a pixel by two clicks and the length between them; null where that cannot be said. */
export function mm_per_pixel(clicks: readonly Place[], length_mm: number): number | null {
  const [a, b] = clicks;
  if (!a || !b || !(length_mm > 0)) return null;
  const pixels = Math.hypot(b.x - a.x, b.y - a.y);
  return pixels >= 2 ? length_mm / pixels : null;
}

export interface OnVessel {
  r_mm: number;
  z_mm: number;
  conjectured?: boolean;
}

/** The axis: where the vessel stands on it, and which way is up along it, as a unit vector of the picture. */
export interface Axis {
  foot: Place;
  up: Place;
}
/** By one click the axis is upright; a second one, anywhere on it, tells how the page lies askew. */
export function axis_of(clicks: readonly Place[]): Axis | null {
  const [foot, other] = clicks;
  if (!foot) return null;
  const [x, y] = other ? [other.x - foot.x, other.y - foot.y] : [0, -1];
  const length = Math.hypot(x, y);
  if (length < 2 && other) return { foot, up: { x: 0, y: -1 } };
  const way = y > 0 ? -1 / length : 1 / length;
  return { foot, up: { x: way * x, y: way * y } };
}
/** Where only the rim's diameter is known: an axis beyond all lines, to be put right by that diameter. */
export function axis_beside(lines: Lines, right: boolean): Axis | null {
  const all = Object.values(lines).flat();
  if (all.length === 0) return null;
  const xs = all.map((p) => p.x);
  return { foot: { x: right ? Math.min(...xs) : Math.max(...xs), y: Math.max(...all.map((p) => p.y)) }, up: { x: 0, y: -1 } };
}

/** From pixels to the vessel: r from the axis outwards, whichever side of it the section lies on; z up from the base. */
export function on_vessel(points: readonly Place[], { foot, up }: Axis, mm: number, right: boolean): OnVessel[] {
  const way = right ? mm : -mm;
  return points.map((p) => ({
    r_mm: Math.max(0, way * ((p.x - foot.x) * -up.y + (p.y - foot.y) * up.x)),
    z_mm: mm * ((p.x - foot.x) * up.x + (p.y - foot.y) * up.y) + 0, // no -0
  }));
}

/** Which points of a line end a stretch that was not seen, by the clicks along it. */
export function unseen(line: readonly Place[], clicks: readonly Click[]): boolean[] {
  const ways = clicks.map((click) => along(line, click).way);
  return line.map((_, index) => clicks.some((click, at) => Boolean(click.conjectured) && at > 0 && (ways[at - 1] as number) < index - 0.5 && index - 0.5 < (ways[at] as number)));
}
/** A traced side as points of the vessel, thinned within `mm_off`, what was not seen apart from what was. */
export function outline_of(line: readonly Place[], clicks: readonly Click[], place: (points: readonly Place[]) => OnVessel[], mm_off: number): OnVessel[] {
  const not_seen = unseen(line, clicks);
  const points = place(line);
  const out = points.slice(0, 1);
  for (let from = 0; from + 1 < points.length; ) {
    const conjectured = not_seen[from + 1] ?? false;
    let to = from + 1;
    while (to + 1 < points.length && not_seen[to + 1] === conjectured) to += 1;
    for (const point of thinned(points.slice(from, to + 1), mm_off).slice(1)) out.push(conjectured ? { ...point, conjectured } : point);
    from = to;
  }
  return out;
}

/** Clicks hit axis and rim to a few pixels only: sides that begin within `mm_off` of the axis begin on it, and that end so near to each other in one point. */
export function closed<Sides extends Record<'outer' | 'inner', OnVessel[]>>(sides: Sides, mm_off: number): Sides {
  const to_axis = (line: OnVessel[]) => line.map((p, at) => (at === 0 && p.r_mm <= mm_off ? { ...p, r_mm: 0 } : p));
  const outer = to_axis(sides.outer);
  const top = outer.at(-1);
  const inner = to_axis(sides.inner).map((p, at, all) =>
    top && at === all.length - 1 && Math.hypot(p.r_mm - top.r_mm, p.z_mm - top.z_mm) <= mm_off ? { ...p, r_mm: top.r_mm, z_mm: top.z_mm } : p,
  );
  return { ...sides, outer, inner };
}

/** Fewer points that stay within `mm` of the line (Douglas & Peucker 1973, from memory). */
export function thinned(points: readonly OnVessel[], mm: number): OnVessel[] {
  if (points.length < 3) return [...points];
  const keep = new Set([0, points.length - 1]);
  const stack: [number, number][] = [[0, points.length - 1]];
  while (stack.length) {
    const [from, to] = stack.pop() as [number, number];
    const a = points[from] as OnVessel;
    const b = points[to] as OnVessel;
    const length = Math.hypot(b.r_mm - a.r_mm, b.z_mm - a.z_mm);
    let most = 0;
    let at = -1;
    for (let i = from + 1; i < to; i += 1) {
      const p = points[i] as OnVessel;
      const off =
        length < 1e-9
          ? Math.hypot(p.r_mm - a.r_mm, p.z_mm - a.z_mm)
          : Math.abs((b.r_mm - a.r_mm) * (a.z_mm - p.z_mm) - (a.r_mm - p.r_mm) * (b.z_mm - a.z_mm)) / length;
      if (off > most) [most, at] = [off, i];
    }
    if (most > mm && at > 0) {
      keep.add(at);
      stack.push([from, at], [at, to]);
    }
  }
  return [...keep].sort((a, b) => a - b).map((i) => points[i] as OnVessel);
}
