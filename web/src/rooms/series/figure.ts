/** Where the parts of the drawing stand: the probability over the years, its ranges, and a bar for each reason. */
import type { Bin, WhenReason } from '../../api';
import { place, span_of, type Span } from '../../lib/scale';

/** Years beyond the density in which ends of evidence are still shown, at least. */
const kAround = 20;

/** Years as whole numbers without a gap: 1 -> 1, -1 -> 0 (1 BC), -43 -> -42. */
export function on_line(year: number): number {
  return year > 0 ? year : year + 1;
}

type Ends = Pick<WhenReason, 'earliest' | 'latest'>;

/** The years to draw, historical: all of the density, and the ends of evidence that lie not far from it; null for none. */
export function span_to_draw(density: readonly Pick<Bin, 'from' | 'to'>[], reasons: readonly Ends[], ticks: number): Span | null {
  const first = density[0];
  const last = density[density.length - 1];
  const ends = reasons.flatMap((reason) => [reason.earliest, reason.latest]);
  if (!first || !last) return span_of(ends, ticks);
  const around = Math.max(kAround, last.to - first.from);
  const near = ends.filter((end) => end !== null && end >= first.from - around && end <= last.to + around);
  return span_of([first.from, last.to, ...near], ticks);
}

export class YearLine {
  constructor(
    readonly span: Span,
    readonly width: number,
  ) {}

  /** Where a year begins; an end beyond the axis is put at its end. */
  start(year: number): number {
    return place(on_line(year), { from: on_line(this.span.from), to: on_line(this.span.to) + 1 }, this.width);
  }
  end(year: number): number {
    return this.start(on_line(year) === 0 ? 1 : year + 1);
  }
}

export interface Bar {
  left: number;
  right: number;
  /** It goes on beyond the axis. */
  on_left: boolean;
  on_right: boolean;
}

const kShortest = 3;

/** A range on the axis; null ends, and those beyond the axis, go on. */
export function bar_of(range: Ends, line: YearLine): Bar {
  const on_left = range.earliest === null || range.earliest < line.span.from;
  const on_right = range.latest === null || range.latest > line.span.to;
  const left = range.earliest === null || on_left ? 0 : Math.min(line.start(range.earliest), line.width - kShortest);
  const right = range.latest === null || on_right ? line.width : line.end(range.latest);
  return { left, right: Math.min(line.width, Math.max(right, left + kShortest)), on_left, on_right };
}

export type Depth = 'core' | 'most' | 'rest';

export interface Area {
  depth: Depth;
  /** An SVG path, closed on the base line. */
  path: string;
}

/** The density as steps, in runs of the years within the range of 68 %, within that of 95 %, and of the others. */
export function areas(
  density: readonly Bin[],
  range68: readonly (readonly number[])[],
  range95: readonly (readonly number[])[],
  line: YearLine,
  height: number,
): Area[] {
  const most = Math.max(0, ...density.map((bin) => bin.value));
  if (most === 0) return [];
  const within = (year: number, ranges: readonly (readonly number[])[]) =>
    ranges.some((range) => year >= (range[0] as number) && year <= (range[1] as number));
  const depth_of = (year: number): Depth => (within(year, range68) ? 'core' : within(year, range95) ? 'most' : 'rest');
  const out: Area[] = [];
  let points: string[] = [];
  let depth: Depth | null = null;
  let left = 0;
  let right = 0;
  const close = () => {
    if (depth !== null) out.push({ depth, path: `M${left} ${height}${points.join('')}L${right} ${height}Z` });
    points = [];
  };
  for (const piece of density.flatMap((bin) => pieces(bin, [...range68, ...range95]))) {
    const its = depth_of(piece.from);
    if (its !== depth) {
      close();
      depth = its;
      left = line.start(piece.from);
    }
    const y = Math.round(100 * height * (1 - piece.value / most)) / 100;
    right = line.end(piece.to);
    points.push(`L${line.start(piece.from)} ${y}L${right} ${y}`);
  }
  close();
  return out;
}

/** A bin, cut where a range begins or ends within it. */
function pieces(bin: Bin, ranges: readonly (readonly number[])[]): Bin[] {
  const next = (year: number) => (year === -1 ? 1 : year + 1);
  const starts = new Set([bin.from]);
  for (const [from, to] of ranges as [number, number][]) {
    for (const start of [from, next(to)]) if (start > bin.from && start <= bin.to) starts.add(start);
  }
  const all = [...starts].sort((a, b) => a - b);
  return all.map((from, at) => {
    const following = all[at + 1];
    const to = following === undefined ? bin.to : following === 1 ? -1 : following - 1;
    return { from, to, value: bin.value };
  });
}
