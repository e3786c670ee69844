// The Recording room by keys alone: with recorded answers and a record in memory, and with the program itself.
import type { Page } from '@playwright/test';
import { all_saved, Bench, Hands, kHasProgram, open_context, own_record, record_card, to_context, with_pages, type CardLine } from './recording';
import { axe, expect, settled, test } from './watch';

const kBase = process.env.BASE_URL ? new URL('/', process.env.BASE_URL).origin : 'http://127.0.0.1:4173';
const kMock = !process.env.BASE_URL || process.env.MOCK === 'yes';

/** Three contexts as they were written on a card at the bench: 20, 6 and 4 lines. */
const kCard: Record<string, CardLine[]> = {
  '1003': [
    { fabric: 'grey-1', part: 'body', count: '14', weight_g: '182' },
    { fabric: 'grey-1', part: 'rim', count: '2', weight_g: '31', form: 'jar', rim_percent: '12', rim_diameter_mm: '160' },
    { fabric: 'grey-1', part: 'base', count: '3', weight_g: '74' },
    { fabric: 'shell-3', part: 'body', count: '9', weight_g: '120' },
    { fabric: 'shell-3', part: 'rim', count: '1', weight_g: '18', form: 'jar', rim_percent: '7', rim_diameter_mm: '220' },
    { fabric: 'sandy-2', part: 'body', count: '22', weight_g: '301' },
    { fabric: 'sandy-2', part: 'rim', count: '3', weight_g: '52', form: 'cooking-pot', rim_percent: '15', rim_diameter_mm: '240' },
    { fabric: 'sandy-2', part: 'base', count: '4', weight_g: '90' },
    { fabric: 'green-glaze-2', part: 'body', count: '6', weight_g: '48' },
    { fabric: 'green-glaze-2', part: 'handle', count: '1', weight_g: '66', form: 'jug' },
    { fabric: 'tin-glaze', part: 'rim', count: '1', weight_g: '8', form: 'plate', decoration: 'blue painted', rim_percent: '6', rim_diameter_mm: '230' },
    { fabric: 'tin-glaze', part: 'body', count: '3', weight_g: '14' },
    { fabric: 'slip-trail', part: 'rim', count: '2', weight_g: '40', form: 'mug', decoration: 'trailed', rim_percent: '18', rim_diameter_mm: '90' },
    { fabric: 'slip-trail', part: 'body', count: '7', weight_g: '61' },
    { fabric: 'red-glaze-1', part: 'body', count: '12+7', weight_g: '402' },
    { fabric: 'red-glaze-1', part: 'base', count: '2', weight_g: '85' },
    { fabric: 'brown-stone', part: 'body', count: '5', weight_g: '77' },
    { fabric: 'brown-stone', part: 'rim', count: '1', weight_g: '24', form: 'bottle', rim_percent: '33', rim_diameter_mm: '40' },
    { fabric: 'cream-1', part: 'rim', count: '4', weight_g: '22', form: 'plate', rim_percent: '11', rim_diameter_mm: '250' },
    { fabric: 'cream-1', part: 'body', count: '8', weight_g: '30,5' },
  ],
  '1006': [
    { fabric: 'grey-1', part: 'body', count: '5', weight_g: '61' },
    { fabric: 'grey-2', part: 'body', count: '11', weight_g: '1.2 kg' },
    { fabric: 'shell-3?', part: 'rim', count: '1', weight_g: '12', form: 'jar', rim_percent: '5', rim_diameter_mm: '18 cm' },
    { fabric: 'oxid-1', part: 'body', count: '2', weight_g: '9' },
    { fabric: 'oxid-1', part: 'base', count: '1', weight_g: '20' },
    { fabric: 'red-gloss', part: 'rim', count: '1', weight_g: '4', rim_percent: '3' },
  ],
  '1008': [
    { fabric: 'sandy-1', part: 'body', count: '7', weight_g: '88' },
    { fabric: 'sandy-1', part: 'rim', count: '1', weight_g: '16', form: 'cooking-pot', rim_percent: '8', rim_diameter_mm: '200' },
    { fabric: 'green-glaze-1', part: 'body', count: '2', weight_g: '19' },
    { fabric: 'shell-3', part: 'body', count: '3', weight_g: '25' },
  ],
};

