// The Site room's sheet, bags, contexts, progress and people, on the program itself with the demo site.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { all_saved, Bench, kHasProgram, with_pages } from './recording';
import { axe, expect, settled, test } from './watch';

/** A finds list: one bag as it should be, one to receive, one too heavy for its lines, one missing, one empty. */
const kBags = `bag,context,box,material,count,weight_g,received,cleaning,marking
1,1001,1,pottery,,,received,washed,marked
20,1011,8,pottery,1,50,expected,,
21,1011,8,pottery,,100000,received,washed,unmarked
990,1002,1,pottery,12,,missing,,
991,1003,2,pottery,,,empty,,
`;

let bench: Bench;
let cookies: { name: string; value: string; domain: string; path: string }[] = [];
test.skip(!kHasProgram, 'needs the built program');
test.describe.configure({ mode: 'default' });

test.beforeAll(async () => {
  bench = new Bench();
  writeFileSync(join(bench.folder, 'bags.csv'), kBags);
  bench.run('import', bench.store, 'bags.csv', '--as', 'bags');
  await bench.serve();
  cookies = [];
});
test.afterAll(async () => {
  await bench.end();
});
test.beforeEach(async ({ page, context }) => {
  await with_pages(context);
  if (cookies.length > 0) return context.addCookies(cookies);
  await page.goto(bench.url);
  cookies = (await context.cookies()).map(({ name, value, domain, path }) => ({ name, value, domain, path }));
});

async function open(page: Page, part: string): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${bench.origin}/#/site?part=${part}`);
  await expect(page.getByRole('heading', { name: 'Tanyard Lane, Sallowhythe' })).toBeVisible();
  await settled(page);
}
const row_of = (kind: string, where: string) => bench.rows(kind, where)[0];

test.describe('the project sheet', () => {
  test.use({ expected: /400 \(Bad Request\)/ });
  test('is changed in its place, and a value that cannot be stays as it was typed', async ({ page }) => {
    await page.goto('about:blank');
    await page.goto(`${bench.origin}/#/site`);
    await page.getByRole('link', { name: 'Project sheet' }).click();
    await page.getByLabel('How deep it records').selectOption('detailed');
    await page.getByLabel('Repository').fill('Sallowhythe Museum');
    await page.keyboard.press('Tab');
    await page.getByLabel('Crumbs, weight only, below, mm').fill('1 cm');
    await page.keyboard.press('Tab');
    await page.getByLabel('A box holds at most, g').fill('heavy');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('alert')).toContainText('heavy');
    await expect(page.getByLabel('A box holds at most, g')).toHaveValue('heavy');
    await page.getByLabel('A box holds at most, g').fill('9 kg');
    await page.keyboard.press('Tab');
    await all_saved(page);
    await expect.poll(() => row_of('sheet', 'code=SAL26')).toMatchObject({ level: 'detailed', repository: 'Sallowhythe Museum', crumbs_below_mm: '10', box_limit_g: '9000' });
  });
});

test.describe('boxes and bags', () => {
  test('stand against the finds list, and are received by one press', async ({ page }) => {
    await open(page, 'bags');
    await page.getByRole('button', { name: /^differ from the list/ }).click();
    const bags = page.getByRole('region', { name: 'Bags', exact: true });
    await expect(bags.getByRole('row', { name: /^20 / })).toContainText('count: 1 listed');
    await expect(bags.getByRole('row', { name: /^21 / })).toContainText('weight: 100.0 kg listed');
    await page.getByRole('button', { name: /^to receive/ }).click();
    await page.getByRole('button', { name: 'Mark 1 bag as received' }).click();
    await expect(page.getByRole('button', { name: 'to receive 0' })).toBeVisible();
    await all_saved(page);
    expect(row_of('bags', 'bag=20')).toMatchObject({ received: 'received' });
    await expect(page).toHaveURL(/bags=open/);
  });

  test('are cleaned and marked in their place', async ({ page }) => {
    await open(page, 'bags');
    await page.getByRole('button', { name: 'amend 20' }).click();
    await page.locator('tr.sheet').getByLabel('Cleaning').selectOption('brushed');
    await page.locator('tr.sheet').getByLabel('Marking').selectOption('not_to_mark');
    await all_saved(page);
    expect(row_of('bags', 'bag=20')).toMatchObject({ cleaning: 'brushed', marking: 'not_to_mark' });
  });

  test('that only lines name are put on the list', async ({ page }) => {
    await open(page, 'bags');
    await page.getByRole('button', { name: /^not on the list/ }).click();
    await page.getByRole('button', { name: /^Put it on the list ?: 3$/ }).click();
    await all_saved(page);
    await expect.poll(() => row_of('bags', 'bag=3')?.box).toBe('1');
  });
});

