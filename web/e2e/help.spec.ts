// Help: the guide within the workbench, by room, by page and by word. All of it lies in the program: nothing is asked of the record.
import { axe, expect, kPanel, open_site, settled, test } from './watch';

test('the link to Help opens the page of the room that one comes from', async ({ page }) => {
  await page.goto('/#/stratigraphy');
  await expect(page.getByRole('heading', { level: 1, name: 'Stratigraphy' })).toBeVisible();
  await page.getByRole('navigation', { name: 'Rooms' }).getByRole('link', { name: 'Help' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Date a context' })).toBeVisible();
  await expect(page).toHaveURL(/#\/help\?page=date-a-context/);
  await expect(page.getByRole('navigation', { name: 'Contents of the guide' }).getByRole('link', { name: 'Date a context' })).toHaveAttribute('aria-current', 'page');
});

test('F1 and the question mark open the page beside the work, and Escape gives the focus back', async ({ page }) => {
  await open_site(page);
  const number = page.getByRole('button', { name: '5,230 sherds', exact: true });
  for (const key of ['F1', '?']) {
    await number.focus();
    await page.keyboard.press(key);
    const panel = page.locator(kPanel);
    await expect(panel.getByRole('heading', { name: 'Help' })).toBeFocused();
    await expect(panel.getByRole('heading', { name: 'Receive the boxes' })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(panel).toHaveCount(0);
    await expect(number).toBeFocused();
  }
});

test('in a field a question mark is a question mark', async ({ page }) => {
  await open_site(page);
  const find = page.getByLabel('Find in findings, phases and contexts');
  await find.pressSequentially('grey-1?');
  await expect(find).toHaveValue('grey-1?');
  await expect(page.locator(kPanel)).toHaveCount(0);
});

test('links in the panel lead on within it, and Back leads back', async ({ page }) => {
  await open_site(page);
  await page.keyboard.press('F1');
  const panel = page.locator(kPanel);
  await panel.getByRole('link', { name: 'see care' }).or(panel.getByRole('link', { name: 'care', exact: true })).first().click();
  await expect(panel.getByRole('heading', { name: 'Care' })).toBeVisible();
  await expect(page).toHaveURL(/#\/site/);
  await panel.getByRole('button', { name: 'Back' }).click();
  await expect(panel.getByRole('heading', { name: 'Receive the boxes' })).toBeVisible();
});

test('words are found in all pages, marked, and the place opens where they stand', async ({ page }) => {
  await page.goto('/#/help');
  await page.getByLabel('Find in the guide').fill('commonest pottery guide');
  await expect(page.locator('.read').getByRole('status')).toContainText(/places?, the likeliest first/);
  await expect(page).toHaveURL(/find=commonest/);
  await page.getByRole('link', { name: 'Why the commonest pottery is the worst guide' }).first().click();
  const heading = page.getByRole('heading', { name: 'Why the commonest pottery is the worst guide' });
  await expect(heading).toBeFocused();
  await expect(heading).toBeInViewport();
  await page.getByLabel('Find in the guide').fill('xyzzyx');
  await expect(page.locator('.read').getByRole('status')).toContainText('No page holds "xyzzyx"');
  await page.getByLabel('Find in the guide').press('Escape');
  await expect(heading).toBeVisible();
});

test('a page that there is not is said, with the way to those that there are', async ({ page }) => {
  await page.goto('/#/help?page=no-such');
  await expect(page.getByText('The guide has no page "no-such".')).toBeVisible();
  await page.getByRole('link', { name: 'Its contents' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Guide' })).toBeVisible();
});

test('every page that the contents name opens, with its pictures and no link that leads nowhere', async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto('/#/help');
  const names = await page.getByRole('navigation', { name: 'Contents of the guide' }).getByRole('link').evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
  expect(names.length).toBeGreaterThan(20);
  for (const href of names) {
    await page.goto(`/${href}`);
    await expect(page.locator('article h1').first()).toBeVisible();
    const broken = await page.locator('article img').evaluateAll((pictures) =>
      Promise.all(pictures.map(async (picture) => {
        const image = picture as HTMLImageElement;
        image.loading = 'eager';
        await image.decode().catch(() => undefined);
        return image.naturalWidth > 0 ? '' : image.src;
      })),
    );
    expect(broken.filter(Boolean), href).toEqual([]);
  }
});

for (const shade of ['light', 'dark'] as const) {
  for (const width of [360, 1400]) {
    test.describe(`${shade}, ${width} px`, () => {
      test.use({ colorScheme: shade, viewport: { width, height: 900 } });
      test('Help has nothing against it from axe-core, and is no wider than the window', async ({ page }) => {
        for (const hash of ['#/help', '#/help?page=four-measures', '#/help?page=first-hour', '#/help?find=residual']) {
          await page.goto('about:blank');
          await page.goto(`/${hash}`);
          await expect(page.locator('.read h1').first()).toBeVisible();
          await settled(page);
          expect(await axe(page), hash).toEqual([]);
          expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), hash).toBeLessThanOrEqual(0);
        }
        await page.goto('/#/vessels');
        await page.keyboard.press('F1');
        await expect(page.locator(kPanel).getByRole('heading', { name: 'Measure and draw vessels' })).toBeVisible();
        expect(await axe(page)).toEqual([]);
      });
    });
  }
}
