/** Places on a picture and what they are on the vessel. */
export interface Place {
  x: number;
  y: number;
}
export type Step = 'scale' | 'axis' | 'outer' | 'inner';
export const kSteps: readonly Step[] = ['scale', 'axis', 'outer', 'inner'];

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
}

/** From pixels to the vessel: r from the axis outwards, whichever side of it the section lies on; z up from the base. */
export function on_vessel(points: readonly Place[], axis: Place, mm: number, right: boolean): OnVessel[] {
  const way = right ? 1 : -1;
  return points.map((p) => ({ r_mm: Math.max(0, way * (p.x - axis.x) * mm), z_mm: (axis.y - p.y) * mm }));
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
