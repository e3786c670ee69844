import { defineConfig } from '@playwright/test';
import { kLaunch } from './e2e/launch.mjs';

// Against the recorded answers, or with BASE_URL against the program itself, serving the demo site: the address that it
// prints, token and all. The token works once, so it is spent here and every test starts with the cookie that it gave.
const given = process.env.BASE_URL;
const kMock = 'http://127.0.0.1:4173';
const kSlow = 'http://127.0.0.1:4174';

export default defineConfig({
  testDir: 'e2e',
  outputDir: 'e2e/out/results',
  globalSetup: './e2e/enter.ts',
  fullyParallel: true,
  workers: 2,
  timeout: 30_000,
  expect: {
    timeout: 10_000,
    toHaveScreenshot: { animations: 'disabled', caret: 'hide', scale: 'device', threshold: 0.3, maxDiffPixelRatio: 0.03 },
  },
  retries: process.env.CI ? 2 : 1, // what needs another go is reported as flaky
  reporter: [['list'], ['./e2e/flaky.ts']],
  snapshotPathTemplate: 'e2e/approved/{arg}{ext}',
  use: {
    baseURL: given ? new URL('/', given).href : kMock,
    storageState: 'e2e/out/state.json',
    launchOptions: kLaunch,
    viewport: { width: 1400, height: 900 },
  },
  webServer: given
    ? undefined
    : [
        { command: 'node e2e/mock.mjs 4173', url: kMock },
        { command: 'node e2e/mock.mjs 4174 --slow', url: kSlow },
      ],
});
