// The Chemistry room on the demo site: 252 readings of 105 samples and six house standards, an instrument whose iron falls along
// the run, three kilns. Figures were read off the command line (`chemistry --how ...`), not off these pages.
import { readFileSync } from 'node:fs';
import type { Locator, Page } from '@playwright/test';
import { axe, expect, kPanel, settled, test } from './watch';

async function open_room(page: Page, query = ''): Promise<void> {
  await page.goto(`/#/chemistry${query}`);
  await expect(page.getByRole('heading', { level: 1, name: 'Chemistry' })).toBeVisible();
  await expect(page.getByText('105 samples, means of 210 readings', { exact: false })).toBeVisible();
  await settled(page);
}
/** The first figure of the room: that of the compositions. */
const composed = (page: Page): Locator => page.locator('figure').first();

test('what an instrument may be used for is said element by element, with the reason', async ({ page }) => {
  await open_room(page);
  const table = page.getByRole('table').filter({ has: page.getByRole('columnheader', { name: 'May be used' }) });
  await expect(table.getByRole('row', { name: /^Si leave out/ })).toContainText('the check standard is off by +237.8 %');
  await expect(table.getByRole('row', { name: /^K use/ })).toContainText('nothing speaks against it');
  await expect(page.getByText('An X-ray instrument is used under the local rules', { exact: false })).toHaveCount(1);
});

test('every point of the plot opens its readings and its sherd', async ({ page }) => {
  await open_room(page);
  const marks = composed(page).locator('svg [data-set^="sample="]');
  await expect(marks).toHaveCount(105);
  await expect(composed(page).locator('svg [data-set]:not([data-set^="sample="])')).toHaveCount(0);
  await composed(page).locator('[data-set^="sample=t-4&"]').focus();
  await page.keyboard.press('Enter');
  const panel = page.locator(kPanel);
  await expect(panel.getByRole('heading', { name: 'Sample t-4' })).toBeVisible();
  await expect(panel.getByText('2 readings')).toBeVisible();
  await expect(panel.getByRole('rowheader', { name: /^Fe/ })).toBeVisible();
  await expect(panel.getByRole('heading', { name: 'Record 10498' })).toBeVisible();
  await expect(panel.getByText('sandy-2').first()).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(composed(page).locator('[data-set^="sample=t-4&"]')).toBeFocused();
});

test('each sample has its probability in every group, and none is an answer', async ({ page }) => {
  await open_room(page, '?how=membership');
  await expect(page.getByRole('columnheader', { name: 'Probability in each group' })).toBeVisible();
  const row = page.getByRole('row', { name: /^bw-1 / });
  await expect(row).toContainText('brook-clay 0.736');
  await expect(row).toContainText('its own group alone');
});

test('the view is its address, and is found again after a reload', async ({ page }) => {
  await open_room(page);
  await page.getByLabel('Scale').selectOption('clr');
  await expect(page).toHaveURL(/transform=clr/);
  await settled(page);
  await page.reload();
  await expect(page.getByLabel('Scale')).toHaveValue('clr');
  await open_room(page, '?how=origin');
  await expect(page.getByRole('columnheader', { name: 'Rejected' })).toBeVisible();
});

test('the chart of the check standard shows the element that moves most, and each reading opens', async ({ page }) => {
  await open_room(page);
  const chart = page.getByRole('figure').filter({ hasText: 'Fe of check-brick along the run' });
  await expect(chart.locator('[data-set^="reading="]')).toHaveCount(24);
  await expect(chart.getByText('Along the run it falls by 6.6 %', { exact: false })).toBeAttached();
  await chart.locator('[data-set="reading=1"]').focus();
  await page.keyboard.press('Enter');
  await expect(page.locator(kPanel).getByRole('heading', { name: 'Reading 1' })).toBeVisible();
  await expect(page.locator(kPanel).getByText('1 reading', { exact: true })).toBeVisible();
});

test('the line of an element is drawn through its standards, each of which opens', async ({ page }) => {
  await open_room(page);
  const line = page.getByRole('figure').filter({ hasText: 'Calibration of Al' });
  await expect(line.locator('[data-set^="standard="]')).toHaveCount(6);
  await line.locator('[data-set="standard=brick-6"]').focus();
  await page.keyboard.press('Enter');
  await expect(page.locator(kPanel).getByRole('heading', { name: 'Standard brick-6' })).toBeVisible();
});

test('sherds that do not go with their fabric are named and open', async ({ page }) => {
  await open_room(page);
  await expect(page.getByRole('listitem').filter({ hasText: 't-4: fabric sandy-2, chem group hill-clay; 6 of 8 of the fabric are in brook-clay' })).toBeVisible();
  await page.getByRole('listitem').filter({ hasText: /^t-4:/ }).getByRole('button').click();
  await expect(page.locator(kPanel).getByRole('heading', { name: 'Sample t-4' })).toBeVisible();
});

test('the register says where every sample is, and a certificate that cannot be right is flagged', async ({ page }) => {
  await open_room(page);
  await expect(page.getByText('0 taken, 0 sent, 0 with a result, 51 closed')).toBeVisible();
  await expect(page.getByText('brick-6').first()).toBeVisible();
  await expect(page.getByText(/the oxides come to only 28\.0 %/).first()).toBeVisible();
});

test('the table behind the lines is saved as the program writes it', async ({ page }) => {
  await open_room(page);
  const line = page.getByRole('figure').filter({ hasText: 'Calibration of Al' });
  const saved = page.waitForEvent('download');
  await line.getByRole('button', { name: 'CSV' }).click();
  const file = await saved;
  expect(file.suggestedFilename()).toBe('calibrate.csv');
  expect(readFileSync(await file.path(), 'utf8')).toMatch(/^analyte,unit,line,a,se_a,b/);
});

for (const width of [1400, 360]) {
  test(`nothing in the room is out of reach of those who cannot see or point, ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 900 });
    await open_room(page);
    expect(await axe(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  });
}
