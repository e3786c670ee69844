// The room of the report on the demo site: its texts and works are the demo's own.
import type { Page } from '@playwright/test';
import { own_record } from './recording';
import { axe, expect, settled, test } from './watch';

const kAgainstProgram = Boolean(process.env.BASE_URL);
const kWork = '@book{peacock1982, author = {Peacock, D. P. S.}, title = {Pottery in the Roman World}, year = {1982}}';

async function open_room(page: Page, query = ''): Promise<void> {
  await page.goto(`/#/report${query}`);
  await expect(page.getByRole('heading', { name: 'Report', exact: true })).toBeVisible();
  await settled(page);
}

test('what is missing says where it is entered, and leads there', async ({ page }) => {
  await open_room(page, '?type=2');
  await expect(page.getByText(/that a report of this type should say/)).toBeVisible();
  await page.goto('/#/report?type=3&part=texts&slot=summary');
  await settled(page);
  await expect(page.getByLabel('Its name')).toHaveValue('summary');
  await expect(page.getByLabel('Where it stands')).toHaveValue('summary');
});

test('a text is written with its numbers of today beside it, and kept', async ({ page, context, baseURL }) => {
  await own_record(context, baseURL ?? 'http://localhost:4173');
  await open_room(page, '?part=texts');
  await page.getByRole('button', { name: 'Amend aims' }).click();
  const body = page.getByLabel('Text', { exact: true });
  await body.fill('There are {{total sherds}} sherds.');
  await expect(page.getByRole('region', { name: 'As it will stand' })).toContainText('There are 5,230 sherds.');
  await body.fill('There are {{total sherd}} sherds.');
  await expect(page.getByRole('alert').filter({ hasText: 'There is no field {{total sherd}}' })).toBeVisible();
  await body.fill('There are {{total sherds}} sherds.');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await expect(page.getByText('All is in the record')).toBeVisible();
  await expect(page.getByText('There are {{total sherds}} sherds.')).toBeVisible();
});

test('a field is put in where the cursor stands', async ({ page }) => {
  await open_room(page, '?part=texts&slot=summary');
  await page.getByLabel('Text', { exact: true }).fill('Of  sherds');
  await page.getByLabel('Text', { exact: true }).evaluate((area: HTMLTextAreaElement) => area.setSelectionRange(3, 3));
  await page.getByText('Fields that a text may hold').click();
  await page.getByRole('button', { name: 'put {{total sherds}} into the text' }).click();
  await expect(page.getByLabel('Text', { exact: true })).toHaveValue('Of {{total sherds}} sherds');
});

test('the report comes as a file in each format', async ({ page }) => {
  test.setTimeout(120_000); // pandoc and WeasyPrint take ten seconds each
  await open_room(page, '?type=3');
  for (const format of ['HTML', 'DOCX', 'PDF', 'XLSX']) {
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: format, exact: true }).click();
    expect((await download).suggestedFilename()).toBe(`report-3.${format.toLowerCase()}`);
  }
});

test('an issue lists what has changed since', async ({ page }) => {
  await open_room(page, '?part=issues');
  if (!kAgainstProgram) {
    await page.getByRole('button', { name: 'what has changed since draft-1' }).click();
    await expect(page.getByRole('row', { name: /Table 2 \(fabrics\)/ })).toContainText('352');
  }
  const name = kAgainstProgram ? `draft-${Date.now()}` : 'draft-2';
  await page.getByLabel('Name of the issue').fill(name);
  await page.getByRole('button', { name: 'Issue the report' }).click();
  await expect(page.getByText(`Issued as ${name}`)).toBeVisible();
  if (kAgainstProgram) {
    await page.getByRole('button', { name: `what has changed since ${name}` }).click();
    await expect(page.getByText(/^Every figure of .* is still what the record gives/)).toBeVisible();
  }
});

test('works are listed, and more are taken in from a file', async ({ page }) => {
  await open_room(page, '?part=works');
  await expect(page.getByRole('row', { name: /orton1993/ })).toContainText('Pottery in Archaeology');
  await page.getByLabel('Take works in').setInputFiles({ name: 'w.bib', mimeType: 'text/plain', buffer: Buffer.from(kWork) });
  await expect(page.getByText(/^(1 works? added, 0 changed, 0|0 works added, 0 changed, 1) as before\.$/)).toBeVisible();
});

test('tables and figures are listed by the names that texts use', async ({ page }) => {
  await open_room(page, '?part=contents&type=3');
  await expect(page.getByText('fabric_by_phase')).toBeVisible();
  await expect(page.getByRole('button', { name: /^CSV of Table/ }).first()).toBeVisible();
});

for (const part of ['', '?part=texts&slot=summary', '?part=works', '?part=contents&type=3', '?part=issues']) {
  test(`nothing in the room${part} is out of reach of those who cannot see or point`, async ({ page }) => {
    await open_room(page, part);
    expect(await axe(page)).toEqual([]);
  });
}
