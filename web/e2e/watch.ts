import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test as base, type Page } from '@playwright/test';

const kAxe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * Every test fails on an error in the browser's console (the content security policy reports there) or in the page, but
 * for those that it announces in `expected`: the browser tells them when it likes, also after the test has seen their effect.
 */
export const test = base.extend<{ expected: RegExp | null; complaints: string[] }>({
  expected: [null, { option: true }],
  complaints: [
    async ({ page, expected }, use) => {
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(String(error)));
      await use(complaints);
      expect(complaints.filter((text) => !expected?.test(text))).toEqual([]);
    },
    { auto: true },
  ],
});
export { expect };

interface AxeResult {
  violations: { id: string; help: string; nodes: { html: string; failureSummary: string }[] }[];
  passes: unknown[];
}

/** What axe-core finds against WCAG 2.2 A and AA and its own good practice, as lines to read. */
export async function axe(page: Page): Promise<string[]> {
  await page.evaluate(kAxe);
  // The head of the page stays where it is: wherever the page is scrolled to, something lies half beneath it.
  await page.evaluate(() => scrollTo(0, 0));
  const result = await page.evaluate(async () => {
    const axe_core = (globalThis as unknown as { axe: { run(context: unknown, options: unknown): Promise<unknown> } }).axe;
    return (await axe_core.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    })) as AxeResult;
  });
  expect(result.passes.length, 'rules that axe-core could apply').toBeGreaterThan(10);
  return result.violations.flatMap((found) =>
    found.nodes.map((node) => `${found.id}: ${found.help}\n  ${node.html.slice(0, 200)}\n  ${node.failureSummary}`),
  );
}

/** Waits until no part of the page is still being read, and the fonts are there. */
export async function settled(page: Page): Promise<void> {
  await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
  await page.evaluate(() => document.fonts.ready);
}

/** Waits until the Site room holds all its answers. */
export async function open_site(page: Page): Promise<void> {
  await page.goto('/#/site');
  await expect(page.getByRole('heading', { name: 'Contexts' })).toBeVisible();
  await expect(page.getByRole('button', { name: '1013 why these dates' })).toBeVisible();
  await expect(page.getByText('2 errors')).toBeVisible();
  await expect(page.getByRole('button', { name: /sherds of phase/ })).toHaveCount(8);
  await settled(page);
}

export async function open_assemblage(page: Page, query = 'by=fabric'): Promise<void> {
  await page.goto(`/#/assemblage?${query}`);
  await expect(page.getByRole('heading', { name: 'Assemblage' })).toBeVisible();
  await expect(page.getByRole('rowheader', { name: 'all' })).toBeVisible();
  await settled(page);
}

/** The Series room at an address of its own: what is seen, and whatever else stands in its query. */
export async function open_series(page: Page, seen: string[] = [], more: Record<string, string> = {}): Promise<void> {
  const query = new URLSearchParams([['part', 'piece'], ...seen.map((one) => ['seen', one]), ...Object.entries(more)]);
  await page.goto(`/#/series?${query}`);
  await expect(page.getByRole('heading', { name: 'Series', exact: true })).toBeVisible();
  await expect(page.getByText(/^\d+ of \d+ rows$|^No row holds this/)).toBeVisible();
  await settled(page);
}

/** Waits until the panel shows all of a context: its own lines, and what only the program's answer about it says. */
export async function context_read(page: Page): Promise<void> {
  const panel = page.locator(kPanel);
  await expect(panel.getByText('Mean date')).toBeVisible();
  await expect(panel.getByRole('row').nth(1)).toBeVisible();
  await settled(page);
}

export const kPanel = 'aside';
