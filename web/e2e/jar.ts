import { expect, type Locator, type Page } from '@playwright/test';
import { settled } from './watch';

/** A jar drawn at half a millimetre a dot: axis at x 700, standing at y 620, rim 160 mm across and 250 mm up. */
export const kAxis = [700, 620] as const;
export const kScale = [[40, 60], [240, 60]] as const; // 100 mm, out of the way of news at the foot of the page
const kOuter = 'M700 620H620C430 480 470 250 540 120';
const kInner = 'M700 604H640C455 470 495 260 558 120';
/** Where its outer side has its least x: 620(1-t)³ + 3·430t(1-t)² + 3·470t²(1-t) + 540t³ is 481.9 at t 0.54. */
export const kWidest = 482;

/** Opens the tracing with the jar as its picture. */
export async function open_picture(page: Page): Promise<Locator> {
  await page.goto('/#/vessels?part=trace');
  await settled(page);
  const data = await page.evaluate(
    ([outer, inner]) => {
      const canvas = document.createElement('canvas');
      canvas.width = 900;
      canvas.height = 700;
      const context = canvas.getContext('2d') as CanvasRenderingContext2D;
      context.fillStyle = 'white';
      context.fillRect(0, 0, 900, 700);
      context.lineWidth = 3;
      for (const line of [outer, inner, 'M540 120H558', 'M40 60H240']) context.stroke(new Path2D(line));
      return canvas.toDataURL('image/png').split(',')[1] as string;
    },
    [kOuter, kInner],
  );
  await page.getByLabel('Picture', { exact: true }).setInputFiles({ name: 'jar.png', mimeType: 'image/png', buffer: Buffer.from(data, 'base64') });
  const picture = page.getByRole('application', { name: 'The picture, to be traced' });
  await expect(picture).toBeVisible();
  return picture;
}
/** Where a dot of the picture is on the page, once the page has come to rest. */
export async function spot(picture: Locator, x: number, y: number): Promise<{ x: number; y: number }> {
  await picture.scrollIntoViewIfNeeded();
  return picture.evaluate(
    async (frame, [at_x, at_y]) => {
      const place = () => new DOMPoint(at_x, at_y).matrixTransform((frame as SVGSVGElement).getScreenCTM() as DOMMatrix);
      const next_frame = () => new Promise((then) => requestAnimationFrame(then));
      let now = place();
      for (let still = 0; still < 3; ) {
        await next_frame();
        const then = place();
        still = then.x === now.x && then.y === now.y ? still + 1 : 0;
        now = then;
      }
      return { x: now.x, y: now.y };
    },
    [x, y] as const,
  );
}
/** Clicks on dots of the picture, one after the other; the cross tells that each has arrived. */
export async function click(page: Page, picture: Locator, places: readonly (readonly [number, number])[]): Promise<void> {
  for (const [x, y] of places) {
    const at = await spot(picture, x, y);
    await page.mouse.click(at.x, at.y);
    await expect
      .poll(async () => {
        const [, left, height, wide] = /M([\d.-]+) ([\d.-]+)h([\d.-]+)/.exec((await picture.locator('.cross').getAttribute('d')) ?? '') ?? [];
        return Math.hypot(Number(left) + Number(wide) / 2 - x, Number(height) - y);
      })
      .toBeLessThan(2);
  }
}
