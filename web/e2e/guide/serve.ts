import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from '@playwright/test';
import { kLaunch } from '../launch.mjs';

/** Makes a demo site, serves it, and keeps the cookie that the printed address gives. Ends and removes both afterwards. */
export default async function serve(): Promise<() => void> {
  const program = resolve(process.env.SHERDWRIGHT ?? '../build/release/sherdwright');
  const folder = mkdtempSync(join(tmpdir(), 'sherdwright-guide-'));
  const env = { ...process.env, SHERDWRIGHT_USER: 'recorder' };
  execFileSync(program, ['demo', 'demo'], { cwd: folder, env, stdio: 'ignore' });
  execFileSync(program, ['date', 'demo/tanyard.sherds', '--keep', '--quiet'], { cwd: folder, env, stdio: 'ignore' });
  const child = spawn(program, ['serve', 'demo/tanyard.sherds', '--port', '4176'], { cwd: folder, env, stdio: ['ignore', 'pipe', 'ignore'] });
  let printed = '';
  for await (const part of child.stdout) {
    printed += String(part);
    if (printed.includes('\n')) break;
  }
  const browser = await chromium.launch(kLaunch);
  const page = await browser.newPage();
  await page.goto((printed.split('\n')[0] ?? '').trim());
  mkdirSync('e2e/out', { recursive: true });
  await page.context().storageState({ path: 'e2e/out/guide-state.json' });
  await browser.close();
  return () => {
    child.kill('SIGTERM');
    rmSync(folder, { recursive: true, force: true });
  };
}
