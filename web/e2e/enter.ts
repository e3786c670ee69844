import { mkdirSync, writeFileSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { kLaunch } from './launch.mjs';

/** Spends the token of BASE_URL, where there is one, and keeps the cookie that it became. */
export default async function enter(): Promise<void> {
  mkdirSync('e2e/out', { recursive: true });
  const given = process.env.BASE_URL;
  if (!given) {
    writeFileSync('e2e/out/state.json', JSON.stringify({ cookies: [], origins: [] }));
    return;
  }
  const browser = await chromium.launch(kLaunch);
  const page = await browser.newPage();
  await page.goto(given);
  await page.context().storageState({ path: 'e2e/out/state.json' });
  await browser.close();
}
