// Contrast as WCAG 2.2 defines it (W3C Recommendation, "relative luminance" and "contrast ratio"): text 4.5:1 (1.4.3),
// marks and borders of controls 3:1 (1.4.11).
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

type Rgb = [number, number, number];
const kSheet = readFileSync(new URL('./colours.css', import.meta.url), 'utf8');

function rgb(hex: string): Rgb {
  const part = (at: number) => parseInt(hex.slice(at, at + 2), 16);
  return [part(1), part(3), part(5)];
}
function mixed(a: Rgb, b: Rgb, share: number): Rgb {
  return a.map((value, at) => Math.round(share * value + (1 - share) * (b[at] as number))) as Rgb;
}
function luminance(colour: Rgb): number {
  const [r, g, b] = colour.map((value) => {
    const c = value / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as Rgb;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: Rgb, b: Rgb): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

const pairs = new Map(
  [...kSheet.matchAll(/--(\w+): light-dark\((#\w{6}), (#\w{6})\)/g)].map((found) => [
    found[1] as string,
    { light: rgb(found[2] as string), dark: rgb(found[3] as string) },
  ]),
);
function colour(name: string, shade: 'light' | 'dark'): Rgb {
  const pair = pairs.get(name);
  if (!pair) throw new Error(`colours.css has no --${name}`);
  return pair[shade];
}

describe('the measure itself', () => {
  test('white on black is 21 to 1 (WCAG 2.2, range of contrast ratios)', () => {
    expect(contrast(rgb('#ffffff'), rgb('#000000'))).toBeCloseTo(21, 10);
  });
  test('#767676 on white just passes and #777777 just fails 4.5 to 1 (from memory: a pair often quoted)', () => {
    expect(contrast(rgb('#767676'), rgb('#ffffff'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(rgb('#777777'), rgb('#ffffff'))).toBeLessThan(4.5);
  });
});

describe.each(['light', 'dark'] as const)('on the %s page', (shade) => {
  const at = (name: string) => colour(name, shade);
  test.each(['ground', 'paper'])('every ink is read on %s at 4.5 to 1', (ground) => {
    for (const ink of ['ink', 'quiet', 'action', 'warning', 'doubt', 'sound']) {
      expect(contrast(at(ink), at(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
  });
  test.each(['ground', 'paper'])('edges of controls are seen on %s at 3 to 1', (ground) => {
    expect(contrast(at('edge'), at(ground))).toBeGreaterThanOrEqual(3);
  });
  test('bars are seen at 3 to 1', () => {
    expect(contrast(mixed(at('action'), at('ground'), 0.6), at('ground'))).toBeGreaterThanOrEqual(3);
    expect(contrast(mixed(at('action'), at('paper'), 0.6), at('paper'))).toBeGreaterThanOrEqual(3);
  });
  test('ink is read on the darkest cell of a table at 4.5 to 1', () => {
    expect(contrast(at('ink'), mixed(at('action'), at('ground'), 0.41))).toBeGreaterThanOrEqual(4.5);
  });
});
