// Every room for every reader: axe-core, keys alone, and widths from a phone to a large monitor (WCAG 2.2 AA; 1.4.10 asks
// for no scrolling in two directions at 320 px but for tables).
import { axe, context_read, expect, kPanel, open_assemblage, open_series, open_site, settled, test } from './watch';
import type { Page } from '@playwright/test';

const kWidths = [360, 768, 1400, 2560];
const kScenes: [string, (page: Page) => Promise<void>][] = [
  ['the Site room', open_site],
  [
    'the Site room with all findings open',
    async (page) => {
      await open_site(page);
      for (const summary of await page.locator('summary').all()) {
        if (!(await summary.evaluate((element) => (element.parentElement as HTMLDetailsElement).open))) await summary.click();
      }
    },
  ],
  [
    'a context in the panel',
    async (page) => {
      await open_site(page);
      await page.getByRole('button', { name: '1013 why these dates' }).click();
      await expect(page.locator(kPanel).getByText('48 lines')).toHaveCount(2);
      await context_read(page);
    },
  ],
  [
    'rows in the panel, one unfolded',
    async (page) => {
      await open_site(page);
      await page.getByRole('button', { name: '127 sherds of context 1013' }).click();
      await page.locator(kPanel).getByRole('button', { name: '10076' }).click();
      await expect(page.locator(kPanel).locator('tr.sheet')).toHaveCount(1);
    },
  ],
  ['the Assemblage room', (page) => open_assemblage(page, 'by=fabric&measure=weight')],
  ['the Assemblage room with intervals', (page) => open_assemblage(page, 'by=fabric.ware_group&intervals=yes')],
  ['the Assemblage room by two fields', (page) => open_assemblage(page, 'by=fabric.ware_group,context.phase')],
  ['the Series room before anything is seen', (page) => open_series(page)],
  [
    'the Series room with a dated piece, what it may show and a colour read',
    async (page) => {
      await open_series(page, ['ware=creamware', 'edge=feather edge'], { read: 'colour', text: '10YR 5/4-6/6' });
      await expect(page.getByRole('img', { name: '10YR 6/6, yellowish brown' })).toBeVisible();
      for (const summary of await page.locator('summary').all()) await summary.click();
      await settled(page);
    },
  ],
  [
    'the Series room with evidence that does not go together, a grade and a list open',
    async (page) => {
      await open_series(page, ['ware=pearlware', 'technique=transfer printed', 'mark=England'], { read: 'frequency', text: 'sparse' });
      await page.locator('#seen-edge').press('ArrowDown');
      await expect(page.locator('[role=option]').first()).toBeVisible();
    },
  ],
];

for (const shade of ['light', 'dark'] as const) {
  for (const width of kWidths) {
    test.describe(`${shade}, ${width} px`, () => {
      test.use({ colorScheme: shade, viewport: { width, height: width < 700 ? 740 : 1000 } });
      for (const [name, open] of kScenes) {
        test(`${name} is clear to axe-core and does not run off the page`, async ({ page }) => {
          await open(page);
          await settled(page);
          expect(await axe(page)).toEqual([]);
          const [needed, there] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
          expect(needed).toBeLessThanOrEqual(there as number);
        });
      }
    });
  }
}