test.describe('contexts and phases', () => {
  test.use({ expected: /400 \(Bad Request\)/ });
  test('are amended by keys alone; an unknown phase is refused with the one that is meant', async ({ page }) => {
    await open(page, 'contexts');
    await page.getByLabel('Find', { exact: true }).fill('Turf and topsoil');
    await page.getByRole('button', { name: 'amend 1001' }).focus();
    await page.keyboard.press('Enter');
    await page.getByLabel('Phase', { exact: true }).last().focus();
    await page.keyboard.type('A55');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('alert')).toContainText('did you mean "A5"');
    await page.getByLabel('Phase', { exact: true }).last().focus();
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type('A5');
    await page.keyboard.press('Tab');
    await page.getByLabel('Sieved, litres').focus();
    await page.keyboard.type('12+8');
    await page.keyboard.press('Tab');
    await all_saved(page);
    expect(row_of('contexts', 'context=1001')).toMatchObject({ phase: 'A5', sieved_litres: '20' });
  });

  test('a phase is added and removed again; one that contexts name is not removed', async ({ page }) => {
    await open(page, 'contexts');
    await page.getByText('Add a phase').click();
    const form = page.locator('form').first();
    await form.getByLabel('Phase').fill('A1');
    await form.getByRole('button', { name: 'Add' }).click();
    await expect(page.getByText('There is a phase A1 already.')).toBeVisible();
    await form.getByLabel('Phase').fill('C1');
    await form.getByLabel('Title').fill('Foreshore');
    await form.getByRole('button', { name: 'Add' }).click();
    await expect(page.getByRole('rowheader', { name: 'C1' })).toBeVisible();
    await all_saved(page);
    expect(row_of('phases', 'phase=C1')).toMatchObject({ title: 'Foreshore' });
    await page.getByRole('button', { name: 'amend C1' }).click();
    await page.getByRole('button', { name: 'Remove phase C1' }).click();
    await expect(page.getByRole('rowheader', { name: 'C1' })).toHaveCount(0);
    await page.getByRole('button', { name: 'amend A1' }).click();
    await page.getByRole('button', { name: 'Remove phase A1' }).click();
    await expect(page.getByText(/Not done: phase A1 removed|phase A1.*context/i).first()).toBeVisible();
    await expect(page.getByRole('rowheader', { name: 'A1' })).toBeVisible();
  });
});

test('people are named, and progress is told by sherds, weight and contexts', async ({ page }) => {
  await open(page, 'people');
  await expect(page.getByText('Nobody is named yet')).toBeVisible();
  await page.getByText('Add a person').click();
  await page.getByLabel('Initials').fill('EP');
  await page.getByLabel('Role').fill('pottery specialist');
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(page.getByRole('rowheader', { name: 'EP' })).toBeVisible();
  await all_saved(page);
  await open(page, 'progress');
  await expect(page.getByText('5,230 of', { exact: false })).toBeVisible();
  await expect(page.getByText('Contexts done', { exact: true })).toBeVisible();
  await expect(page.getByRole('row', { name: /^A, A1/ })).toBeVisible();
});

test('a finding leads to its line in the Recording room', async ({ page }) => {
  await page.goto('about:blank');
  await page.goto(`${bench.origin}/#/site`);
  await page.getByRole('link', { name: /^in the Recording room ?: record 10302/ }).click();
  await expect(page).toHaveURL(/recording/);
  await expect(page.getByRole('heading', { name: 'Context 1015' })).toBeVisible();
});

for (const part of ['sheet', 'bags', 'contexts', 'progress', 'people']) {
  for (const scheme of ['light', 'dark'] as const) {
    test(`${part}: axe-core finds nothing, ${scheme}, and no page is wider than its window`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: scheme });
      await open(page, part);
      if (part === 'contexts') await page.getByRole('button', { name: 'amend 1001' }).click();
      await settled(page);
      expect(await axe(page)).toEqual([]);
      for (const width of [360, 768, 1400, 2560]) {
        await page.setViewportSize({ width, height: 900 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `at ${width}`).toBeLessThanOrEqual(0);
      }
    });
  }
}
