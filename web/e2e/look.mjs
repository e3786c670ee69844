// Pictures of every room, light and dark, narrow and wide: node e2e/look.mjs [FOLDER] (a server must run: BASE_URL)
import { mkdirSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { kLaunch } from './launch.mjs';

const base = process.env.BASE_URL ?? 'http://127.0.0.1:4173/';
const folder = process.argv[2] ?? 'e2e/out/look';
mkdirSync(folder, { recursive: true });

const kScenes = [
  ['site', '#/site', null],
  ['site-panel', '#/site', (page) => page.getByRole('button', { name: '1013 why these dates' }).click()],
  ['assemblage', '#/assemblage?by=fabric&measure=weight', null],
  ['intervals', '#/assemblage?by=fabric.ware_group&intervals=yes', null],
  ['contexts', '#/site?find=phase', (page) => page.getByRole('heading', { name: 'Contexts' }).scrollIntoViewIfNeeded()],
  ['cross', '#/assemblage?by=fabric.ware_group,context.phase', null],
  ['rows', '#/assemblage?by=fabric', (page) => page.getByRole('button', { name: /^18\d sherds, fabric|sherds, fabric grey-1$/ }).first().click()],
];

const browser = await chromium.launch(kLaunch);
const kWidths = (process.env.WIDTHS ?? '360,768,1400,2560').split(',').map(Number);
for (const shade of (process.env.SHADES ?? 'light,dark').split(',')) {
  for (const width of kWidths) {
    const page = await browser.newPage({ viewport: { width, height: width < 700 ? 740 : 950 }, colorScheme: shade });
    for (const [name, hash, then] of kScenes) {
      await page.goto('about:blank');
      await page.goto(base + hash);
      await page.waitForLoadState('networkidle');
      await page.waitForTimeout(500);
      if (then) {
        await then(page);
        await page.waitForTimeout(300);
      }
      await page.screenshot({ path: `${folder}/${name}-${width}-${shade}.png`, fullPage: !then && width > 700 });
    }
    await page.close();
  }
}
await browser.close();
