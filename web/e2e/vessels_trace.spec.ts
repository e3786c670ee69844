// A section traced over a picture of known measures, with its points put right, by pointer and by keys.
import type { Locator, Page } from '@playwright/test';
import { click, kAxis, kScale, kWidest, open_picture, spot } from './jar';
import { axe, expect, test } from './watch';

test.describe.configure({ mode: 'default', timeout: 60_000 });

async function drag(page: Page, picture: Locator, from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  const [a, b] = [await spot(picture, ...from), await spot(picture, ...to)];
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2);
  await page.mouse.move(b.x, b.y);
  await page.mouse.up();
}
/** The least x of a side's line. */
async function widest(picture: Locator, side: string): Promise<number> {
  const path = (await picture.locator(`path.${side}`).getAttribute('d')) ?? '';
  return Math.min(...[...path.matchAll(/[ML](-?[\d.]+) /g)].map(([, x]) => Number(x)));
}
/** What the section measures, mm. */
async function measured(page: Page): Promise<{ high: number; rim: number }> {
  const said = (await page.getByText(/mm high, rim/).textContent()) ?? '';
  const [, high, rim] = /([\d.]+)\s*mm high, rim ([\d.]+)\s*mm/.exec(said) ?? [];
  return { high: Number(high), rim: Number(rim) };
}
const clicks = (picture: Locator, side: string) => picture.locator(`circle.${side}`);

test('a jar is traced over its drawing, a wrong point dragged to its place, and kept', async ({ page }) => {
  test.skip(!process.env.BASE_URL, 'needs the program, which follows the line');
  const picture = await open_picture(page);
  await click(page, picture, kScale);
  await expect(page.getByText('one pixel is 0.5')).toBeVisible();
  await click(page, picture, [kAxis]);
  await expect(page.getByText('Click along the outer side')).toBeVisible();
  await click(page, picture, [kAxis, [620, 620], [600, 400], [540, 120]]);
  await expect(clicks(picture, 'outer')).toHaveCount(4);
  await drag(page, picture, [600, 400], [484, 366]);
  await expect(page.getByText('point 3 of 4 is picked')).toBeVisible();
  await expect.poll(async () => Math.abs((await widest(picture, 'outer')) - kWidest)).toBeLessThan(2);

  // A click on the line goes in between; it is removed by key or button, and comes back.
  await click(page, picture, [[660, 620]]);
  await expect(page.getByText('point 2 of 5 is picked')).toBeVisible();
  await page.keyboard.press('Delete');
  await expect(clicks(picture, 'outer')).toHaveCount(4);
  await page.getByRole('button', { name: 'Take back' }).click();
  await expect(clicks(picture, 'outer')).toHaveCount(5);
  await click(page, picture, [[660, 620]]);
  await page.getByRole('button', { name: 'Remove this point' }).click();
  await expect(clicks(picture, 'outer')).toHaveCount(4);
  await expect.poll(async () => Math.abs((await widest(picture, 'outer')) - kWidest)).toBeLessThan(2);

  await page.getByRole('button', { name: 'Inner side' }).click();
  await click(page, picture, [[700, 604], [640, 604], [502, 366], [558, 120], [540, 120]]);
  await page.getByLabel('Piece', { exact: true }).fill('T9');
  await page.getByLabel('Part', { exact: true }).fill('profile');
  await page.getByRole('button', { name: 'Measure and check' }).click();
  await expect(page.getByText('The checks find nothing.')).toBeVisible();
  const { high, rim } = await measured(page);
  expect(Math.abs(high - 250)).toBeLessThan(2);
  expect(Math.abs(rim - 160)).toBeLessThan(3);
  await expect(page.getByRole('img', { name: 'Outline of T9' })).toBeVisible();

  // The stretch up to the shoulder is said to be conjecture, and drawn so.
  await expect(page.getByLabel('Not seen from the point before to this one')).toBeDisabled();
  await click(page, picture, [[502, 366]]);
  await page.getByLabel('Not seen from the point before to this one').check();
  await expect(picture.locator('path.unseen').nth(1)).not.toHaveAttribute('d', '');
  await page.getByRole('button', { name: 'Measure and check' }).click();
  await expect(page.getByRole('img', { name: 'Outline of T9' }).locator('.conjectured')).not.toHaveCount(0);
  expect(await axe(page)).toEqual([]);
  await page.getByRole('button', { name: 'Keep the section' }).click();
  await expect(page.getByText('Kept as a section of T9.')).toBeVisible();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(page.getByText('All is in the record')).toBeVisible();
});

test('a rim sherd that shows no axis is set up by the diameter measured on it', async ({ page }) => {
  test.skip(!process.env.BASE_URL, 'needs the program, which follows the line');
  const picture = await open_picture(page);
  await click(page, picture, kScale);
  await page.getByRole('button', { name: 'Outer side' }).click();
  await click(page, picture, [[484, 366], [540, 120]]);
  await page.getByRole('button', { name: 'Inner side' }).click();
  await click(page, picture, [[502, 366], [558, 120], [540, 120]]);
  await expect(page.getByText('the line lies on dark')).toBeVisible();
  const check = page.getByRole('button', { name: 'Measure and check' });
  await expect(check).toBeDisabled();
  await page.getByLabel('Part', { exact: true }).fill('rim');
  await page.getByLabel('Rim diameter as measured').fill('20 cm');
  await page.getByLabel('Turned outwards').fill('ten');
  await expect(check).toBeDisabled();
  await page.getByLabel('Turned outwards').fill('');
  await page.getByRole('combobox', { name: /^Stance/ }).selectOption('measured');
  await check.click();
  const { high, rim } = await measured(page);
  expect(rim).toBe(200);
  expect(Math.abs(high - 123)).toBeLessThan(3); // 246 pixels, less what was drawn beside the rim
  await page.getByLabel('Turned outwards').fill('10');
  await check.click();
  await expect.poll(async () => (await measured(page)).high).not.toBe(high);
  expect(await axe(page)).toEqual([]);
});

test('the scale is set, put right and taken back by keys alone, also where the picture is larger than its box', async ({ page }) => {
  const picture = await open_picture(page);
  await page.getByRole('combobox', { name: /^Size/ }).selectOption({ label: 'four times' });
  await picture.focus();
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const right = (times: number) => Array.from({ length: times }, () => 'Shift+ArrowRight');
  await press('Enter', ...right(5), 'Enter');
  await expect(page.getByText('one pixel is 1.000 mm')).toBeVisible();
  await expect(page.getByText('Click on the axis')).toBeVisible();
  await expect(picture.locator('.cross')).toBeInViewport();

  await press('Backspace');
  await expect(page.getByText('Click the two ends')).toBeVisible();
  await expect(clicks(picture, 'scale')).toHaveCount(1);
  await press(...right(5), 'Enter');
  await expect(page.getByText('one pixel is 0.500 mm')).toBeVisible();

  await page.getByRole('button', { name: /^Scale/ }).click();
  await picture.focus();
  await press('Enter', 'Shift+ArrowLeft');
  await expect(page.getByText('point 2 of 2 is picked')).toBeVisible();
  await press('Escape');
  await expect(page.getByText('one pixel is 0.500 mm')).toBeVisible();
  await press('Shift+ArrowRight', 'Enter', ...right(5), 'Enter');
  await expect(page.getByText('one pixel is 0.333 mm')).toBeVisible();
  await press('Delete');
  await expect(clicks(picture, 'scale')).toHaveCount(1);
});
