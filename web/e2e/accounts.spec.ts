import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { axe } from './watch';

// A server with accounts, of this file alone: it needs the program, so it runs where the program serves the other tests too.
test.skip(!process.env.BASE_URL || !process.env.SHERDWRIGHT, 'needs the program');
test.use({ storageState: { cookies: [], origins: [] } });
test.describe.configure({ mode: 'serial' });

const program = process.env.SHERDWRIGHT ?? '';
let folder = '';
let address = '';
let server: ChildProcess;
const password: Record<string, string> = {};

const run = (...args: string[]) => execFileSync(program, args, { encoding: 'utf8' });
const file = () => join(folder, 'accounts.csv');

test.beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'accounts-'));
  const store = join(folder, 'mill.sherds');
  run('new', store, '--site', 'MILL26', '--title', 'Mill Close');
  run('add', store, 'contexts', 'context=101');
  for (const [name, role] of [['ben', 'recorder'], ['olga', 'owner'], ['rita', 'reader']] as const)
    password[name] = (JSON.parse(run('account', file(), name, '--role', role, '--recorder', name.slice(0, 2).toUpperCase(), '--json')) as { password: string }).password;
  server = spawn(program, ['serve', store, '--port', '0', '--accounts', file()]);
  address = await new Promise<string>((told) => server.stdout?.once('data', (bytes: Buffer) => told(bytes.toString().trim())));
});
test.afterAll(() => {
  server?.kill('SIGTERM');
  rmSync(folder, { recursive: true, force: true });
});

async function sign_in(page: Page, name: string, secret = password[name] ?? '') {
  await page.goto(address);
  await page.getByLabel('Account', { exact: true }).fill(name);
  await page.getByLabel('Password').fill(secret);
  await page.getByRole('button', { name: 'Sign in' }).click();
}
async function own_password(page: Page, name: string, fresh: string) {
  await sign_in(page, name);
  await expect(page.getByRole('heading', { name: 'A password of your own' })).toBeVisible();
  await page.getByLabel('The password so far').fill(password[name] ?? '');
  await page.getByLabel('The new one', { exact: true }).fill(fresh);
  await page.getByLabel('The new one again').fill(fresh);
  await page.getByRole('button', { name: 'Change it' }).click();
  password[name] = fresh;
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toBeVisible();
}

test('nobody sees the record before signing in, and a wrong password says so', async ({ page }) => {
  await page.goto(address);
  await expect(page.getByRole('heading', { name: 'Sign in' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toHaveCount(0);
  expect(await axe(page)).toEqual([]);
  await sign_in(page, 'ben', 'wrong');
  await expect(page.getByRole('alert').getByText('That name and password do not belong together')).toBeVisible();
});

test('a password that was handed over is changed first, then the record is there', async ({ page }) => {
  await own_password(page, 'ben', 'grey rim slipped foot');
  await page.getByText('BE', { exact: true }).click();
  await expect(page.getByText('What you write stands in the history as BE')).toBeVisible();
  expect(await axe(page)).toEqual([]);
});

test('a sitting that ends in the middle loses nothing that was typed', async ({ page }) => {
  await sign_in(page, 'ben');
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toBeVisible();
  run('account', file(), 'ben', '--end-sessions');
  await page.waitForTimeout(2100); // the server looks at the list once a second; the end counts from the next
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await page.getByRole('link', { name: 'Recording' }).click();
  await expect(page.getByRole('heading', { name: 'Sign in again' })).toBeVisible();
  await page.getByLabel('Password').fill(password.ben ?? '');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByRole('heading', { name: 'Sign in again' })).toHaveCount(0);
});

test('an owner sees who is signed in and ends a sitting', async ({ browser, page }) => {
  const other = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const bens = await other.newPage();
  await sign_in(bens, 'ben');
  await expect(bens.getByRole('heading', { name: 'Mill Close' })).toBeVisible();
  await own_password(page, 'olga', 'black burnished bowl');
  await page.getByText('OL', { exact: true }).click();
  await expect(page.getByRole('listitem').filter({ hasText: 'ben' }).first()).toBeVisible();
  for (;;) {
    const of_ben = page.getByRole('listitem').filter({ hasText: 'ben' });
    if ((await of_ben.count()) === 0) break;
    await of_ben.first().getByRole('button', { name: 'End' }).click();
    await page.waitForTimeout(200);
  }
  expect((await bens.request.get(`${address}/api/site`.replace('//api', '/api'))).status()).toBe(401);
  await other.close();
});

test('signing out leaves nothing on the page', async ({ page }) => {
  await sign_in(page, 'ben');
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toBeVisible();
  await page.getByText('BE', { exact: true }).click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await expect(page.getByRole('heading', { name: 'Sign in' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toHaveCount(0);
});

test('an owner adds somebody, alters a role, gives a new password and takes an account away', async ({ browser, page }) => {
  await sign_in(page, 'olga');
  await expect(page.getByRole('heading', { name: 'Mill Close' })).toBeVisible();
  await page.getByText('OL', { exact: true }).click();
  await page.getByRole('button', { name: 'Accounts' }).click();
  const panel = page.getByRole('complementary', { name: 'Accounts' });
  await expect(panel.getByText('your own account')).toBeVisible();
  expect(await axe(page)).toEqual([]);

  await panel.getByLabel('Account', { exact: true }).fill('max');
  await panel.getByLabel('Writes as').fill('MX');
  await panel.getByRole('combobox', { name: 'Role', exact: true }).selectOption('reader');
  await panel.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(panel.getByText('max is added.')).toBeVisible();
  password.max = (await panel.locator('code').textContent()) ?? '';
  expect(await axe(page)).toEqual([]);
  const other = await browser.newContext({ storageState: { cookies: [], origins: [] } });
  const theirs = await other.newPage();
  await page.waitForTimeout(1100); // a password given in this second opens from the next
  await own_password(theirs, 'max', 'orange slip and sgraffito');

  await panel.getByLabel('Role of max').selectOption('editor');
  await expect(panel.getByText('max is an editor now.')).toBeVisible();
  expect(run('accounts', file(), '--json')).toContain('"editor"');

  const of_max = panel.getByRole('listitem').filter({ hasText: 'max' });
  await of_max.getByRole('button', { name: 'New password' }).click();
  await expect(panel.getByText('max has a new password.')).toBeVisible();
  expect((await theirs.request.get(new URL('/api/site', address).href)).status()).toBe(401);
  await other.close();

  await of_max.getByRole('button', { name: 'Remove' }).click();
  await panel.getByRole('button', { name: 'Take away' }).click();
  await expect(panel.getByText('max is taken away')).toBeVisible();
  await expect(of_max).toHaveCount(0);
  expect(run('accounts', file(), '--json')).not.toContain('"max"');
});

test('who is no owner finds no accounts to keep', async ({ page }) => {
  await sign_in(page, 'ben');
  await page.getByText('BE', { exact: true }).click();
  await expect(page.getByRole('button', { name: 'Sign out' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Accounts' })).toHaveCount(0);
});