/** What the hands type for a code: as little as the room needs. */
const kShort: Record<string, string> = {
  'grey-1': 'g1', 'grey-2': 'g2', 'shell-3': 's3', 'shell-3?': 's3?', 'sandy-1': 'sa1', 'sandy-2': 'sa2', 'green-glaze-1': 'gg1',
  'green-glaze-2': 'gg2', 'tin-glaze': 'ti', 'slip-trail': 'sl', 'red-glaze-1': 'rg1', 'red-gloss': 'red-glo', 'brown-stone': 'bro', 'cream-1': 'cr',
  'oxid-1': 'ox', body: 'b', rim: 'r', base: 'ba', handle: 'h', jar: 'jar', 'cooking-pot': 'coo', jug: 'jug', plate: 'pl', mug: 'mu', bottle: 'bot',
};

/** What a card's value is in the record. */
const kValue: Record<string, string> = { '12+7': '19', '30,5': '30.5', '1.2 kg': '1200', '18 cm': '180', 'shell-3?': 'shell-3' };
const in_record = (lines: readonly CardLine[]) =>
  lines.map((line) => Object.fromEntries(Object.entries(line).map(([column, value]) => [column, kValue[value] ?? value])));

/**
 * What a spreadsheet would have asked for the same lines, every value in full and a key between cells: with record number,
 * context, bag and box typed on each line; and where these four are filled down at no cost at all.
 */
function in_a_spreadsheet(context: string, lines: readonly CardLine[], filled: boolean): number {
  return lines.reduce((sum, line, at) => {
    const beside = filled ? [] : [String(5000 + at), context, '1', '1'];
    const cells = [...beside, line.fabric, line.part, line.count, line.weight_g, line.form ?? '', line.decoration ?? '', line.rim_percent ?? '', line.rim_diameter_mm ?? ''];
    while (cells[cells.length - 1] === '') cells.pop();
    return sum + cells.join('').length + cells.length;
  }, 0);
}

async function record_three(page: Page, base: string): Promise<void> {
  await open_context(page, '1003', base);
  const told: string[] = [];
  for (const [context, lines] of Object.entries(kCard)) {
    if (context !== '1003') {
      await page.keyboard.press('Shift+F6');
      await expect(page.locator('#queue-find')).toBeFocused();
      await to_context(page, context);
    }
    const hands = new Hands(page);
    const begun = Date.now();
    await record_card(hands, lines, kShort);
    await all_saved(page);
    const seconds = (Date.now() - begun) / 1000;
    told.push(`${context}: ${lines.length} lines, ${hands.struck} keys here, in a spreadsheet ${in_a_spreadsheet(context, lines, false)}, with number, context, bag and box filled down for nothing ${in_a_spreadsheet(context, lines, true)}, ${seconds.toFixed(1)} s by machine`);
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', String(lines.length + 2));
  }
  console.log(told.join('\n'));
}

