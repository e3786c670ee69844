import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from '@playwright/test';
import { axe, expect, kPanel, open_site, settled, test } from './watch';

// What others change comes into an open page. Against the program itself, on a store of its own.
const kProgram = process.env.SHERDWRIGHT ?? resolve('../build/release/sherdwright');

/** A small site in a folder of its own, and the program that serves it. */
class Bench {
  folder = mkdtempSync(join(tmpdir(), 'sherd-feed-'));
  store = join(this.folder, 'mill.sherds');
  url = '';
  #server: ChildProcess | null = null;

  constructor() {
    this.run('new', this.store, '--site', 'MILL26', '--title', 'Mill Close');
    this.read_in('contexts', 'context,deposit\n101,dump\n102,silting\n');
    this.read_in('fabrics', 'fabric,ware_group,earliest,latest,reference\ngrey-1,Roman,120,250,test\nshell-3,Roman,70,200,test\n');
    this.read_in('sherds', 'context,fabric,count,weight_g\n101,grey-1,3,14.5\n101,shell-3,2,20\n102,grey-1,1,3\n');
  }
  run(...words: string[]): void {
    execFileSync(kProgram, words, { cwd: this.folder, env: { ...process.env, SHERDWRIGHT_USER: 'Mary', USER: 'Mary' } });
  }
  read_in(kind: string, table: string, name = kind): void {
    writeFileSync(join(this.folder, `${name}.csv`), table);
    this.run('import', this.store, `${name}.csv`, '--as', kind);
  }
  async serve(port = 0): Promise<void> {
    const server = spawn(kProgram, ['serve', this.store, '--port', String(port)], { cwd: this.folder });
    this.#server = server;
    this.url = await new Promise((told, failed) => {
      server.stdout.once('data', (bytes: Buffer) => told(bytes.toString().trim()));
      server.once('exit', () => failed(new Error('the program ended')));
    });
  }
  get port(): number {
    return Number(new URL(this.url).port);
  }
  async stop(): Promise<void> {
    const server = this.#server;
    this.#server = null;
    if (!server) return;
    const gone = new Promise((then) => server.once('exit', then));
    server.kill('SIGTERM');
    await gone;
  }
  async end(): Promise<void> {
    await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

async function two_pages(browser: Browser, bench: Bench): Promise<[Page, Page]> {
  const context = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const first = await context.newPage();
  await first.goto(bench.url);
  await expect(first.getByRole('button', { name: '101 why these dates' })).toBeVisible();
  const second = await context.newPage();
  await second.goto(`${new URL(bench.url).origin}/#/assemblage?by=fabric`);
  await expect(second.getByRole('rowheader', { name: 'all' })).toBeVisible();
  await settled(first);
  await settled(second);
  return [first, second];
}

test.describe('with the program', () => {
  test.skip(!existsSync(kProgram), 'no program is built');
  test.skip(!process.env.BASE_URL && !process.env.SHERDWRIGHT, 'runs once, where the program itself is tested');
  let bench: Bench;
  test.beforeEach(async () => {
    bench = new Bench();
    await bench.serve();
  });
  test.afterEach(() => bench.end());

  test('what one reads in by the command line, two open pages see, each in its place', async ({ browser }) => {
    const [site, assemblage] = await two_pages(browser, bench);
    await expect(assemblage.getByRole('button', { name: '4 sherds, fabric grey-1', exact: true })).toBeVisible();
    await site.getByRole('button', { name: '5 sherds of context 101', exact: true }).click();
    await expect(site.locator(kPanel).getByText('2 lines, 5 sherds, 34.5 g')).toBeVisible();
    const row = site.locator(kPanel).getByRole('button', { name: /^\d+$/ }).first();
    await row.focus();
    await site.evaluate(() => scrollTo(0, 150));
    const before = await site.evaluate(() => scrollY);
    const tallied = assemblage.getByRole('button', { name: '4 sherds, fabric grey-1', exact: true });
    await tallied.focus();

    bench.read_in('sherds', 'context,fabric,count,weight_g\n101,grey-1,4,9.5\n', 'more');

    for (const page of [site, assemblage]) {
      await expect(page.getByText(/^Changed by .+: sherds read in from more\.csv\.$/)).toBeVisible();
    }
    await expect(site.locator(kPanel).getByText('3 lines, 9 sherds, 44.0 g')).toBeVisible();
    await expect(site.getByText('as of change 5')).toBeVisible();
    await expect(row).toBeFocused();
    expect(await site.evaluate(() => scrollY)).toBe(before);
    const grown = assemblage.getByRole('button', { name: '8 sherds, fabric grey-1', exact: true });
    await expect(grown).toBeFocused();
    await expect(assemblage.getByText('as of change 5')).toBeVisible();
    await settled(site);
    expect(await axe(site)).toEqual([]);
    await assemblage.getByRole('button', { name: 'Close' }).click();
    await expect(assemblage.getByText('Changed by')).toHaveCount(0);
  });

  test('a room left behind is read anew when one comes back to it', async ({ browser }) => {
    const [site] = await two_pages(browser, bench);
    await site.getByRole('link', { name: 'Assemblage' }).click();
    await expect(site.getByRole('rowheader', { name: 'all' })).toBeVisible();
    bench.read_in('contexts', 'context,deposit\n103,dump\n', 'more');
    await expect(site.getByText(/contexts read in from more\.csv/)).toBeVisible();
    await site.getByRole('link', { name: 'Site' }).click();
    await site.getByLabel('with pottery only').uncheck();
    await expect(site.getByRole('button', { name: '103 why these dates' })).toBeVisible();
  });

  test('the page says that the program does not answer, and goes on when it is back', async ({ browser }) => {
    const [site] = await two_pages(browser, bench);
    const port = bench.port;
    await bench.stop();
    await expect(site.getByText(/^The program does not answer\. Start it again/)).toBeVisible();
    await expect(site.getByRole('button', { name: '101 why these dates' }), 'what was read stays').toBeVisible();
    await bench.serve(port);
    await expect(site.getByText(/^This browser has no leave to read the record\./)).toBeVisible({ timeout: 20_000 });
    const again = await site.context().newPage();
    await again.goto(bench.url);
    await expect(again.getByRole('button', { name: '101 why these dates' })).toBeVisible();
    bench.read_in('sherds', 'context,fabric,count,weight_g\n101,grey-1,4,9.5\n', 'more');
    await expect(site.getByText('as of change 5')).toBeVisible({ timeout: 25_000 });
    await expect(site.getByText('no leave')).toHaveCount(0);
  });
});

test.describe('with recorded answers', () => {
  test.skip(!!process.env.BASE_URL, 'the program tells its own changes');
  const kChange = {
    seq: 1000, uid: 'u', at: '2026-03-02T10:00:00Z', who: 'Mary', command: 'import sherds more.csv',
    undoes: null, rows_added: 4, rows_changed: 0, rows_removed: 0,
  };

  test('a change is told in one quiet line, and the page asks again for what it shows', async ({ page }) => {
    let told = false;
    await page.route('**/api/feed?*', async (route) => {
      if (told || route.request().method() === 'HEAD') return route.fallback();
      await expect.poll(() => told).toBe(true);
      await route.fulfill({ contentType: 'text/event-stream', body: `id: 1000\ndata: ${JSON.stringify(kChange)}\n\n` });
    });
    await open_site(page);
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    told = true;
    await expect(page.getByText('Changed by Mary: sherds read in from more.csv.')).toBeVisible();
    await expect.poll(() => asked).toEqual(expect.arrayContaining(['/api/site', '/api/findings', '/api/tally', '/api/jobs']));
    await settled(page);
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Close' }).click();
    await expect(page.getByText('Changed by Mary')).toHaveCount(0);
  });
});
