// How long a key takes to its effect in the Recording room, and a change to the disk: node e2e/recording_pace.mjs PROGRAM STORE CONTEXT [LINES]
// The store is copied first. From a key to the frame that shows its effect (Event Timing, to 8 ms), and from a change to its answer.
import { spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium } from '@playwright/test';
import { kLaunch } from './launch.mjs';

const [program, given, context, lines = '20'] = process.argv.slice(2);
if (!program || !given || !context) {
  console.error('node e2e/recording_pace.mjs PROGRAM STORE CONTEXT [LINES]');
  process.exit(2);
}
const folder = mkdtempSync(join(tmpdir(), 'sherd-pace-'));
const store = join(folder, 'pace.sherds');
copyFileSync(given, store);
const kTypes = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.woff2': 'font/woff2' };

/** Pages of another build than the program carries, where DIST names their folder. */
async function with_pages(browser_context) {
  if (!process.env.DIST) return;
  await browser_context.route(/^http:\/\/[^/]+\/(?!api\/)[^?]*$/, async (route) => {
    const path = new URL(route.request().url()).pathname;
    const file = join(process.env.DIST, path === '/' ? 'index.html' : path);
    if (!existsSync(file) || !statSync(file).isFile()) return route.fallback();
    await route.fulfill({ body: readFileSync(file), contentType: kTypes[extname(file)] ?? 'application/octet-stream' });
  });
}
const child = spawn(program, ['serve', store, '--port', '0'], { stdio: ['ignore', 'pipe', 'inherit'] });
let printed = '';
for await (const part of child.stdout) {
  printed += part;
  if (printed.includes('\n')) break;
}
const address = new URL(printed.split('\n')[0].trim());
const browser = await chromium.launch(kLaunch);
const at = (values, share) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))];
const told = (name, values) => console.log(`${name}: p50 ${at(values, 0.5).toFixed(0)} ms, p99 ${at(values, 0.99).toFixed(0)} ms, most ${Math.max(...values).toFixed(0)} ms (${values.length})`);
try {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await with_pages(page.context());
  const posts = [];
  page.on('requestfinished', (request) => {
    if (request.method() === 'POST') posts.push(request.timing().responseEnd - request.timing().requestStart);
  });
  await page.addInitScript(() => {
    globalThis.keys = [];
    new PerformanceObserver((list) => {
      for (const one of list.getEntries()) if (one.name === 'keydown') globalThis.keys.push(one.duration);
    }).observe({ type: 'event', durationThreshold: 16, buffered: true });
  });
  await page.goto(address.href);
  await page.goto('about:blank');
  const begun = performance.now();
  await page.goto(`${address.origin}/#/recording?context=${context}`);
  await page.locator('.lines input').waitFor({ timeout: 120_000 });
  await page.locator('#queue-list [role=option]').first().waitFor({ timeout: 120_000 });
  console.log(`open: ${(performance.now() - begun).toFixed(0)} ms to the context and the list of contexts`);
  await page.waitForFunction(() => !document.querySelector('[aria-busy="true"]'), null, { timeout: 300_000 });
  await page.locator('.lines input').focus();
  await page.keyboard.press('Control+End');
  await page.evaluate(() => (globalThis.keys.length = 0));
  let struck = 0;
  for (let line = 0; line < Number(lines); ++line) {
    for (const key of [...'gr', 'Tab', 'b', 'Tab', ...String(1 + (line % 9)), 'Tab', ...'12,5', 'Enter']) {
      await page.keyboard.press(key, { delay: 20 });
      struck += 1;
    }
  }
  await page.waitForFunction(() => document.querySelector('[data-waiting]')?.getAttribute('data-waiting') === '0', null, { timeout: 120_000 });
  const slow = await page.evaluate(() => globalThis.keys);
  told('a key to its effect (those under 16 ms as 8)', [...slow, ...Array(Math.max(0, struck - slow.length)).fill(8)]);
  told('a change to its answer', posts);
} finally {
  await browser.close();
  child.kill('SIGTERM');
  await new Promise((done) => (child.exitCode === null ? child.once('exit', done) : done()));
  rmSync(folder, { recursive: true, force: true });
}