test.describe('with a record in memory', () => {
  test.skip(!kMock, 'the record in memory is the recorded server’s');
  test.use({ expected: /status of (400|409)|ERR_INTERNET_DISCONNECTED|ERR_FAILED|Failed to fetch/ });
  test.beforeEach(async ({ context }) => own_record(context, kBase));

  test('three contexts are recorded from a written card without a mouse', async ({ page }) => {
    test.setTimeout(120_000);
    await record_three(page, '');
    const rows = await page.evaluate(async () => (await (await fetch('/api/rows?kind=sherds&where=context%3D1003&limit=100')).json()).rows);
    const values = rows.map((row: { values: Record<string, string> }) => row.values);
    expect(values).toHaveLength(20);
    in_record(kCard['1003'] ?? []).forEach((line, at) => expect(values[at]).toMatchObject(line));
  });

  test('doubt, a sum, a comma and a unit are shown as they were read', async ({ page }) => {
    await open_context(page, '1003');
    await page.keyboard.type('s3?');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('12+7');
    await expect(page.locator('#grid-tip')).toHaveText(/= 19/);
    await page.keyboard.press('Tab');
    await page.keyboard.type('1,2 kg');
    await expect(page.locator('#grid-tip')).toHaveText(/= 1200 g/);
    await page.keyboard.press('Enter');
    await all_saved(page);
    const line = page.getByRole('row', { name: /^20001/ });
    await expect(line).toContainText('shell-3?');
    await expect(line).toContainText('19');
    await expect(line).toContainText('1200');
  });

  test('500 lines pasted are one change, and one key takes them back', async ({ page, context }) => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await open_context(page, '1003');
    const table = ['Fabric\tPart\tNo\tWt (g)\tBox', ...Array.from({ length: 500 }, (_, at) => `grey-${1 + (at % 3)}\tbody\t${1 + (at % 9)}\t${10 + at},5\t4`)].join('\n');
    const posts: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'POST') posts.push(request.postData() ?? '');
    });
    await page.evaluate((text) => navigator.clipboard.writeText(text), table);
    await page.keyboard.press('Control+V');
    await expect(page.getByText('500 lines pasted.')).toBeVisible();
    await all_saved(page);
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '502');
    await expect(page.getByText(/^500 lines, [\d,]+ sherds/)).toBeVisible();
    expect(posts).toHaveLength(1);
    expect((JSON.parse(posts[0] ?? '{}') as { steps: unknown[] }).steps).toHaveLength(500);
    expect(await page.locator('.lines tbody tr:not([aria-hidden])').count(), 'rows drawn').toBeLessThan(80);
    await page.keyboard.press('Control+Z');
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '2');
    await page.keyboard.press('Control+Y');
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '502');
  });

  test('a refused cell keeps what was typed, says why beside it, and is taken when it is mended', async ({ page }) => {
    await open_context(page, '1013');
    await page.keyboard.press('Control+Home');
    for (const key of ['Tab', 'Tab', 'Tab']) await page.keyboard.press(key);
    await page.keyboard.type('a lot');
    await page.keyboard.press('Enter');
    await expect(page.getByText('1 cell to settle')).toBeVisible();
    await page.keyboard.press('F8');
    const field = page.locator('.lines input');
    await expect(field).toHaveValue('a lot');
    await expect(field).toHaveAttribute('aria-invalid', 'true');
    await expect(page.locator('#grid-tip')).toContainText('is not read as a value');
    expect(await axe(page)).toEqual([]);
    await page.reload();
    await expect(page.getByText('1 cell to settle')).toBeVisible();
    await page.keyboard.press('F8');
    await expect(page.locator('.lines input')).toHaveValue('a lot');
    await page.keyboard.type('24');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await expect(page.getByText('to settle')).toHaveCount(0);
  });

  test('a new fabric is made on the spot, as provisional, with the line that has it', async ({ page }) => {
    await open_context(page, '1003');
    await page.keyboard.type('zebra-9');
    await expect(page.getByRole('option', { name: /zebra-9 new fabric, provisional/ })).toBeVisible();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('3');
    await page.keyboard.press('Enter');
    await all_saved(page);
    const made = await page.evaluate(async () => (await (await fetch('/api/rows?kind=fabrics&where=fabric%3Dzebra-9')).json()).rows);
    expect(made[0].values).toEqual({ fabric: 'zebra-9', status: 'provisional' });
  });

  test('fill down, line again, several lines at once, merge, split and remove need no mouse', async ({ page }) => {
    await open_context(page, '1003');
    const hands = new Hands(page);
    await record_card(hands, (kCard['1008'] ?? []).slice(0, 3), kShort);
    await all_saved(page);
    await page.keyboard.press('Control+Home');
    for (let at = 0; at < 8; ++at) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.type('1');
    await page.keyboard.press('Control+Enter');
    await all_saved(page);
    const column = (name: string) => page.evaluate(async (wanted) => {
      const rows = (await (await fetch('/api/rows?kind=sherds&where=context%3D1003')).json()).rows as { values: Record<string, string> }[];
      return rows.map((row) => row.values[wanted] ?? '');
    }, name);
    expect(await column('vessels')).toEqual(['1', '1', '1']);
    await page.keyboard.press('Control+Shift+M');
    await expect(page.getByRole('region', { name: 'Merge lines' })).toContainText('10 sherds, 123.0 g');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '3');
    await page.keyboard.press('Control+Z');
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '5');
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Control+Shift+S');
    await page.keyboard.type('2');
    await page.keyboard.press('Tab');
    await page.keyboard.type('20');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '6');
    expect(await column('count')).toEqual(['5', '1', '2', '2']);
    expect(await column('weight_g')).toEqual(['68', '16', '19', '20']);
    await page.keyboard.press('Control+Shift+D');
    await page.keyboard.type('4');
    await page.keyboard.press('Enter');
    await all_saved(page);
    expect(await column('fabric')).toEqual(['sandy-1', 'sandy-1', 'green-glaze-1', 'sandy-1', 'sandy-1']);
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Control+Delete');
    await all_saved(page);
    expect(await column('fabric')).toHaveLength(4);
  });

  test('lines that lay in the wrong bag go to another context as one change, and come back by one key', async ({ page }) => {
    await open_context(page, '1003');
    const hands = new Hands(page);
    await record_card(hands, (kCard['1008'] ?? []).slice(0, 3), kShort);
    await all_saved(page);
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+Shift+X');
    const task = page.getByRole('region', { name: 'Move lines to another context' });
    await expect(task).toContainText('2 lines: records ');
    await page.keyboard.type('9999');
    await page.keyboard.press('Enter');
    await expect(task.getByRole('status')).toContainText('The record has no context 9999');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('1004');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await expect(task).toHaveCount(0);
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '3');
    const fabrics = (context: string) => page.evaluate(async (wanted) => {
      const rows = (await (await fetch(`/api/rows?kind=sherds&where=context%3D${wanted}`)).json()).rows as { values: Record<string, string> }[];
      return rows.map((row) => row.values.fabric);
    }, context);
    expect(await fabrics('1003')).toEqual(['green-glaze-1']);
    expect((await fabrics('1004')).slice(-2)).toEqual(['sandy-1', 'sandy-1']);
    await page.keyboard.press('Control+Z');
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '5');
  });

  test('two people on one cell: the second is shown both, and chooses', async ({ page, context }) => {
    await open_context(page, '1013');
    const other = await context.newPage();
    await open_context(other, '1013');
    for (const one of [page, other]) {
      await one.keyboard.press('Control+Home');
      for (const key of ['Tab', 'Tab']) await one.keyboard.press(key);
    }
    await page.route('**/api/edits', (route) => route.abort());
    await page.keyboard.type('21');
    await page.keyboard.press('Enter');
    await expect(page.getByText(/kept in this browser/)).toBeVisible();
    await other.keyboard.type('20');
    await other.keyboard.press('Enter');
    await all_saved(other);
    await page.unroute('**/api/edits');
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await expect(page.getByText('1 cell to settle')).toBeVisible();
    await expect(page.locator('#matters')).toContainText('sherds was 3; recorder has made it 20. Typed here: 21.');
    await page.keyboard.press('F8');
    await expect(page.locator('.lines input')).toHaveValue('21');
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: 'Write 21' }).press('Enter');
    await all_saved(page);
    const now = await page.evaluate(async () => (await (await fetch('/api/rows?kind=sherds&where=record%3D10076')).json()).rows[0].values.count);
    expect(now).toBe('21');
  });

  test('without a connection the page says so, keeps what is typed over a reload, and sends it in order, once', async ({ page, context }) => {
    await open_context(page, '1003');
    const posts: string[] = [];
    await page.route('**/api/edits', (route) => route.abort());
    const hands = new Hands(page);
    await record_card(hands, (kCard['1008'] ?? []).slice(0, 3), kShort);
    await expect(page.getByText(/changes? kept in this browser\. The program does not answer/)).toBeVisible();
    await expect(page.getByRole('row').filter({ hasText: 'green-glaze-1' })).toBeVisible();
    await page.reload();
    await expect(page.getByRole('row').filter({ hasText: 'green-glaze-1' })).toBeVisible();
    await expect(page.getByText(/kept in this browser/)).toBeVisible();
    await page.unroute('**/api/edits');
    page.on('request', (request) => {
      if (request.method() === 'POST') posts.push((JSON.parse(request.postData() ?? '{}') as { change: string }).change);
    });
    await page.getByRole('button', { name: 'Try now' }).press('Enter');
    await all_saved(page);
    const fabrics = await page.evaluate(async () => ((await (await fetch('/api/rows?kind=sherds&where=context%3D1003')).json()).rows as { values: Record<string, string> }[]).map((row) => [row.values.fabric, row.values.count, row.values.weight_g]));
    expect(fabrics).toEqual([['sandy-1', '7', '88'], ['sandy-1', '1', '16'], ['green-glaze-1', '2', '19']]);
    expect(new Set(posts).size).toBe(posts.length);
    expect(await context.pages()).toHaveLength(1);
  });

  test('a record number is found from anywhere', async ({ page }) => {
    await page.goto('/#/recording');
    await expect(page.locator('#queue-list [role=option]').first()).toBeVisible();
    await page.keyboard.press('Control+G');
    await page.keyboard.type('10087');
    await expect(page.getByRole('option', { name: /10087/ })).toBeVisible();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'Context 1013' })).toBeVisible();
    await expect(page.locator('.lines input')).toBeFocused();
    await expect(page.locator('.lines input')).toHaveValue('white-1');
  });

  test('a scan is a line a context, and says later what no line accounts for', async ({ page }) => {
    await page.goto('/#/recording?view=scan');
    const field = page.getByRole('textbox', { name: 'wares of context 1003' });
    await field.focus();
    await page.keyboard.type('g1');
    await page.keyboard.press('Tab');
    await page.keyboard.type('12; shell-3 M');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: 'wares of context 1004' })).toBeFocused();
    await all_saved(page);
    await page.keyboard.press('F6');
    await to_context(page, '1003');
    await expect(page.getByText('grey-1: 12 sherds not on a line; shell-3 M: no line yet.')).toBeVisible();
    await page.getByRole('button', { name: 'Open out into lines' }).press('Enter');
    await all_saved(page);
    await expect(page.getByText('shell-3 M: no line yet.')).toHaveCount(0);
    await expect(page.getByRole('row').filter({ hasText: 'grey-1' })).toContainText('12');
  });

  test('a picture is made small in the page and stands under its line', async ({ page }) => {
    await open_context(page, '1013');
    await page.keyboard.press('Control+Home');
    const input = page.getByLabel(/Drop pictures here/);
    await expect(input).toBeVisible();
    const bytes = await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = 900;
      canvas.height = 600;
      canvas.getContext('2d')?.fillRect(0, 0, 450, 600);
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
      return [...new Uint8Array(await (blob as Blob).arrayBuffer())];
    });
    await input.setInputFiles({ name: 'rim.png', mimeType: 'image/png', buffer: Buffer.from(bytes) });
    await expect(page.getByRole('img', { name: 'rim', exact: true })).toBeVisible();
    expect(await page.getByRole('img', { name: 'rim', exact: true }).evaluate((one: HTMLImageElement) => one.naturalWidth)).toBe(320);
  });
});

