// What is done in the Vessels room: sections typed, pieces joined and amended, files by one click, the register's numbers.
// Each test leaves the record as it was, since on the program itself all share one.
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { kTyped } from './requests.mjs';
import { axe, expect, settled, test } from './watch';

test.describe.configure({ mode: 'default' });
test.use({ expected: /422/ }); // what the program refuses, the browser tells, too

async function open_room(page: Page, query = ''): Promise<void> {
  await page.goto(`/#/vessels${query}`);
  await expect(page.getByRole('heading', { name: 'Vessels', exact: true })).toBeVisible();
  await settled(page);
}
async function paste(page: Page, text: string): Promise<void> {
  await page.getByLabel('From the axis, mm, row 1').evaluate((field, given) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', given);
    field.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}
async function saved(page: Page, what: string, kind: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('group', { name: what }).getByRole('button', { name: kind, exact: true }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}
async function all_in(page: Page): Promise<void> {
  await expect(page.locator('[data-waiting="0"]')).toBeVisible();
  await expect(page.getByText('All is in the record')).toBeVisible();
}
const table = (points: { r_mm: number; z_mm: number; side: string }[]) => points.map((p) => [p.r_mm, p.z_mm, p.side].join('\t')).join('\n');

test('a section pasted from a spreadsheet is checked at once, put right and kept', async ({ page }) => {
  await open_room(page, '?part=points');
  await page.getByLabel('Piece', { exact: true }).fill('T1');
  await page.getByLabel('Part', { exact: true }).fill('rim');
  await paste(page, table(kTyped.crossed));
  await expect(page.getByText('Outer and inner side cross at z 12.5 mm. Look for a point on the wrong side of the wall.')).toBeVisible();
  expect(await axe(page)).toEqual([]);
  await page.getByLabel('From the axis, mm, row 4').fill('61');
  await expect(page.getByText('The checks find nothing.')).toBeVisible();
  await expect(page.getByText('50 mm high, rim 124 mm')).toBeVisible();
  await expect(page.getByRole('img', { name: 'Outline of T1' })).toBeVisible();
  await page.getByRole('button', { name: 'Keep the section' }).click();
  await expect(page.getByText('Kept as a section of T1.')).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await all_in(page);
});

test('points are typed by keys alone, and what is no number is told with its row', async ({ page }) => {
  await open_room(page, '?part=points');
  const first = page.getByLabel('From the axis, mm, row 1');
  await first.focus();
  for (const key of ['7', '0', 'Enter', '0', 'Enter', 'a', 'b', 'Enter', '5', '0']) await page.keyboard.press(key);
  await expect(page.getByLabel('Height, mm, row 2')).toBeFocused();
  await expect(page.getByText('Row 2: "ab" is no number of millimetres.')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Keep the section' })).toBeDisabled();
  await page.keyboard.press('ArrowUp');
  await expect(page.getByLabel('Height, mm, row 1')).toBeFocused();
  for (const row of [3, 4]) await expect(page.getByLabel(`Side, row ${row}`)).toHaveValue('outer');
  await page.getByRole('button', { name: 'Go on with the inner side' }).click();
  await expect(page.getByLabel('Side, row 4')).toHaveValue('inner');
});

test('the points of a piece are fetched to be amended', async ({ page }) => {
  await open_room(page, '?piece=P30');
  await page.getByRole('link', { name: 'Amend its points' }).click();
  await expect(page.getByLabel('Piece', { exact: true })).toHaveValue('P30');
  await expect(page.getByLabel('From the axis, mm, row 1', { exact: true })).toHaveValue('0');
  await expect(page.getByText('24 mm high, rim 230 mm')).toBeVisible();
  expect(await page.getByRole('row').count()).toBeGreaterThan(12);
});

test('two pieces are laid on each other, looked at and kept as a third', async ({ page }) => {
  await open_room(page, '?part=join');
  await page.getByLabel('Upper piece, with the rim').selectOption('P3');
  await page.getByLabel('Lower piece').selectOption('P6');
  await page.getByRole('button', { name: 'See how they lie' }).click();
  await expect(page.getByRole('alert')).toContainText('The two sections do not lie on each other anywhere (best gap 15.9 mm). Give the height of the whole vessel');
  await page.getByLabel('Upper piece, with the rim').selectOption('P1');
  await page.getByLabel('Lower piece').selectOption('P2');
  await page.getByRole('button', { name: 'See how they lie' }).click();
  await expect(page.getByText('Both show 243 mm of the wall, 0.00 mm apart there.')).toBeVisible();
  await expect(page.getByRole('img', { name: 'P1 laid on P2' })).toBeVisible();
  expect(await axe(page)).toEqual([]);
  await page.getByLabel('Name of the whole').fill('P4');
  await expect(page.getByText('P4 is a piece of its own; give the whole another name.')).toBeVisible();
  await page.getByLabel('Name of the whole').fill('J1');
  await page.getByRole('button', { name: 'Keep the whole' }).click();
  await expect(page.getByText('Kept as piece J1.')).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await all_in(page);
});

test('what was measured of a piece is amended, and undone', async ({ page }) => {
  await open_room(page, '?piece=P3');
  await page.getByText('Amend what was measured').click();
  const diameter = page.getByLabel('Rim diameter, mm');
  await expect(diameter).toHaveValue('140');
  await diameter.fill('15 cm');
  await diameter.press('Tab');
  await expect(diameter).toHaveValue('150');
  await page.getByText('Newest changes of the record').click();
  await page.getByRole('button', { name: /^Undo: / }).click();
  await expect(diameter).toHaveValue('140');
  await page.getByLabel('New band').selectOption('cordon');
  await page.getByLabel('From height, mm').last().fill('40');
  await page.getByRole('button', { name: 'Add the band' }).click();
  await expect(page.getByRole('group', { name: 'Band 3' })).toBeVisible();
  expect(await axe(page)).toEqual([]);
  await page.getByRole('button', { name: 'Remove band 3' }).click();
  await expect(page.getByRole('group', { name: 'Band 3' })).toHaveCount(0);
  await all_in(page);
});

test('a rim is measured by chord and sagitta; three points in a line are refused', async ({ page }) => {
  await open_room(page, '?piece=P3');
  await page.getByText('Measure the rim').click();
  await page.getByLabel('Chord, mm').fill('60');
  await page.getByLabel('Sagitta, mm').fill('4');
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await expect(page.getByText('229 mm', { exact: true })).toBeVisible(); // 2 (4/2 + 60²/32), any schoolbook
  await page.getByLabel('By', { exact: true }).selectOption('points');
  await page.getByLabel('x and y of each point in mm, a line a point').fill('0\t0\n10\t10\n20\t20');
  await page.getByRole('button', { name: 'Measure', exact: true }).click();
  await expect(page.getByRole('alert')).toContainText('The points lie in a straight line, on no circle.');
});

test('a section is removed, and comes back', async ({ page }) => {
  await open_room(page, '?piece=P5');
  await page.getByRole('button', { name: 'Remove the section' }).click();
  await expect(page.getByText(/^The section of P5 is removed, \d+ points\./)).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).first().click();
  await all_in(page);
  await expect(page.locator('.figure svg')).toBeVisible();
});

test('drawing, plates, rim chart and brief are saved by one click each', async ({ page }) => {
  await open_room(page, '?piece=P30');
  for (const [kind, begins] of [['PDF', '%PDF-'], ['SVG', '<svg'], ['PNG', '\x89PNG']] as const) {
    const file = await saved(page, 'Save the drawing', kind);
    expect(file.name).toBe(`P30.${kind.toLowerCase()}`);
    expect(file.bytes.subarray(0, begins.length).toString('latin1')).toBe(begins);
  }
  const chart = await saved(page, 'Save a rim chart at true size', 'SVG');
  expect(chart.bytes.toString()).toContain('width="297.00mm"');
  await open_room(page, '?part=plate');
  expect((await saved(page, 'plates', 'PDF')).name).toBe('plate.pdf');
  await open_room(page, '?part=register');
  const brief = await saved(page, 'Save the brief for the illustrator', 'PDF');
  expect(brief.bytes.subarray(0, 5).toString()).toBe('%PDF-');
  await expect(page.getByText('Saved: brief.pdf.')).toBeVisible();
});

test('the catalogue closes up when a drawing drops out, and opens again', async ({ page }) => {
  await open_room(page, '?part=register');
  const row = (drawing: string) => page.getByRole('row', { name: new RegExp(`^${drawing} `) });
  const renumber = page.getByRole('button', { name: 'Close the gaps in the numbers' });
  await renumber.click();
  await expect(page.getByText(/drawings? renumbered; undo takes it back\.|The numbers stand as they should\./)).toBeVisible();
  const was = await row('D4').getByRole('cell').first().textContent();
  await page.getByRole('button', { name: 'Amend D2', exact: false }).first().click();
  await page.locator('.sheet').getByLabel('Status').selectOption('dropped');
  await all_in(page);
  await renumber.click();
  await expect(row('D4').getByRole('cell').first()).toHaveText(String(Number(was) - 1));
  await expect(row('D2').getByRole('cell').first()).not.toHaveText(/\d/);
  await page.locator('.sheet').getByLabel('Status').selectOption('to_draw');
  await all_in(page);
});

for (const query of ['?part=points', '?part=join', '?piece=P3']) {
  test(`nothing in the room${query} is out of reach of those who cannot see or point`, async ({ page }) => {
    await open_room(page, query);
    for (const name of ['Add a piece', 'Amend what was measured', 'Measure the rim', 'Newest changes of the record']) {
      const summary = page.getByText(name, { exact: true });
      if (await summary.count()) await summary.first().click();
    }
    await settled(page);
    expect(await axe(page)).toEqual([]);
  });
}
