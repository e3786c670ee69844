// The Assemblage room's ways of comparing, on the demo site by phase and ware group: 8 phases, 6 ware groups, 5,173 sherds of
// lines that have both. Figures were read off the command line (`compare --how ...`), not off these pages.
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { kViews } from '../src/rooms/assemblage/part';
import { axe, expect, kPanel, settled, test } from './watch';

const kAgainstProgram = Boolean(process.env.BASE_URL);
const kMadeOf = '8 phases by 6 ware groups, 5,173 sherds.';

async function open_view(page: Page, query: string): Promise<void> {
  await page.goto(`/#/assemblage?${query}`);
  await expect(page.getByRole('heading', { level: 1, name: 'Assemblage' })).toBeVisible();
  await settled(page);
}
const figure = (page: Page) => page.locator('svg.sherd-figure');
const mark = (page: Page, name: RegExp) => figure(page).getByRole('button', { name });

test('the room leads from question to question, each at its own address', async ({ page }) => {
  await open_view(page, 'by=fabric');
  await page.getByRole('navigation', { name: 'Questions' }).getByRole('link', { name: 'How alike' }).click();
  await expect(page.getByRole('heading', { name: 'Which of them have the same shares?' })).toBeVisible();
  await expect(page).toHaveURL(/how=similarity/);
  await page.getByRole('navigation', { name: 'Ways of looking' }).getByRole('link', { name: 'Ordination' }).click();
  await expect(page.getByText(kMadeOf, { exact: true })).toBeVisible();
  await page.goBack();
  await expect(page.getByRole('link', { name: 'Similarity' })).toHaveAttribute('aria-current', 'page');
});

test('ordination stands as map and tables together, with its caution and what was left out', async ({ page }) => {
  await open_view(page, 'how=ordination');
  await expect(page.getByText(kMadeOf, { exact: true })).toBeVisible();
  await expect(page.getByText(/Bear in mind\. The axes show what differs, not why/)).toBeVisible();
  await expect(page.getByText('Left out: 42 lines without phase or ware group.')).toBeVisible();
  await expect(figure(page)).toBeVisible();
  await expect(page.getByText('9,211.4 on 35 df')).toBeVisible();
  const axes = page.getByRole('table').filter({ has: page.getByRole('columnheader', { name: 'Eigenvalue' }) });
  await expect(axes.getByRole('row').nth(1)).toContainText('0.8428');
});

test('a point, a row and a cell open their lines', async ({ page }) => {
  await open_view(page, 'how=ordination');
  const panel = page.locator(kPanel);
  await mark(page, /^A2/).focus();
  await page.keyboard.press('Enter');
  await expect(panel.getByRole('heading', { name: 'Phase A2' })).toBeVisible();
  await expect(panel.getByText(/lines, 71 sherds/)).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(mark(page, /^A2/)).toBeFocused();
  await page.getByRole('rowheader', { name: 'A2' }).getByRole('button').click();
  await expect(panel.getByText(/lines, 71 sherds/)).toBeVisible();
  await open_view(page, 'how=difference');
  await page.getByRole('table').filter({ hasText: 'Adjusted residuals' }).getByRole('button', { name: '+18.9', exact: true }).click();
  await expect(panel.getByRole('heading', { name: 'Phase A2, ware group early medieval' })).toBeVisible();
  await expect(panel.getByText(/lines, 31 sherds/)).toBeVisible();
});

test('the marks of a figure are one stop for the tab key, walked by the arrows', async ({ page }) => {
  await open_view(page, 'how=order');
  await expect(figure(page).locator('[tabindex="0"]')).toHaveCount(1);
  const first = figure(page).locator('[data-set]').first();
  await first.focus();
  await page.keyboard.press('ArrowDown');
  const next = figure(page).locator('[data-set]:focus');
  await expect(next).toHaveCount(1);
  await expect(first).not.toBeFocused();
  await page.keyboard.press('ArrowUp');
  await expect(figure(page).locator('[data-set]:focus')).toHaveCount(1);
});