test.describe('for every reader', () => {
  test.skip(!kMock, 'with recorded answers');
  for (const shade of ['light', 'dark'] as const) {
    for (const width of [360, 768, 1400, 2560]) {
      test(`lines, scan and keys, ${shade}, ${width} px: clear to axe-core, and nothing runs off the page`, async ({ page, context }) => {
        test.setTimeout(90_000);
        await own_record(context, kBase);
        await page.emulateMedia({ colorScheme: shade });
        await page.setViewportSize({ width, height: width < 700 ? 740 : 1000 });
        await open_context(page, '1013');
        await page.keyboard.press('ArrowUp');
        await page.keyboard.type('gr');
        await expect(page.getByRole('option', { name: /^grey-1/ })).toBeVisible();
        for (const part of ['rim', 'similar'] as const) await page.locator(`#part-${part} summary`).evaluate((one) => (one.parentElement as HTMLDetailsElement).open = true);
        await page.waitForTimeout(500);
        await settled(page);
        const clear = async () => {
          expect(await axe(page)).toEqual([]);
          const [needed, there] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
          expect(needed).toBeLessThanOrEqual(there as number);
        };
        await clear();
        await page.keyboard.press('Escape');
        await page.keyboard.press('F1');
        await clear();
        await page.keyboard.press('F1');
        await page.getByRole('button', { name: 'Scan: a line a context' }).press('Enter');
        await settled(page);
        await clear();
      });
    }
  }

  test('the rim chart is printed at true scale, and alone; so is the card of keys', async ({ page, context }) => {
    await own_record(context, kBase);
    await open_context(page, '1013');
    await page.keyboard.press('Control+K');
    await page.keyboard.type('rim helper');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Rim chart' }).press('Enter');
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    const base = page.locator('.rim path.strong').last();
    await expect(base).toBeVisible();
    // The bar drawn beside the chart is 50 mm long; CSS has 96 px for 25.4 mm.
    const width = await base.evaluate((path: SVGGraphicsElement) => path.getBBox().width * (path.getCTM()?.a ?? 0));
    expect((width * 25.4) / 96).toBeCloseTo(50, 2);
    await expect(page.locator('.lines')).toBeHidden();
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.keyboard.press('F1');
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByRole('heading', { name: 'Keys of the Recording room' })).toBeVisible();
    await expect(page.locator('.lines')).toBeHidden();
    await expect(page.locator('.rim')).toBeHidden();
  });

  test('the lines are left by Tab from the empty new line, and by F6', async ({ page, context }) => {
    await own_record(context, kBase);
    await open_context(page, '1003');
    await page.keyboard.press('Tab');
    await expect(page.locator('.lines input')).not.toBeFocused();
    await page.keyboard.press('Shift+Tab');
    await expect(page.locator('.lines input')).toBeFocused();
    await page.keyboard.press('F6');
    await expect(page.locator('.side summary').first()).toBeFocused();
    await page.keyboard.press('F6');
    await expect(page.locator('#queue-find')).toBeFocused();
  });
});