test.describe('by keys alone', () => {
  test('the first key leads to the record, past the rooms', async ({ page }) => {
    await open_site(page);
    await page.keyboard.press('Tab');
    const skip = page.getByRole('link', { name: 'Go to the record' });
    await expect(skip).toBeFocused();
    await expect(skip).toBeInViewport();
    await page.keyboard.press('Enter');
    await expect(page.locator('main')).toBeFocused();
    await page.keyboard.press('Tab');
    await expect(page.getByRole('link', { name: 'Overview' })).toBeFocused();
  });

  test('the rooms are reached and changed', async ({ page }) => {
    await open_site(page);
    const rooms = await page.getByRole('navigation', { name: 'Rooms' }).getByRole('link').allTextContents();
    for (let stop = 0; stop < 2 + rooms.indexOf('Assemblage'); ++stop) await page.keyboard.press('Tab');
    await expect(page.getByRole('link', { name: 'Assemblage', exact: true })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'Assemblage' })).toBeVisible();
    await expect(page.getByRole('link', { name: 'Assemblage', exact: true })).toHaveAttribute('aria-current', 'page');
  });

  test('every control is reached, in order, and its focus is seen', async ({ page }) => {
    await open_assemblage(page, 'by=fabric.ware_group');
    const seen: string[] = [];
    for (let stop = 0; stop < 40; ++stop) {
      await page.keyboard.press('Tab');
      const found = await page.evaluate(() => {
        const element = document.activeElement as HTMLElement;
        const style = getComputedStyle(element);
        const name = element.id || element.textContent?.trim().slice(0, 20) || (element as HTMLInputElement).value;
        return element === document.body ? null : { name, outline: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 };
      });
      if (found === null) break;
      expect(found.outline, `the focus on ${found.name}`).toBe(true);
      seen.push(found.name);
    }
    expect(seen[0]).toBe('Go to the record');
    for (const name of ['Site', 'Dark page', 'where-field', 'where-value', 'Add', 'early medieval']) {
      expect(seen.some((one) => one.startsWith(name)), name).toBe(true);
    }
    expect(seen.filter((one) => /^(medieval|Roman)/.test(one)), 'a table is one stop').toEqual([]);
  });

  test('the arrows move in a table, Enter opens the rows, Escape comes back', async ({ page }) => {
    await open_site(page);
    await page.getByLabel('with pottery only').focus();
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: '1001 why these dates' })).toBeFocused();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    const number = page.getByRole('button', { name: '31 sherds of context 1002' });
    await expect(number).toBeFocused();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await expect(number).toBeFocused();
    await page.keyboard.press('Home');
    await expect(page.getByRole('button', { name: '1002 why these dates' })).toBeFocused();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await expect(page.locator(kPanel).getByRole('heading', { name: 'Pottery of context 1002' })).toBeFocused();
    await expect(page.locator(kPanel).getByRole('row').nth(1)).toBeVisible();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect(page.locator(kPanel).locator('tr.sheet')).toHaveCount(1);
    await page.keyboard.press('Escape');
    await expect(number).toBeFocused();
  });

  test('the page is ordered from the heads of a table', async ({ page }) => {
    await open_assemblage(page);
    await page.getByRole('button', { name: 'amphora-1', exact: true }).focus();
    await page.keyboard.press('ArrowUp');
    await expect(page.getByRole('button', { name: 'Fabric', exact: true })).toBeFocused();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('columnheader', { name: 'Sherds', exact: true })).toHaveAttribute('aria-sort', 'descending');
  });
});

test('on a phone the panel leaves what opened it in sight', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await open_site(page);
  const number = page.getByRole('button', { name: '127 sherds of context 1013' });
  await number.click();
  await expect(page.locator(kPanel)).toBeVisible();
  const bottom = async (one: typeof number) => {
    const box = await one.boundingBox();
    return box ? box.y + box.height : Infinity;
  };
  await expect
    .poll(async () => (await bottom(number)) <= ((await page.locator(kPanel).boundingBox())?.y ?? -1))
    .toBe(true);
});

test.describe('in a narrow window the rooms stand in one row', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true });
  const row = (page: Page) => page.getByRole('navigation', { name: 'Rooms' });
  const within = (page: Page, name: string) =>
    row(page).evaluate((nav, wanted) => {
      const link = [...nav.querySelectorAll('a')].find((one) => one.textContent === wanted);
      const [inner, outer] = [link?.getBoundingClientRect(), nav.getBoundingClientRect()];
      return inner !== undefined && inner.left >= outer.left && inner.right <= outer.right;
    }, name);

  test('the room that is shown is in view, whichever it is, and every target has room for a finger', async ({ page }) => {
    await open_site(page);
    for (const name of await row(page).getByRole('link').allTextContents()) {
      await row(page).getByRole('link', { name, exact: true }).click();
      await expect(row(page).getByRole('link', { name, exact: true })).toHaveAttribute('aria-current', 'page');
      await expect.poll(() => within(page, name), name).toBe(true);
      const header = (await page.locator('header').boundingBox())?.height ?? Infinity;
      expect(header).toBeLessThanOrEqual(92);
      for (const target of await page.locator('header :is(a, button)').all()) {
        const box = await target.boundingBox();
        expect(Math.min(box?.width ?? 0, box?.height ?? 0), (await target.textContent()) ?? '').toBeGreaterThanOrEqual(44);
      }
    }
  });

  test('an arrow at the edge shows the others, and goes where none are left', async ({ page }) => {
    await open_site(page);
    const arrows = page.locator('header .rooms button');
    await expect(arrows).toHaveCount(1);
    expect(await within(page, 'Help')).toBe(false);
    const on = page.locator('header .rooms button.last');
    await expect(async () => {
      if (await on.count()) await on.click({ timeout: 500 });
      expect(await on.count()).toBe(0);
    }).toPass();
    expect(await within(page, 'Help')).toBe(true);
    await expect(arrows).toHaveCount(1);
    await arrows.click();
    await expect(arrows).toHaveCount(2);
  });

  test('a link that takes the focus comes into view, after the room before and ahead of the page', async ({ page }) => {
    await open_site(page);
    const names = await row(page).getByRole('link').allTextContents();
    await row(page).getByRole('link', { name: names[0], exact: true }).focus();
    for (const name of names) {
      await expect(row(page).getByRole('link', { name, exact: true })).toBeFocused();
      await expect.poll(() => within(page, name), name).toBe(true);
      await page.keyboard.press('Tab');
    }
    await expect(page.locator('main :focus')).toHaveCount(1);
    expect(await axe(page)).toEqual([]);
  });
});
