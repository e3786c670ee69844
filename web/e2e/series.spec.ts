// The years are those of the rows that the program ships, read off its command line (`when`, `evidence`, `read`), not off
// these pages. What the rows rest on is checked where they are kept.
import type { Page } from '@playwright/test';
import { expect, open_series, settled, test } from './watch';

const kFeather = ['ware=creamware', 'edge=feather edge'];
const kMisfit = ['ware=pearlware', 'technique=transfer printed', 'mark=England'];

const statement = (page: Page, text: string) => page.getByRole('status').filter({ hasText: text });
const field = (page: Page, label: string) => page.getByRole('combobox', { name: new RegExp(`^${label}`) });
const region = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

test.describe('dating one piece', () => {
  test('the room is reached from the others and says what to do while nothing is seen', async ({ page }) => {
    await page.goto('/');
    await page.getByRole('link', { name: 'Series', exact: true }).click();
    await page.getByRole('link', { name: 'Date a piece' }).click();
    await expect(page.getByText('Say what is seen on the piece, one thing or several.')).toBeVisible();
    await expect(page).toHaveTitle('Series · SAL26 · Sherdwright');
    await page.getByRole('link', { name: 'a plate of creamware with a feather edge' }).click();
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
  });

  test('the years follow what is typed, by keys alone, and stand in the address', async ({ page }) => {
    await open_series(page);
    await field(page, 'Ware').focus();
    await page.keyboard.type('cream');
    await expect(page.locator('[role=option]', { hasText: /^\s*creamware\s*$/ })).toBeVisible();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect(statement(page, 'Made in 1762 or later, most likely 1762-1820.')).toBeVisible();
    await expect(field(page, 'Ware')).toBeFocused();
    await field(page, 'Edge').focus();
    await page.keyboard.type('feather edge');
    await page.keyboard.press('Tab');
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
    await expect(page).toHaveURL(/seen=ware%3Dcreamware&seen=edge%3Dfeather\+edge/);
    await page.reload();
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
    await field(page, 'Ware').focus();
    await page.keyboard.press('Backspace');
    await expect(page).toHaveURL(/#\/series\?part=piece&seen=edge%3Dfeather\+edge$/);
    await expect(page.getByRole('button', { name: 'Take away Ware creamware' })).toHaveCount(0);
  });

  test('each reason stands with its years, its source and how it is known, and the drawing has a bar for it', async ({ page }) => {
    await open_series(page, kFeather);
    const why = region(page, 'Why').getByRole('listitem');
    await expect(why).toHaveCount(3);
    await expect(why.nth(0)).toContainText('1765–1790');
    await expect(why.nth(0)).toContainText('from memory');
    await expect(why.nth(1)).toContainText('G. L. Miller 2015 notes');
    await expect(why.nth(1)).toContainText('read in the source');
    await expect(page.getByText('The latest year, 1790, rests on edge feather edge, from memory; without that there is no latest year.')).toBeVisible();
    const drawing = page.getByRole('figure', { name: 'The years of making, and what they rest on' });
    for (const title of [
      'Probability of each year: made between 1765 and 1790',
      '68 % of the probability: 1766–1789',
      '95 % of the probability: 1760–1796',
      'edge feather edge: 1765–1790, made in these years, from memory (from memory, no source at hand)',
      'ware creamware: 1762 or later, made in these years (G. L. Miller 2015 notes)',
    ]) {
      await expect(drawing.getByRole('img', { name: title, exact: true })).toBeVisible();
    }
    await expect(drawing.getByRole('img')).toHaveCount(6);
  });

  test('where no year fits, one press sets a piece of evidence aside and asks again, and another brings it back', async ({ page }) => {
    await open_series(page, kMisfit);
    await expect(statement(page, 'No year fits all the evidence.')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Set aside ware pearlware, technique transfer print: then 1890 or later' })).toBeVisible();
    await page.getByRole('button', { name: 'Set aside mark england: then 1784–1840' }).click();
    await expect(statement(page, 'Made between 1784 and 1840.')).toBeVisible();
    await expect(page).toHaveURL(/aside=mark%3DEngland/);
    await page.getByRole('button', { name: 'use again Mark England' }).click();
    await expect(statement(page, 'No year fits all the evidence.')).toBeVisible();
  });

  test('a row that rests on two observations is set aside with both', async ({ page }) => {
    await open_series(page, kMisfit);
    await page.getByRole('button', { name: /^Set aside ware pearlware, technique/ }).click();
    await expect(statement(page, 'Made in 1890 or later.')).toBeVisible();
    await expect(page.getByRole('button', { name: /^use again/ })).toHaveCount(2);
  });

  test('what to look at next leads to its field, and an answer there is taken by one press', async ({ page }) => {
    await open_series(page, kFeather);
    const next = region(page, 'What to look at next');
    await expect(next.getByRole('listitem').first()).toContainText('0.36 bits');
    await next.getByRole('button', { name: 'Look at the technique' }).click();
    await expect(field(page, 'Technique')).toBeFocused();
    await next.getByText('what it may show of its technique').click();
    await next.getByRole('button', { name: 'engine turning' }).click();
    await expect(statement(page, 'Made between 1770 and 1790.')).toBeVisible();
  });

  test('lost letters give what they may read, and the reading takes their place', async ({ page }) => {
    await open_series(page, ['legend=P*WELL*', 'mark=England']);
    await page.getByRole('button', { name: 'Take it as powell & bishop' }).click();
    await expect(page.getByRole('button', { name: 'use again Legend P*WELL*' })).toBeVisible();
    await expect(statement(page, 'Made between 1867 and 1878.')).toBeVisible();
  });

  test('look-alikes, notes and what is silent are said', async ({ page }) => {
    await open_series(page, ['ware=white granite', 'mark=none']);
    await expect(region(page, 'Look-alikes to rule out')).toContainText('white granite is thick, dense and often moulded');
    await expect(region(page, 'Notes')).toContainText('the absence of a mark of origin does not make a piece early');
    await open_series(page, ['firing=reduced']);
    await expect(region(page, 'Notes')).toContainText('Nothing that is known dates firing reduced.');
  });

  test('years before Christ are written so', async ({ page }) => {
    await open_series(page, ['ware=Iron Age scored ware']);
    await expect(statement(page, 'Made between 500 BC and 1 BC.')).toBeVisible();
    await expect(page.getByText('year, BC and AD')).toBeVisible();
  });

  test('the years considered and the margins can be said, and what is no year is told beside the field', async ({ page }) => {
    await open_series(page, kFeather);
    await page.getByText('Years considered, and margins').click();
    await page.getByLabel('From', { exact: true }).fill('1770');
    await expect(page.getByText('Give both years, the earlier one first')).toBeVisible();
    await page.getByLabel('to', { exact: true }).fill('1800');
    await expect(statement(page, 'Made between 1765 and 1790, most likely 1770-1790.')).toBeVisible();
    await expect(page).toHaveURL(/window=1770%3A1800/);
    await page.getByLabel('From', { exact: true }).fill('');
    await page.getByLabel('to', { exact: true }).fill('');
    await page.getByLabel('A span may be wrong at its ends by').fill('0');
    await expect(page).toHaveURL(/shoulders=0/);
    await expect(page.getByRole('img', { name: /^95 % of the probability: 176\d–17(8\d|90)$/ })).toBeVisible();
  });
});

test.describe('what the program does not know', () => {
  test.use({ expected: /^Failed to load resource/ });

  test('is told at its field with what may be meant, to be taken by one press', async ({ page }) => {
    await open_series(page, ['ware=pearlwre']);
    const ware = field(page, 'Ware');
    await expect(ware).toHaveAttribute('aria-invalid', 'true');
    await expect(ware).toHaveAccessibleDescription(/No ware "pearlwre" is known\./);
    await page.getByRole('alert').getByRole('button', { name: 'pearlware' }).click();
    await expect(statement(page, 'Made in 1775 or later.')).toBeVisible();
    await expect(ware).not.toHaveAttribute('aria-invalid', 'true');
  });

  test('an answer that does not come is told with the way out, and what was seen stays', async ({ page }) => {
    await page.route('**/api/when*', (route) => route.abort());
    await open_series(page, kFeather);
    const trouble = page.getByRole('alert').filter({ hasText: 'The program does not answer.' });
    await expect(trouble).toBeVisible();
    await expect(page.getByRole('button', { name: 'Take away Edge feather edge' })).toBeVisible();
    await page.unroute('**/api/when*');
    await trouble.getByRole('button', { name: 'Try again' }).click();
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
  });

  test('a notation that can not be read shows the place', async ({ page }) => {
    await open_series(page, [], { read: 'date', text: '13th c. or sommat' });
    const told = page.getByRole('status').filter({ hasText: 'cannot read the date' });
    const [first, second] = ((await told.locator('pre').textContent()) ?? '').split('\n') as [string, string];
    expect(first.slice(second.indexOf('^'))).toBe('sommat');
    await expect(told).toContainText('Readable are for example');
  });
});

test.describe('the field with suggestions', () => {
  test('Escape closes the list, then clears; arrows go round; a press takes one', async ({ page }) => {
    await open_series(page);
    const edge = field(page, 'Edge');
    await edge.focus();
    await page.keyboard.type('shell');
    const options = page.locator('[role=option]');
    await expect(options.first()).toHaveText('shell edge');
    const count = await options.count();
    expect(count).toBeGreaterThan(3);
    await page.keyboard.press('ArrowUp');
    await expect(options.nth(count - 1)).toHaveAttribute('aria-selected', 'true');
    await page.keyboard.press('ArrowDown');
    await expect(options.first()).toHaveAttribute('aria-selected', 'true');
    const active = await edge.getAttribute('aria-activedescendant');
    await expect(page.locator(`[id="${active}"]`)).toHaveText('shell edge');
    await page.keyboard.press('Escape');
    await expect(options).toHaveCount(0);
    await expect(edge).toHaveValue('shell');
    await page.keyboard.press('Escape');
    await expect(edge).toHaveValue('');
    await page.keyboard.type('feath');
    await options.filter({ hasText: 'feather edge' }).click();
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
    await expect(edge).toBeFocused();
  });
});

test.describe('reading a notation', () => {
  test('a date, by the count of its authority', async ({ page }) => {
    await open_series(page);
    await page.getByLabel('as written').fill('c. 1120-35');
    const reader = region(page, 'Read a notation');
    await expect(reader.getByText('1110–1145, circa')).toBeVisible();
    await expect(reader.getByText('Circa: 10 years either side.')).toBeVisible();
    await page.getByLabel('as counted by').selectOption('cco');
    await expect(reader.getByText('1115–1140, circa')).toBeVisible();
    await expect(page).toHaveURL(/read=date&text=c.\+1120-35&style=cco/);
  });

  test('a colour with its swatch', async ({ page }) => {
    await open_series(page);
    await page.getByLabel('What is written is').selectOption('colour');
    await page.getByRole('button', { name: '10YR 5/4', exact: true }).click();
    const swatch = page.getByRole('img', { name: '10YR 5/4, yellowish brown' });
    await expect(swatch.locator('rect')).toHaveCSS('fill', 'rgb(146, 116, 79)');
  });

  test('a firing by its zones, a size and a frequency on other scales, with what is lost', async ({ page }) => {
    await open_series(page, [], { read: 'firing', text: 'O/R/O' });
    const reader = region(page, 'Read a notation');
    await expect(reader.getByText('Outside oxidised, core reduced, inside oxidised')).toBeVisible();
    await open_series(page, [], { read: 'size', text: 'medium sand' });
    await expect(reader.getByRole('row', { name: /wentworth 1922/ })).toContainText('0.25–0.5 mm (1–2 phi)');
    await open_series(page, [], { read: 'frequency', text: 'sparse' });
    await expect(reader.getByRole('row', { name: /nrfrc 1998/ })).toContainText('falls into 2 classes by length: sparse 14 %, common 71 %');
    await page.getByLabel('on the scale').selectOption('pcrg');
    await expect(reader.getByRole('row').nth(1)).toContainText('pcrg 2010');
  });

  test('a mark with what was ruled out, taken over as evidence', async ({ page }) => {
    await open_series(page, [], { read: 'mark', text: 'diamond top=O left=G right=18 bottom=5' });
    const reader = region(page, 'Read a notation');
    await expect(reader.getByText('ruled out: the top corner has the letter O')).toBeVisible();
    await page.getByLabel('as written').fill('Rd No 821265');
    await expect(reader.getByText('1937 or later, design 821,265 registered in 1937')).toBeVisible();
    await page.getByRole('button', { name: 'Use it to date the piece' }).click();
    await expect(statement(page, 'Made in 1937 or later.')).toBeVisible();
  });
});

test.describe('what is known', () => {
  test('is listed with sources, narrowed by words and by key, and a row is seen on a piece', async ({ page }) => {
    await open_series(page);
    const known = region(page, 'What is known');
    const all = Number(/of (\d+) rows/.exec((await known.getByText(/^\d+ of \d+ rows$/).textContent()) ?? '')?.[1]);
    expect(all).toBeGreaterThan(300);
    await expect(known.getByRole('listitem')).toHaveCount(30);
    await known.getByRole('button', { name: 'Show 30 more' }).click();
    await expect(known.getByRole('listitem')).toHaveCount(60);
    await page.getByLabel('Find', { exact: true }).fill('feather');
    await page.getByLabel('in rows on').selectOption('edge');
    await expect(page).toHaveURL(/find=feather&names=edge/);
    const row = known.getByRole('listitem').filter({ hasText: '1765–1790' });
    await expect(row).toContainText('from memory');
    await row.getByRole('button', { name: 'see it on a piece with edge feather edge' }).click();
    await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
    await page.getByLabel('Find', { exact: true }).fill('no such thing');
    await expect(known.getByText('No row holds this.')).toBeVisible();
  });

  test('only the rows that name what is seen', async ({ page }) => {
    await open_series(page, ['ware=creamware']);
    await page.getByLabel('that name what is seen').check();
    const rows = region(page, 'What is known').getByRole('listitem');
    await expect(rows.first()).toContainText('ware creamware');
    expect((await rows.allTextContents()).every((text) => text.includes('ware creamware'))).toBe(true);
  });
});

test('the room is found again as it was left', async ({ page }) => {
  await open_series(page, kFeather, { read: 'colour', text: '10YR 5/4' });
  await page.getByRole('link', { name: 'Assemblage', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Assemblage' })).toBeVisible();
  await page.getByRole('link', { name: 'Series', exact: true }).click();
  await expect(statement(page, 'Made between 1765 and 1790.')).toBeVisible();
  await expect(page.getByLabel('as written')).toHaveValue('10YR 5/4');
});

test('every stop of the tab key in the room is seen, and none is left out', async ({ page }) => {
  await open_series(page, kFeather);
  await settled(page);
  await page.locator('main').focus();
  const seen: string[] = [];
  for (let stop = 0; stop < 40; ++stop) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement;
      const style = getComputedStyle(element);
      return { name: element.id || (element.textContent ?? '').trim(), outline: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 };
    });
    expect(found.outline, `the focus on ${found.name}`).toBe(true);
    seen.push(found.name);
  }
  for (const name of ['seen-ware', 'seen-region', 'Look at the technique', 'read-what', 'read-text', 'known-find']) expect(seen).toContain(name);
  expect(seen.indexOf('seen-ware')).toBeLessThan(seen.indexOf('seen-region'));
  expect(seen.indexOf('seen-region')).toBeLessThan(seen.indexOf('Look at the technique'));
});
