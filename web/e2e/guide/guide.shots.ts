// Each picture of the guide by its name. They show the demo site as the program serves it; times and names that differ from run to run lie outside.
import { context_read, expect, open_series, open_site, settled, test } from '../watch';
import type { Page } from '@playwright/test';

const kShots: Record<string, (page: Page) => Promise<void>> = {
  site: open_site,
  'context-1013': async (page) => {
    await open_site(page);
    await page.getByRole('button', { name: '1013 why these dates' }).click();
    await context_read(page);
  },
  recording: async (page) => {
    await page.goto('/#/recording?context=1013');
    await expect(page.getByText('10087').first()).toBeVisible();
    await settled(page);
  },
  series: async (page) => {
    await page.goto('/#/series');
    await expect(page.getByText('chaff-1').first()).toBeVisible();
    await settled(page);
  },
  piece: async (page) => {
    await open_series(page, ['ware=creamware', 'edge=feather edge']);
    await page.getByRole('heading', { name: 'When it was made' }).evaluate((heading) => heading.scrollIntoView());
  },
  stratigraphy: async (page) => {
    await page.goto('/#/stratigraphy');
    await expect(page.locator('svg [data-set="context=1013"]')).toBeAttached();
    await settled(page);
    await page.locator('svg [data-set="context=1013"]').evaluate((mark) => mark.scrollIntoView({ block: 'center' }));
  },
  assemblage: async (page) => {
    await page.goto('/#/assemblage?how=ordination');
    await expect(page.locator('svg.sherd-figure')).toBeVisible();
    await settled(page);
  },
  vessels: async (page) => {
    await page.goto('/#/vessels?piece=P4');
    await expect(page.locator('svg.sherd-figure, main svg').first()).toBeVisible();
    await settled(page);
  },
};

for (const [name, open] of Object.entries(kShots)) {
  test(`${name} is as the guide shows it`, async ({ page }) => {
    await open(page);
    await page.mouse.move(0, 0);
    await expect(page).toHaveScreenshot(`${name}.png`);
  });
}
