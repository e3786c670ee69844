// The room of vessels on the demo site: 31 measured pieces, all with a section, 31 drawings of which one was dropped.
import type { Page } from '@playwright/test';
import { axe, expect, kPanel, settled, test } from './watch';

async function open_room(page: Page, query = ''): Promise<void> {
  await page.goto(`/#/vessels${query}`);
  await expect(page.getByRole('heading', { name: 'Vessels', exact: true })).toBeVisible();
  await settled(page);
}

test('a piece is drawn with its number, its diameter and what survives of its rim', async ({ page }) => {
  await open_room(page, '?piece=P21');
  const drawing = page.locator('.figure svg');
  await expect(drawing).toBeVisible();
  await expect(drawing.getByText('D. 110 mm, 95 %')).toBeAttached();
  // Other tests take drawings out of the register, and the numbers behind them close up.
  await expect(drawing.getByText(/^(19|20|21)$/).first()).toBeAttached();
  await expect(page.getByText('sherdwright draw --vessel P21')).toBeVisible();
  const narrow = (await drawing.boundingBox())?.width ?? 0;
  await page.getByText('How it is drawn').click();
  await page.getByLabel('Scale', { exact: true }).selectOption('1:2');
  await expect(async () => expect((await drawing.boundingBox())?.width ?? 0).toBeGreaterThan(1.5 * narrow)).toPass();
});

test('pieces are found by what they are, and what lies behind one opens', async ({ page }) => {
  await open_room(page);
  await page.getByLabel('Find').fill('jug');
  await expect(page.getByRole('row')).toHaveCount(3);
  await page.getByRole('button', { name: 'P21' }).click();
  await expect(page.getByRole('heading', { name: 'P21 green-glaze-2 jug' })).toBeVisible();
  await page.getByRole('button', { name: 'context 1019' }).click();
  await expect(page.locator(kPanel)).toContainText('1019');
});

test('what a vessel holds and what it is like are reckoned when they are asked for', async ({ page }) => {
  await open_room(page, '?piece=P21');
  await page.getByRole('button', { name: 'Reckon what it holds' }).click();
  await expect(page.getByText(/to the rim,/)).toBeVisible();
  await page.getByRole('button', { name: 'Look for its like' }).click();
  await expect(page.getByText('30 sections of the record that it could lie on.')).toBeVisible();
  await expect(page.getByRole('img', { name: 'P21 laid on P22' })).toBeVisible();
});

test('plates show every drawing but the one that was dropped', async ({ page }) => {
  await open_room(page, '?part=plate');
  const pages = page.locator('figure .figure svg');
  await expect(pages.first()).toBeVisible();
  await expect(page.locator('figure .figure [data-set^="piece="]')).toHaveCount(30);
  await pages.first().locator('[data-set="piece=P1"]').click();
  await expect(page.getByRole('heading', { name: 'P1 grey-2 jar' })).toBeVisible();
});

test('the register is amended in place', async ({ page }) => {
  await open_room(page, '?part=register');
  await expect(page.getByText('In the register: 16 to draw, 5 sent, 5 drawn, 4 to correct, 1 dropped.')).toBeVisible();
  await expect(page.getByText('31 drawings', { exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Amend D2', exact: false }).first().click();
  const why = page.getByRole('textbox', { name: 'Why it is drawn' });
  await why.fill('the ware has no drawing yet');
  await why.press('Tab');
  await expect(page.getByText('All is in the record')).toBeVisible();
  await expect(page.getByRole('row', { name: /^D2 / })).toContainText('the ware has no drawing yet');
});

for (const part of ['', '?part=trace', '?part=plate', '?part=register']) {
  test(`nothing in the room${part} is out of reach of those who cannot see or point`, async ({ page }) => {
    await open_room(page, part);
    expect(await axe(page)).toEqual([]);
  });
}