test.describe('with the program', () => {
  test.skip(!kHasProgram, 'no program is built');
  test.skip(!process.env.BASE_URL && !process.env.SHERDWRIGHT, 'runs once, where the program itself is tested');
  test.use({ expected: /status of (400|401|409|503)|ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED|Failed to fetch/ });
  let bench: Bench;
  test.beforeEach(async ({ context }) => {
    test.setTimeout(240_000);
    bench = new Bench();
    await bench.serve();
    await with_pages(context);
  });
  test.afterEach(() => bench.end());

  test('three contexts recorded from a card stand in the store as they were written', async ({ page }) => {
    await page.goto(bench.url);
    await record_three(page, bench.origin);
    await expect(page.getByText(/^Changed by/), 'one’s own changes are no news').toHaveCount(0);
    for (const [context, lines] of Object.entries(kCard)) {
      const values = bench.rows('sherds', `context=${context}`);
      expect(values).toHaveLength(lines.length);
      in_record(lines).forEach((line, at) => expect(values[at]).toMatchObject(line));
    }
  });

  test('500 lines pasted are one change of the history', async ({ page, context }) => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write'], { origin: bench.origin });
    await page.goto(bench.url);
    await open_context(page, '1003', bench.origin);
    const table = ['Fabric\tPart\tNo\tWt (g)', ...Array.from({ length: 500 }, (_, at) => `grey-${1 + (at % 3)}\tbody\t${1 + (at % 9)}\t${10 + at},5`)].join('\n');
    const before = (JSON.parse(bench.run('history', bench.store, '--json')) as { changes: unknown[] }).changes.length;
    await page.evaluate((text) => navigator.clipboard.writeText(text), table);
    const begun = Date.now();
    await page.keyboard.press('Control+V');
    await all_saved(page);
    console.log(`500 lines pasted: ${Date.now() - begun} ms`);
    expect(bench.rows('sherds', 'context=1003')).toHaveLength(500);
    expect((JSON.parse(bench.run('history', bench.store, '--json')) as { changes: unknown[] }).changes.length).toBe(before + 1);
  });

  test('two browsers see each other’s lines, and one cell of both is shown to the second', async ({ page, browser }) => {
    await page.goto(bench.url);
    await open_context(page, '1013', bench.origin);
    const state = await page.context().storageState();
    const away = await browser.newContext({ storageState: state });
    await with_pages(away);
    const other = await away.newPage();
    await open_context(other, '1013', bench.origin);
    await page.keyboard.type('g1');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('77');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await expect(other.getByRole('grid')).toHaveAttribute('aria-rowcount', '51');
    for (const one of [page, other]) {
      await one.keyboard.press('Control+Home');
      for (const key of ['Tab', 'Tab']) await one.keyboard.press(key);
    }
    await away.route('**/api/edits', (route) => route.abort());
    await other.keyboard.type('31');
    await other.keyboard.press('Enter');
    await expect(other.getByText(/kept in this browser/)).toBeVisible();
    await page.keyboard.type('30');
    await page.keyboard.press('Enter');
    await all_saved(page);
    await away.unroute('**/api/edits');
    await other.evaluate(() => dispatchEvent(new Event('online')));
    await expect(other.getByText('1 cell to settle')).toBeVisible({ timeout: 20_000 });
    await expect(other.getByRole('status').filter({ hasText: 'has made it 30' })).toBeVisible();
    expect(bench.rows('sherds', 'record=10076')[0]?.count).toBe('30');
    await other.getByRole('button', { name: 'Write 31' }).press('Enter');
    await all_saved(other);
    expect(bench.rows('sherds', 'record=10076')[0]?.count).toBe('31');
    await away.close();
  });

  test('rims, a link, a tray, a picture and what the line is like hang on it in the store', async ({ page }) => {
    await page.goto(bench.url);
    await open_context(page, '1013', bench.origin);
    await page.keyboard.press('Control+Home');
    const part = page.locator('#part-line');
    await expect(part.getByRole('heading', { name: 'Rims' })).toBeVisible();
    await part.getByLabel('new rim, percent of the circle').fill('12,5');
    await part.getByLabel('new rim, diameter in mm').fill('9 cm');
    await part.getByLabel('new rim, diameter in mm').press('Enter');
    await all_saved(page);
    expect(bench.rows('rims', 'record=10076')).toMatchObject([{ rim_percent: '12.5', rim_diameter_mm: '90' }]);
    expect(bench.rows('sherds', 'record=10076')[0]).toMatchObject({ rims: '1', rim_percent: '12.5' });
    await part.getByLabel('record to link to, in any context').fill('10260');
    await expect(part.getByText('brown-stone, rim, context 1013')).toBeVisible();
    await part.getByLabel('record to link to, in any context').press('Enter');
    await all_saved(page);
    expect(bench.rows('joins', 'record_a=10076')).toMatchObject([{ record_b: '10260', kind: 'join_fresh' }]);
    await part.getByRole('button', { name: 'See the network' }).press('Enter');
    await expect(part.getByText(/lines of 2 contexts \(1005, 1013\) hang together/)).toBeVisible();
    await part.getByRole('combobox', { name: 'tray', exact: true }).fill('blue printed');
    await part.getByRole('textbox', { name: 'question' }).fill('one jug?');
    await part.getByRole('textbox', { name: 'question' }).press('Enter');
    await all_saved(page);
    expect(bench.rows('trays', 'record=10076')).toMatchObject([{ tray: 'blue printed', question: 'one jug?' }]);
    const bytes = await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = 900;
      canvas.height = 600;
      canvas.getContext('2d')?.fillRect(0, 0, 450, 600);
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg'));
      return [...new Uint8Array(await (blob as Blob).arrayBuffer())];
    });
    await part.getByLabel(/Drop pictures here/).setInputFiles({ name: 'jug.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(bytes) });
    const small = part.getByRole('img', { name: 'jug', exact: true });
    await expect(small).toBeVisible();
    await expect.poll(() => small.evaluate((one: HTMLImageElement) => one.naturalWidth)).toBe(320);
    await page.locator('#part-similar summary').press('Enter');
    await expect(page.locator('#part-similar').getByText(/lines of this fabric in/)).toBeVisible();
    for (const undone of ['picture', 'tray', 'linked', 'rim']) {
      await page.keyboard.press('Control+Z');
      await expect(page.getByText(new RegExp(`^Taken back: .*${undone}`))).toBeVisible();
    }
    expect(bench.rows('rims', 'record=10076')).toEqual([]);
  });

  test('the program killed in the middle loses nothing, and nothing is in the record twice', async ({ page, context }) => {
    await page.goto(bench.url);
    await open_context(page, '1003', bench.origin);
    const lines = kCard['1003'] ?? [];
    const hands = new Hands(page);
    await record_card(hands, lines.slice(0, 7), kShort);
    const { port } = bench;
    const killing = bench.kill();
    await record_card(hands, lines.slice(7), kShort);
    await killing;
    await expect(page.getByText(/changes? kept in this browser/)).toBeVisible();
    await bench.serve(port);
    const again = await context.newPage();
    await again.goto(bench.url);
    await expect(again.getByRole('heading', { level: 1 })).toBeVisible();
    await expect(page.getByText('All is in the record')).toBeVisible({ timeout: 60_000 });
    await all_saved(page);
    const values = bench.rows('sherds', 'context=1003');
    expect(values).toHaveLength(20);
    in_record(lines).forEach((line, at) => expect(values[at]).toMatchObject(line));
  });
});
