// The Public room and the costs of the Site room, on the demo site.
import type { Page } from '@playwright/test';
import { axe, expect, kPanel, settled, test } from './watch';

async function open_room(page: Page, query = ''): Promise<void> {
  await page.goto(`/#/public${query}`);
  await expect(page.getByRole('heading', { name: 'Public', exact: true })).toBeVisible();
  await settled(page);
}

test('twelve objects are picked, with where each is and what to mind', async ({ page }) => {
  await open_room(page);
  await expect(page.getByText(/^12 objects of /)).toBeVisible();
  await expect(page.getByRole('row')).toHaveCount(13);
  await expect(page.getByRole('row').nth(1)).toContainText(/bag \d+, box \d+/);
  await page.getByText('What to mind').click();
  await expect(page.getByRole('listitem').filter({ hasText: 'Do not eat or drink from an old pot, even a whole one.' })).toBeVisible();
  await page.getByRole('row').nth(1).getByRole('button').click();
  await expect(page.locator(kPanel)).toContainText('Record');
});

test('a theme and a use narrow the choice, and stand in the address', async ({ page }) => {
  await open_room(page);
  await page.getByLabel('Theme').selectOption('cooking');
  await expect(page).toHaveURL(/theme=cooking/);
  await page.getByLabel('For', { exact: true }).selectOption('handling');
  await expect(page).toHaveURL(/for=handling/);
  await expect(page.getByRole('row').nth(1)).toContainText('passing round');
  await expect(page.getByText('sherdwright pick-list STORE --theme cooking --for handling')).toBeVisible();
});

test('cards show a picture, years and reasons, and how hard they are to read', async ({ page }) => {
  await open_room(page);
  const cards = page.locator('figure .figure svg');
  await expect(cards).toHaveCount(12);
  await expect(cards.first().getByText('How do we know?')).toBeAttached();
  await expect(page.getByText(/The texts read at grade \d/)).toBeVisible();
});

test('the pages are saved as one file', async ({ page }) => {
  const html = '<!DOCTYPE html><title>Pottery</title>';
  await page.route('**/api/object-cards?*pages=true*', async (route) => {
    const reply = await route.fetch({ url: route.request().url().replace(/&?pages=true/, '') });
    await route.fulfill({ response: reply, json: { ...(await reply.json()), html } });
  });
  await open_room(page);
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the pages (HTML)' }).click();
  expect((await saved).suggestedFilename()).toBe('SAL26-pottery.html');
});

test('the key has twelve pictures, and answers become lines to check', async ({ page }) => {
  await page.route('**/api/picture-key', async (route) => {
    const reply = await route.fetch();
    await route.fulfill({ response: reply, json: { ...(await reply.json()), key: 1 } });
  });
  let sent: Record<string, unknown> = {};
  await page.route('**/api/key-answers', async (route) => {
    sent = route.request().postDataJSON() as Record<string, unknown>;
    const row = { kind: 'sherds', uid: '0'.repeat(32), removed: false, changed: 1, values: {} };
    const provenance = { version: '', inputs: [], settings: {}, seed: null };
    await route.fulfill({ json: { ok: true, errors: [], warnings: [], provenance, seq: 1, change: '1', rows: [row], notes: [], conflicts: [], problems: [] } });
  });
  await open_room(page, '?part=key');
  await expect(page.locator('.figure svg [data-set^="fabric="]')).toHaveCount(12);
  await page.getByLabel('Who answered').fill('V1');
  await page.getByLabel('Context').fill('1019');
  await page.getByLabel('Picture', { exact: true }).first().fill('3');
  await page.getByLabel('Pieces', { exact: true }).first().fill('5');
  await page.getByLabel('Part', { exact: true }).first().selectOption('rim');
  await page.getByRole('button', { name: 'Enter the answers' }).click();
  await expect(page.getByText('1 line entered, still to check.')).toBeVisible();
  expect(sent).toMatchObject({ by: 'V1', context: '1019', answers: ['3:5:rim'] });
});

test('a word of the trade is found', async ({ page }) => {
  await open_room(page, '?part=words');
  await page.getByLabel('Find a word').fill('residual');
  await expect(page.getByText('It was already rubbish when the layer was made.', { exact: false })).toBeVisible();
});

test('costs stand by task and stage against the hours used', async ({ page }) => {
  await page.goto('/#/site?part=costs');
  await settled(page);
  await expect(page.getByRole('row', { name: /^analysis detailed record/ })).toBeVisible();
  await expect(page.getByRole('row', { name: /^all / })).toBeVisible();
  await page.getByLabel('Between the ends').selectOption('pert');
  await page.getByText('How the numbers come about').click();
  await expect(page.getByText(/draws from pert distributions/)).toBeVisible();
});

for (const place of ['/#/public', '/#/public?part=key', '/#/public?part=words', '/#/site?part=costs']) {
  test(`nothing at ${place} is out of reach of those who cannot see or point`, async ({ page }) => {
    await page.goto(place);
    await settled(page);
    expect(await axe(page)).toEqual([]);
  });
}
