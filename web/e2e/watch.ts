import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test as base, type Page } from '@playwright/test';

const kAxe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Every test fails on an error in the browser's console (the content security policy reports there) or in the page. */
export const test = base.extend<{ complaints: string[] }>({
  complaints: [
    async ({ page }, use) => {
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(String(error)));
      await use(complaints);
      expect(complaints).toEqual([]);
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

/** Waits until the Site room holds all its answers. */
export async function open_site(page: Page): Promise<void> {
  await page.goto('/#/site');
  await expect(page.getByRole('heading', { name: 'Contexts' })).toBeVisible();
  await expect(page.getByRole('button', { name: '1013 why these dates' })).toBeVisible();
  await expect(page.getByText('2 errors')).toBeVisible();
}

export async function open_assemblage(page: Page, query = 'by=fabric'): Promise<void> {
  await page.goto(`/#/assemblage?${query}`);
  await expect(page.getByRole('heading', { name: 'Assemblage' })).toBeVisible();
  await expect(page.getByRole('rowheader', { name: 'all' })).toBeVisible();
}

export const kPanel = 'aside';
