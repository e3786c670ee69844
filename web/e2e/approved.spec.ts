// Every room against its approved picture, from the recorded answers. `npm run approve` makes the pictures anew: look at each
// of them before it is kept. A picture may differ in three pixels of a hundred, which leaves room for another build of the browser.
import { context_read, expect, open_assemblage, open_series, open_site, settled, test } from './watch';
import type { Page } from '@playwright/test';

test.skip(Boolean(process.env.BASE_URL), 'the pictures are those of the recorded answers');

const kScenes: [string, (page: Page) => Promise<void>][] = [
  ['site', open_site],
  [
    'contexts',
    async (page) => {
      await open_site(page);
      await page.getByRole('heading', { name: 'Contexts' }).evaluate((heading) => heading.scrollIntoView());
    },
  ],
  [
    'context',
    async (page) => {
      await open_site(page);
      await page.getByRole('button', { name: '1013 why these dates' }).click();
      await context_read(page);
    },
  ],
  [
    'stratigraphy',
    async (page) => {
      await page.goto('/#/stratigraphy');
      await expect(page.locator('svg [data-set="context=1013"]')).toBeAttached();
      await settled(page);
    },
  ],
  ['assemblage', (page) => open_assemblage(page, 'by=fabric&measure=weight')],
  ['crossed', (page) => open_assemblage(page, 'by=fabric.ware_group,context.phase')],
  ...['ordination', 'order', 'difference', 'key-groups'].map((how): [string, (page: Page) => Promise<void>] => [
    how,
    async (page) => {
      await page.goto(`/#/assemblage?how=${how}`);
      await expect(page.locator('svg.sherd-figure')).toBeVisible();
      await settled(page);
      await page.locator('.save').evaluate((element) => element.scrollIntoView());
    },
  ]),
  [
    'measures',
    async (page) => {
      await page.goto('/#/assemblage?how=measures');
      await expect(page.locator('svg.sherd-figure')).toBeVisible();
      await settled(page);
      await page.locator('.save').evaluate((element) => element.scrollIntoView());
    },
  ],
  ...[
    ['chemistry', 'Compositions'],
    ['instrument', 'Along the run'],
    ['lines', 'Calibration'],
  ].map(([name = '', heading = '']): [string, (page: Page) => Promise<void>] => [
    name,
    async (page) => {
      await page.goto('/#/chemistry');
      await expect(page.locator('svg.sherd-figure')).toHaveCount(3);
      await settled(page);
      await page.getByRole('heading', { name: heading, exact: true }).evaluate((element) => element.scrollIntoView());
    },
  ]),
  ['series', (page) => open_series(page)],
  [
    'piece',
    async (page) => {
      await open_series(page, ['ware=creamware', 'edge=feather edge']);
      await page.getByRole('heading', { name: 'When it was made' }).evaluate((heading) => heading.scrollIntoView());
    },
  ],
  [
    'misfit',
    async (page) => {
      await open_series(page, ['ware=pearlware', 'technique=transfer printed', 'mark=England']);
      await page.getByRole('heading', { name: 'When it was made' }).evaluate((heading) => heading.scrollIntoView());
    },
  ],
  [
    'reader',
    async (page) => {
      await open_series(page, [], { read: 'colour', text: '10YR 5/4-6/6' });
      await expect(page.getByRole('img', { name: '10YR 6/6, yellowish brown' })).toBeVisible();
      await page.getByRole('heading', { name: 'Read a notation' }).evaluate((heading) => heading.scrollIntoView());
    },
  ],
];

for (const shade of ['light', 'dark'] as const) {
  for (const width of [360, 1400]) {
    test.describe(`${shade}, ${width} px`, () => {
      test.use({
        colorScheme: shade,
        viewport: { width, height: width < 700 ? 740 : 900 },
        contextOptions: { reducedMotion: 'reduce' },
        deviceScaleFactor: width < 700 ? 1 : 0.6, // small pictures, large enough to be read
      });
      for (const [name, open] of kScenes) {
        test(`${name} looks as approved`, async ({ page }) => {
          await open(page);
          await page.mouse.move(0, 0);
          await expect(page).toHaveScreenshot(`${name}-${width}-${shade}.png`);
        });
      }
    });
  }
}
