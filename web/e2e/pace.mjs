// How long the Site room takes to show its numbers: node e2e/pace.mjs PROGRAM STORE [RUNS]
// Each run starts the program anew ("cold") and then loads the page again ("warm"). Milliseconds from the start of the navigation
// to the frame after the first in which the thing stood; the longest single task of the page's own thread beside them.
import { spawn } from 'node:child_process';
import { chromium } from '@playwright/test';
import { kLaunch } from './launch.mjs';

const [program, store, runs = '5'] = process.argv.slice(2);
if (!program || !store) {
  console.error('node e2e/pace.mjs PROGRAM STORE [RUNS]');
  process.exit(2);
}
const kMarks = {
  numbers: '#quantities ~ .measures .opens',
  findings: '#findings ~ .answer details',
  contexts: '#contexts ~ .answer tbody tr',
};

/** The address that the program prints, once it serves. */
async function serve() {
  const child = spawn(program, ['serve', store, '--port', '0'], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  for await (const part of child.stdout) {
    text += part;
    if (text.includes('\n')) break;
  }
  return { child, address: text.split('\n')[0].trim() };
}

/** Runs in the page, before anything of its own. */
function watch(marks) {
  const seen = {};
  globalThis.pace = { seen, longest: 0 };
  new PerformanceObserver((list) => {
    for (const task of list.getEntries()) globalThis.pace.longest = Math.max(globalThis.pace.longest, task.duration);
  }).observe({ type: 'longtask', buffered: true });
  const look = () => {
    for (const [name, selector] of Object.entries(marks)) {
      if (name in seen || !document.querySelector(selector)) continue;
      seen[name] = null;
      requestAnimationFrame(() => requestAnimationFrame(() => (seen[name] = performance.now())));
    }
  };
  new MutationObserver(look).observe(document, { childList: true, subtree: true });
}

async function load(page, go) {
  await go();
  const names = Object.keys(kMarks);
  await page.waitForFunction((all) => all.every((name) => globalThis.pace.seen[name]), names, { timeout: 120_000 });
  return page.evaluate(() => ({ ...globalThis.pace.seen, 'longest task': globalThis.pace.longest }));
}

const taken = { cold: [], warm: [] };
for (let run = 0; run < Number(runs); ++run) {
  const { child, address } = await serve();
  const browser = await chromium.launch(kLaunch);
  try {
    const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
    await page.addInitScript(watch, kMarks);
    taken.cold.push(await load(page, () => page.goto(address)));
    taken.warm.push(await load(page, () => page.reload()));
  } finally {
    await browser.close();
    child.kill('SIGTERM');
    await new Promise((done) => (child.exitCode === null ? child.once('exit', done) : done()));
  }
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
for (const [how, all] of Object.entries(taken)) {
  const parts = Object.keys(all[0]).map((name) => {
    const values = all.map((one) => one[name]);
    return `${name} ${median(values).toFixed(0)} (${Math.min(...values).toFixed(0)}-${Math.max(...values).toFixed(0)})`;
  });
  console.log(`${how}: ${parts.join(', ')}`);
}
