// A spreadsheet brought into the record on the page: looked at, put right, taken in, taken back.
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { axe, expect, settled, test } from './watch';

test.describe.configure({ mode: 'default', timeout: 60_000 });
test.use({ expected: /422|400|409/ }); // what the program refuses, the browser tells, too
test.skip(!process.env.BASE_URL, 'needs the program, which reads the table');

const guide = (name: string) => readFileSync(new URL(`../../docs/guide/files/${name}`, import.meta.url));

async function open_part(page: Page): Promise<void> {
  await page.goto('/#/site?part=bring-in');
  await expect(page.getByRole('heading', { name: 'Bring in a table' })).toBeVisible();
  await settled(page);
}
async function give(page: Page, name: string, text: string | Buffer): Promise<void> {
  await page.getByLabel('Table', { exact: true }).setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
}
const rows_are = (page: Page) => page.getByRole('combobox', { name: /^Its rows are/ });
const counts = (page: Page) => page.getByRole('status').filter({ hasText: /rows? read:/ });

test('an old spreadsheet comes in by its mapping, is told in full first, and is taken back', async ({ page }) => {
  await open_part(page);
  await give(page, 'old-finds.csv', guide('old-finds.csv'));
  await expect(rows_are(page)).toHaveValue('sherds');
  await expect(page.getByRole('alert')).toContainText(`The column "EVE" may hold vessels (0.14) or percent of the rim's circle (14)`);
  await expect(page.getByLabel('Nosh is taken for')).toHaveValue('count');

  await page.getByRole('combobox', { name: /^EVE is in/ }).selectOption('vessels');
  await expect(counts(page)).toContainText('5 rows read: 0 can come in, 5 cannot.');
  await expect(page.getByRole('row', { name: /^2 fabric GW Fabric "GW" is not in the store/ })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Bring in 0 rows' })).toBeDisabled();

  const of_sandy = page.getByLabel('SW is in the record');
  await of_sandy.fill('sandy-1');
  await of_sandy.press('Tab');
  await expect(page.getByRole('row', { name: /^4 fabric SW / })).toHaveCount(0);

  await page.getByText('The mapping, as text').click();
  await page.getByLabel('Read it from a file').setInputFiles({ name: 'old-finds.map.json', mimeType: 'application/json', buffer: guide('old-finds.map.json') });
  await page.getByLabel('Add codes and contexts that the record lacks').check();
  await expect(counts(page)).toContainText('5 rows read: 5 can come in. In the rows that can come in: 15 sherds, 169.60 g, 0.20 EVE.');
  await expect(page.getByRole('row', { name: 'fabrics unid 1' })).toBeVisible();
  await expect(page.getByText('Numbers were read with a decimal comma')).toBeVisible();
  expect(await axe(page)).toEqual([]);

  await page.getByRole('button', { name: 'Bring in 5 rows' }).click();
  await expect(page.getByText('5 rows of sherds came in.')).toBeVisible();
  await give(page, 'old-finds.csv', guide('old-finds.csv'));
  await page.getByRole('button', { name: /^Bring in/ }).click();
  await expect(page.getByRole('alert')).toContainText('This file came in before as sherds');
  await expect(page.getByLabel('This file came in before: read it once more')).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.getByText('All is in the record')).toBeVisible();
});

test('headings that nobody could know are said one by one, and a broken mapping is told', async ({ page }) => {
  await open_part(page);
  await give(page, 'Trench 4.csv', 'Ctx number;Ware;How many\n1013;grey-1;3\n1013;grey-1;x\n');
  await rows_are(page).selectOption('sherds');
  await expect(page.getByRole('alert')).toContainText('context');
  for (const [heading, column] of [['Ctx number', 'context'], ['Ware', 'fabric'], ['How many', 'count']] as const) {
    await page.getByLabel(`${heading} is taken for`).selectOption(column);
    await expect(page.getByLabel(`${heading} is taken for`)).toHaveValue(column);
  }
  await expect(counts(page)).toContainText('2 rows read: 1 can come in, 1 cannot.');
  await expect(page.getByRole('row', { name: /^3 count x / })).toBeVisible();
  await page.getByLabel('Let the good rows in').check();
  await expect(page.getByRole('button', { name: 'Bring in 1 row' })).toBeEnabled();
  await page.getByText('The mapping, as text').click();
  await page.getByRole('textbox', { name: 'The mapping, as text' }).fill('{"columns": ');
  await expect(page.getByText('This is not read as a mapping')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Bring in/ })).toHaveCount(0);
});

test('an instrument’s readings are asked for what their file leaves open', async ({ page }) => {
  await open_part(page);
  await give(page, 'readings 12 March.csv', 'sample,Fe,Fe err.\n1,3,0.2\n');
  await expect(rows_are(page)).toHaveValue('readings');
  await expect(page.getByRole('alert')).toBeVisible();
  await page.getByRole('combobox', { name: /^Unit where/ }).selectOption('percent');
  await page.getByRole('combobox', { name: /^Its errors are/ }).selectOption('2');
  await page.getByLabel('Put before each number').fill('12 March/');
  await expect(counts(page)).toContainText('1 row read: 1 can come in.');
});
