/** Places on an axis of years. Years here are historical numbers; there is no year 0, which no mark on the page is fine enough to show. */

export interface Span {
  from: number;
  to: number;
}

const kSteps = [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000];

/** The span that holds all the years, widened to whole steps of the axis; null where there is no year. */
export function span_of(all: readonly (number | null)[], ticks: number): Span | null {
  const known = all.filter((one): one is number => one !== null);
  if (known.length === 0) return null;
  const least = Math.min(...known);
  const most = Math.max(...known);
  const step = step_of({ from: least, to: Math.max(most, least + 1) }, ticks);
  const from = Math.floor(least / step) * step;
  const to = Math.ceil(most / step) * step;
  return { from, to: to > from ? to : from + step };
}

/** The span that holds all the years with a little room to either side, so that as much as can be of an axis is theirs. */
export function close_span(all: readonly (number | null)[]): Span | null {
  const known = all.filter((one): one is number => one !== null);
  if (known.length === 0) return null;
  const least = Math.min(...known);
  const most = Math.max(...known);
  const room = Math.max(1, Math.round((most - least) / 50));
  return { from: least - room, to: most + room };
}

/** The smallest round step that leaves at most `ticks` of them in the span. */
export function step_of(span: Span, ticks: number): number {
  const width = span.to - span.from;
  return kSteps.find((step) => width / step <= ticks) ?? 5000;
}

export function ticks_of(span: Span, ticks: number): number[] {
  const step = step_of(span, ticks);
  const out: number[] = [];
  for (let at = Math.ceil(span.from / step) * step; at <= span.to; at += step) out.push(at);
  return out;
}

/** A year's place, 0..width; years outside are put at the ends. */
export function place(year: number, span: Span, width: number): number {
  const share = (year - span.from) / (span.to - span.from);
  return Math.round(Math.min(1, Math.max(0, share)) * width * 100) / 100;
}
