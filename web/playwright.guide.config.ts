import { defineConfig } from '@playwright/test';
import { kLaunch } from './e2e/launch.mjs';

// The pictures of docs/guide: taken from the program itself, serving a demo site of its own, and compared with those that are kept.
// `npm run guide` compares, `npm run guide-pictures` takes them anew: look at each before it is kept. SHERDWRIGHT names the program.
export default defineConfig({
  testDir: 'e2e/guide',
  testMatch: '*.shots.ts',
  outputDir: 'e2e/out/guide-results',
  globalSetup: './e2e/guide/serve.ts',
  workers: 1,
  timeout: 90_000,
  retries: 1,
  expect: {
    timeout: 30_000,
    toHaveScreenshot: { animations: 'disabled', caret: 'hide', scale: 'device', threshold: 0.3, maxDiffPixelRatio: 0.03 },
  },
  reporter: [['list']],
  snapshotPathTemplate: '../docs/guide/pictures/{arg}{ext}',
  use: {
    baseURL: 'http://127.0.0.1:4176',
    storageState: 'e2e/out/guide-state.json',
    launchOptions: kLaunch,
    colorScheme: 'light',
    deviceScaleFactor: 1,
    viewport: { width: 1120, height: 700 },
    contextOptions: { reducedMotion: 'reduce' },
  },
});
