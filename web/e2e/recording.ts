import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join, resolve } from 'node:path';
import type { BrowserContext, Page } from '@playwright/test';
import { expect, settled } from './watch';

/** The program under test; SHERDWRIGHT names another one. */
export const kProgram = process.env.SHERDWRIGHT ?? resolve('../build/release/sherdwright');
export const kHasProgram = existsSync(kProgram);

const kTypes: Record<string, string> = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml', '.woff2': 'font/woff2', '.txt': 'text/plain; charset=utf-8',
};

/** Pages of another build than the program carries, where DIST names their folder. */
export async function with_pages(context: BrowserContext): Promise<void> {
  const folder = process.env.DIST;
  if (!folder) return;
  await context.route(/^http:\/\/[^/]+\/(?!api\/)[^?]*$/, async (route) => {
    const path = new URL(route.request().url()).pathname;
    const file = join(folder, path === '/' ? 'index.html' : path);
    if (!existsSync(file) || !statSync(file).isFile()) return route.fallback();
    await route.fulfill({
      body: readFileSync(file),
      contentType: kTypes[extname(file)] ?? 'application/octet-stream',
      headers: {
        'Content-Security-Policy':
          "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; font-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
      },
    });
  });
}

/** The demo site in a folder of its own, and the program that serves it. */
export class Bench {
  folder = mkdtempSync(join(tmpdir(), 'sherd-recording-'));
  store = join(this.folder, 'demo', 'tanyard.sherds');
  url = '';
  #server: ChildProcess | null = null;

  constructor() {
    execFileSync(kProgram, ['demo', 'demo'], { cwd: this.folder, stdio: 'ignore' });
  }
  run(...words: string[]): string {
    return execFileSync(kProgram, words, { cwd: this.folder, encoding: 'utf8', maxBuffer: 1 << 28 });
  }
  /** Rows of a kind that meet a condition, by their values. */
  rows(kind: string, where: string): Record<string, string>[] {
    const answer = JSON.parse(this.run('rows', this.store, kind, '--where', where, '--json', '--limit', '10000')) as { rows: { values: Record<string, string> }[] };
    return answer.rows.map((row) => row.values);
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
  get origin(): string {
    return new URL(this.url).origin;
  }
  /** As a power cut would: nothing of the program's own is run. */
  async kill(): Promise<void> {
    await this.#end('SIGKILL');
  }
  async end(): Promise<void> {
    await this.#end('SIGTERM');
    rmSync(this.folder, { recursive: true, force: true });
  }
  async #end(signal: NodeJS.Signals): Promise<void> {
    const server = this.#server;
    this.#server = null;
    if (!server) return;
    const gone = new Promise((then) => server.once('exit', then));
    server.kill(signal);
    await gone;
  }
}

let benches = 0;
/** A record of the test's own on the server of recorded answers. */
export async function own_record(context: BrowserContext, base: string): Promise<void> {
  benches += 1;
  await context.addCookies([{ name: 'bench', value: `${process.pid}-${benches}`, url: base }]);
}

/** The Recording room with a context open and the hands in its new line; by keys alone. */
export async function open_context(page: Page, context: string, base = ''): Promise<void> {
  if (base) await page.goto('about:blank');
  await page.goto(`${base}/#/recording`);
  await expect(page.getByRole('heading', { name: 'Recording', exact: true })).toBeVisible();
  await expect(page.locator('#queue-list [role=option]').first()).toBeVisible();
  await page.keyboard.press('F6');
  await expect(page.locator('#queue-find')).toBeFocused();
  await to_context(page, context);
}

/** From the list of contexts, whose field has the focus. */
export async function to_context(page: Page, context: string): Promise<void> {
  await page.keyboard.type(context);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: `Context ${context}` })).toBeVisible();
  await expect(page.locator('.lines input')).toBeFocused();
}

/** All that was typed is in the record. */
export async function all_saved(page: Page): Promise<void> {
  await expect(page.locator('[data-waiting="0"]')).toBeVisible();
  await expect(page.getByText('All is in the record')).toBeVisible();
  await settled(page);
}

/** A written card: what stands on the bench, line by line. */
export interface CardLine {
  fabric: string;
  part: string;
  count: string;
  weight_g: string;
  form?: string;
  decoration?: string;
  rim_percent?: string;
  rim_diameter_mm?: string;
}

/** Keys counted as they are struck. */
export class Hands {
  struck = 0;
  constructor(private page: Page) {}
  async type(text: string): Promise<void> {
    this.struck += text.length;
    await this.page.keyboard.type(text);
  }
  async press(...keys: string[]): Promise<void> {
    for (const key of keys) {
      this.struck += 1;
      await this.page.keyboard.press(key);
    }
  }
}

const kColumns = ['fabric', 'part', 'count', 'weight_g', 'form', 'decoration', 'rim_percent', 'rim_diameter_mm'] as const;

/** Types the lines of a card as quick hands do: a few letters of each code, Tab to the next, Enter at the end. `short`: what is typed for a code. */
export async function record_card(hands: Hands, lines: readonly CardLine[], short: Readonly<Record<string, string>>): Promise<void> {
  for (const line of lines) {
    const last = [...kColumns].reverse().find((column) => line[column]) ?? 'weight_g';
    for (const column of kColumns) {
      const value = line[column] ?? '';
      if (value) await hands.type(short[`${column}:${value}`] ?? short[value] ?? value);
      if (column === last) break;
      await hands.press('Tab');
    }
    await hands.press('Enter');
  }
}
