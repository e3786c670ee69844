// The page of stores in a real browser, as `sherdwright open` serves it: node e2e/check_chooser.mjs PATH/TO/sherdwright [FOLDER FOR PICTURES]
// From nothing to a new store, back, the store among those opened lately, taken off; the demo; a store that does not open; no breach of the
// page's policy, nothing that axe finds, no line wider than the window.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from '@playwright/test';
import { kLaunch } from './launch.mjs';

const program = resolve(process.argv[2] ?? '../build/release/sherdwright');
const pictures = process.argv[3];
if (pictures) mkdirSync(pictures, { recursive: true });
const axe = readFileSync(new URL('../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
const home = mkdtempSync(join(tmpdir(), 'sherdwright-stores-'));
mkdirSync(join(home, 'Documents', 'Mill Close'), { recursive: true });
const wrong = [];
const expect = (good, text) => good || wrong.push(text);

/** The program with a home of its own; its address. `path`: no xdg-open is found there, so that no browser of this machine opens. */
async function started(...words) {
  const child = spawn(program, ['open', ...words, '--port', '0'], {
    env: { HOME: home, PATH: '/nowhere', LC_ALL: 'C.UTF-8' }, stdio: ['ignore', 'pipe', 'inherit'],
  });
  const url = await new Promise((done, failed) => {
    child.stdout.on('data', (bytes) => done(String(bytes).trim()));
    child.on('exit', (code) => failed(new Error(`the program ended with ${code}`)));
  });
  return { child, url };
}

const browser = await chromium.launch(kLaunch);
let open = await started('--no-browser');
try {
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 } });
  const page = await context.newPage();
  page.on('pageerror', (error) => wrong.push(`page: ${error}`));
  page.on('console', (message) => message.type() === 'error' && wrong.push(`console: ${message.text()}`));
  const stores_at = new URL(open.url).origin;
  const picture = async (name) => pictures && page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
  const looked_at = async (what) => {
    // Without leave for inline script the page would refuse a script tag; an evaluated one runs beside the policy.
    await page.evaluate(axe);
    const found = await page.evaluate(() => window.axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'best-practice'] }));
    for (const one of found.violations) wrong.push(`axe, ${what}: ${one.id}: ${one.nodes[0].html}`);
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wider <= 0, `${what}: ${wider} px wider than the window`);
  };

  await page.goto(open.url);
  await page.getByText('No store has been opened at this machine yet.').waitFor();
  expect((await page.title()) === 'Stores · Sherdwright', 'the title');
  await looked_at('empty');
  await picture('empty');

  await page.getByLabel('Code of the site').fill('MILL26');
  await page.getByLabel('Title').fill('Mill Close, watching brief');
  expect((await page.getByLabel('In the folder').inputValue()) === join(home, 'Documents'), 'the folder is not Documents');
  await page.getByRole('button', { name: 'Make and open' }).click();
  await page.getByRole('link', { name: 'Recording', exact: true }).waitFor();
  expect(new URL(page.url()).origin !== stores_at, 'the store has no place of its own');
  expect((await page.locator('header .site').textContent()).includes('MILL26'), 'another store was opened');

  await page.goto(stores_at);
  const mill = page.getByRole('button', { name: /^MILL26 / });
  await mill.waitFor();
  // The same code again: refused in words, and the page goes on.
  await page.getByLabel('Code of the site').fill('MILL26');
  await page.getByRole('button', { name: 'Make and open' }).click();
  await page.getByRole('alert').waitFor();
  await picture('refused');
  await mill.click();
  await page.getByRole('link', { name: 'Recording', exact: true }).waitFor();

  await page.goto(stores_at);
  await page.getByRole('button', { name: 'Mill Close/' }).click();
  await page.getByText('No store lies in this folder.').waitFor();
  await page.getByRole('button', { name: 'One folder up' }).click();
  await page.getByRole('button', { name: 'MILL26.sherds', exact: true }).waitFor();
  await page.getByRole('button', { name: 'Open the demo site' }).click();
  await page.getByRole('link', { name: 'Recording', exact: true }).waitFor({ timeout: 60_000 });
  await page.goto(stores_at);
  await page.getByRole('button', { name: /^SAL26 / }).waitFor();
  for (const shade of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme: shade });
    for (const width of [360, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 860 });
      await looked_at(`${shade}, ${width} px`);
      await picture(`stores-${width}-${shade}`);
    }
  }
  await page.setViewportSize({ width: 1280, height: 860 });
  await page.getByRole('button', { name: /Take off the list ?: MILL26.sherds/ }).click();
  await mill.waitFor({ state: 'detached' });
  const list = JSON.parse(readFileSync(join(home, '.local/state/sherdwright/recent.json'), 'utf8'));
  expect(list.stores.length === 1 && list.stores[0].code === 'SAL26', 'the list was not kept');

  // From the keyboard alone: the first stop after the head is the newest store.
  await page.reload();
  await page.getByRole('button', { name: /^SAL26 / }).waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  expect((await page.evaluate(() => document.activeElement?.textContent ?? '')).includes('SAL26'), 'the newest store is not the second stop');

  // A file that is no store, as from a file manager.
  open.child.kill('SIGTERM');
  writeFileSync(join(home, 'damaged.sherds'), 'not a store');
  open = await started(join(home, 'damaged.sherds'));
  await page.goto(open.url);
  const told = await page.getByRole('alert').textContent();
  expect(told.startsWith('Damaged.sherds') || told.startsWith('damaged.sherds'), `not told what does not open: ${told}`);
  await picture('damaged');
} finally {
  open.child.kill('SIGTERM');
  await browser.close();
  rmSync(home, { recursive: true, force: true });
}
const real = wrong.filter((text) => !text.includes('the server responded with a status of 409'));
console.log(real.join('\n') || 'page of stores: all right');
process.exit(real.length ? 1 : 0);