test('rows and columns are turned round, and the view is found again after a reload', async ({ page }) => {
  await open_view(page, 'how=ordination');
  await expect(page.getByText(kMadeOf, { exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Turn round' }).click();
  await expect(page.getByText('6 ware groups by 8 phases, 5,173 sherds.', { exact: true })).toBeVisible();
  await page.reload();
  await expect(page.getByText('6 ware groups by 8 phases, 5,173 sherds.', { exact: true })).toBeVisible();
  await expect(page.getByLabel('Compare')).toHaveValue('fabric.ware_group');
});

test('doubtful and unchecked lines are left out on asking, and it is said how many', async ({ page }) => {
  await open_view(page, 'how=ordination');
  await page.getByLabel('doubtful identifications').uncheck();
  await settled(page);
  await page.getByLabel('unchecked lines').uncheck();
  await expect(page.getByText(/^Left out: .*\d+ unchecked lines/)).toBeVisible();
  await expect(page).toHaveURL(/doubtful=out&unchecked=out/);
  await mark(page, /^A3/).focus();
  await page.keyboard.press('Enter');
  const panel = page.locator(kPanel);
  await expect(panel.getByRole('heading', { name: 'Phase A3' })).toBeVisible();
});

test('settings are part of the address, and types are counted as one where that is offered', async ({ page }) => {
  await open_view(page, 'how=clusters');
  await page.locator('summary', { hasText: 'Settings' }).click();
  await page.getByLabel('Join by').selectOption('ward');
  await page.getByLabel('Clusters', { exact: true }).fill('3');
  await page.getByLabel('Clusters', { exact: true }).press('Enter');
  await expect(page).toHaveURL(/linkage=ward/);
  await expect(page).toHaveURL(/cut=3/);
  await expect(page.getByText('Cut into 3 clusters.', { exact: false })).toBeVisible();
  await open_view(page, 'how=difference');
  await page.getByRole('button', { name: 'Count these as one' }).click();
  await expect(page.getByText('8 phases by 5 ware groups, 5,173 sherds.', { exact: true })).toBeVisible();
  await expect(page.getByRole('button', { name: /^early medieval\+factory-made\s?: take away/ })).toBeVisible();
});

test.describe('what cannot be', () => {
  test.use({ expected: /the server responded with a status of 422/ });
  test('a measure that the method refuses is told in words, with the way out', async ({ page }) => {
    await open_view(page, 'how=difference&measure=weight');
    const alert = page.getByRole('alert');
    await expect(alert).toContainText(/weight/i);
    await page.getByLabel('EVE').check();
    await expect(alert).toHaveCount(0);
    await expect(page.getByRole('heading', { name: 'Where it lies' })).toBeVisible();
  });

  test('where nothing is left to compare, it says so and does not fail', async ({ page }) => {
    await open_view(page, 'how=order&where=context.phase%3Dnowhere');
    await expect(page.getByRole('alert')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Take away phase nowhere' })).toBeVisible();
  });
});

test('four measures stand side by side, with why they differ', async ({ page }) => {
  await open_view(page, 'how=measures');
  const row = page.getByRole('row', { name: /^factory-made/ });
  await expect(row).toContainText('Light sherds (9.3 g, all 16.4 g): less by weight than by sherds.');
  await row.getByRole('button', { name: /^11\.0/ }).click();
  await expect(page.locator(kPanel).getByRole('heading', { name: 'Ware group factory-made' })).toBeVisible();
});

test('tables and picture are saved as files', async ({ page }) => {
  await open_view(page, 'how=ordination');
  for (const [button, ending] of kAgainstProgram
    ? [['CSV', 'csv'], ['XLSX', 'xlsx'], ['SVG', 'svg'], ['PDF', 'pdf'], ['PNG', 'png']]
    : [['CSV', 'csv'], ['SVG', 'svg']]) {
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button, exact: true }).click()]);
    expect(file.suggestedFilename()).toBe(ending === 'csv' || ending === 'xlsx' ? `ordination.${ending}` : `ordination-map.${ending}`);
    const bytes = readFileSync((await file.path()) ?? '');
    const start = { csv: /^/, xlsx: /^PK/, svg: /<svg/, pdf: /^%PDF-/, png: /^.PNG/s }[ending as 'csv'];
    expect(bytes.subarray(0, 200).toString('latin1')).toMatch(start);
    expect(bytes.length).toBeGreaterThan(200);
  }
});

for (const shade of ['light', 'dark'] as const) {
  for (const width of [360, 768, 1400, 2560]) {
    test.describe(`${shade}, ${width} px`, () => {
      test.use({ colorScheme: shade, viewport: { width, height: 900 }, contextOptions: { reducedMotion: 'reduce' } });
      test('every view is clear to axe-core and stays within the window', async ({ page }) => {
        test.setTimeout(120_000);
        for (const view of kViews) {
          await open_view(page, `how=${view}`);
          if (view !== 'published' && view !== 'distance') await expect(page.getByRole('table').first()).toBeVisible();
          expect(await axe(page), view).toEqual([]);
          const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
          expect(over, view).toBeLessThanOrEqual(0);
        }
      });
    });
  }
}

