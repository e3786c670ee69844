// The classes and colours of figures are settled by the program (data/figures/figure.css, made from its palette). The page
// gives each the same colour from its own list, so that a reader's light or dark page is the figure's too.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const read = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');
const kProgram = read('../../data/figures/figure.css');
const kPage = read('./figures.css');
const kColours = new Map([...read('./colours.css').matchAll(/--(\w+): light-dark\((#\w{6}), (#\w{6})\)/g)].map((one) => [one[1], { light: one[2], dark: one[3] }]));

function of_program(shade: 'light' | 'dark'): Map<string, [string, string]> {
  const part = kProgram.split(/@media screen and \(prefers-color-scheme: (?:light|dark)\) \{/)[shade === 'light' ? 1 : 2] ?? '';
  return new Map([...part.matchAll(/\.sherd-figure \.(f-[\w-]+) \{ (fill|stroke): (#\w{6}); \}/g)].map((one) => [one[1] as string, [one[2] as string, (one[3] as string).toLowerCase()]]));
}
const of_page = new Map(
  [...kPage.matchAll(/((?:\.sherd-figure \.f-[\w-]+(?:,\s*)?)+)\s*\{ (fill|stroke): var\(--(\w+)\); \}/g)].flatMap((one) =>
    [...(one[1] as string).matchAll(/\.(f-[\w-]+)/g)].map((name) => [name[1] as string, [one[2] as string, one[3] as string]] as const),
  ),
);

describe.each(['light', 'dark'] as const)('figures on the %s page', (shade) => {
  it.each([...of_program(shade)])('%s has the program’s colour', (name, [property, colour]) => {
    const [mine, variable] = of_page.get(name) ?? [];
    expect(mine, `figures.css has no ${name}`).toBe(property);
    expect(kColours.get(variable)?.[shade]).toBe(colour);
  });
});
