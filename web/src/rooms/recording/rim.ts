/** A rim's diameter from a piece of it, and the chart on which it is laid. */

export interface RimSize {
  diameter_mm: number;
  low95_mm: number;
  high95_mm: number;
  /** Of the circle, the part between the chord's ends. */
  percent: number;
}

/**
 * The circle through the ends of a chord and the top of its sagitta: diameter = c^2 / (4 s) + s. Both were read to
 * `reading_mm` (a standard error), which goes through the formula's slopes: dD/dc = c / (2 s), dD/ds = 1 - c^2 / (4 s^2).
 * null where s is not above 0 or the chord is not longer than 0. Intersecting chords: Euclid, Elements, book 3, proposition 35.
 */
export function rim_of(chord_mm: number, sagitta_mm: number, reading_mm: number): RimSize | null {
  if (!(chord_mm > 0) || !(sagitta_mm > 0)) return null;
  const diameter = chord_mm ** 2 / (4 * sagitta_mm) + sagitta_mm;
  const by_chord = chord_mm / (2 * sagitta_mm);
  const by_sagitta = 1 - chord_mm ** 2 / (4 * sagitta_mm ** 2);
  const error = reading_mm * Math.hypot(by_chord, by_sagitta);
  const half = Math.asin(Math.min(1, chord_mm / diameter));
  const angle = sagitta_mm > diameter / 2 ? 2 * (Math.PI - half) : 2 * half;
  return {
    diameter_mm: diameter,
    low95_mm: Math.max(chord_mm, diameter - 1.96 * error),
    high95_mm: diameter + 1.96 * error,
    percent: (100 * angle) / (2 * Math.PI),
  };
}

/** ISO/IEC 7810, size ID-1: bank cards, and many others. */
export const kCard = { width_mm: 85.6, height_mm: 53.98 };
/** CSS takes 96 pixels for an inch, which a screen seldom is. */
export const kCssPixels = 96 / 25.4;

export interface Chart {
  /** Diameters of the arcs. */
  diameters: number[];
  /** Shares of the circle, from 0 at the right to 25 straight up. */
  shares: number[];
  largest: number;
}

/** A quarter of the circle, up to the widest that the paper or the screen holds. */
export function chart_of(largest_mm: number): Chart {
  const diameters: number[] = [];
  for (let diameter = 20; diameter <= largest_mm; diameter += 20) diameters.push(diameter);
  return { diameters, shares: [2.5, 5, 7.5, 10, 12.5, 15, 17.5, 20, 22.5, 25], largest: diameters[diameters.length - 1] ?? 20 };
}

/** Where a share of a circle ends: x to the right, y up, from the centre. */
export function at_share(diameter_mm: number, percent: number): [number, number] {
  const angle = (2 * Math.PI * percent) / 100;
  return [(diameter_mm / 2) * Math.cos(angle), (diameter_mm / 2) * Math.sin(angle)];
}