test.describe('long work', () => {
  test.skip(kAgainstProgram, 'the record of the demo is compared at once');
  test.use({ baseURL: 'http://127.0.0.1:4174' });
  test('tells how far it is and is stopped', async ({ page }) => {
    await page.goto('/#/assemblage?how=similarity');
    await expect(page.getByText(/^Comparing: \d+ %/)).toBeVisible();
    await page.getByRole('button', { name: 'Stop' }).click();
    const stopped = page.getByRole('alert').filter({ hasText: 'Stopped before it was done.' });
    await expect(stopped).toBeVisible();
    await expect(stopped.getByRole('button', { name: 'Try again' })).toBeVisible();
  });
});

test.describe('with the program', () => {
  test.skip(!kAgainstProgram, 'needs the program');
  test.describe.configure({ mode: 'serial' });

  test('what another site published is kept, compared, and opens nothing that is not there', async ({ page }) => {
    await open_view(page, 'how=published');
    const table = 'assemblage,measure,source,field,code,amount\nTest Pit 9,count,a table of this test,fabric.ware_group,Roman,40\nTest Pit 9,count,a table of this test,fabric.ware_group,medieval,60';
    await page.getByLabel('Table', { exact: true }).fill(table);
    await page.getByRole('button', { name: 'Add these' }).click();
    await expect(page.getByRole('rowheader', { name: 'Test Pit 9' })).toBeVisible();
    await open_view(page, 'how=similarity&with=Test+Pit+9');
    await expect(page.getByText('9 phases by 6 ware groups', { exact: false }).first()).toBeVisible();
    const square = page.getByRole('table').filter({ hasText: 'Similarity of each phase to each' });
    await expect(square.getByRole('rowheader', { name: 'Test Pit 9' })).toBeVisible();
    await expect(square.getByRole('rowheader', { name: 'Test Pit 9' }).getByRole('button')).toHaveCount(0);
    await open_view(page, 'how=published');
    await page.getByRole('button', { name: 'Take out Test Pit 9' }).click();
    await expect(page.getByRole('rowheader', { name: 'Test Pit 9' })).toHaveCount(0);
  });

  test('the lines that a cell opens are those that were counted', async ({ page }) => {
    await open_view(page, 'how=difference&unchecked=out&doubtful=out&where=part%21%3Dbase');
    const square = page.getByRole('table').filter({ hasText: 'Adjusted residuals' });
    const cell = square.getByRole('row', { name: /^A5/ }).getByRole('cell').nth(1);
    const counted = (await cell.locator('.note').textContent()) ?? '';
    await cell.getByRole('button').click();
    await expect(page.locator(kPanel).getByText(new RegExp(`lines?, ${counted} sherds`))).toBeVisible();
  });

  test('a ware that thins out with distance is read from a table of places', async ({ page }) => {
    await open_view(page, 'how=distance');
    // Amounts that halve every ten: 64, 32, 16 ... at 0, 10, 20 ...
    const places = [0, 1, 2, 3, 4, 5].map((at) => `Place ${at},${64 / 2 ** at},${10 * at + 0.001}`).join('\n');
    await page.getByLabel(/With commas or tabs/).fill(`place,amount,distance\n${places}`);
    await page.getByRole('button', { name: 'Use this table' }).click();
    const curves = page.getByRole('table').filter({ hasText: 'Half distance' });
    await expect(curves.getByRole('row', { name: /exponential/ })).toContainText('10.0');
    await expect(figure(page)).toBeVisible();
  });

  test('a plain table is compared in place of the record', async ({ page }) => {
    await open_view(page, 'how=similarity');
    await page.locator('summary', { hasText: 'A table of its own' }).click();
    // By hand: 200 - |50 - 20| - |50 - 80| = 140.
    await page.getByLabel(/With commas or tabs/).fill('pit,grey,red\nOne,5,5\nTwo,2,8');
    await page.getByRole('button', { name: 'Use this table' }).click();
    await expect(page.getByText('2 rows by 2 columns', { exact: false }).first()).toBeVisible();
    await expect(page.getByRole('row', { name: /^One Two/ })).toContainText('140.0');
    await page.getByRole('button', { name: 'Back to the record' }).click();
    await expect(page.getByText(kMadeOf, { exact: true })).toBeVisible();
  });
});
