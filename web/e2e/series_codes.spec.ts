// The series, its key and the changes of its codes, on the program itself with the demo site and descriptions of our own.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { all_saved, Bench, kHasProgram, with_pages } from './recording';
import { axe, expect, settled, test } from './watch';

const kFabrics = `fabric,hardness,feel,fracture,outside,core,inside,firing
grey-1,hard,smooth,smooth,N 5/,N 6/,N 5/,unoxidised throughout
grey-2,hard,harsh,hackly,10YR 5/1,7.5YR 6/2-6/4,10YR 5/1,
shell-1,soft,soapy,laminated,7.5YR 5/4,N 3/,7.5YR 5/3,"outside oxidised, core dark"
shell-3,hard,rough,hackly,5YR 5/6,N 3/,5YR 5/4,"outside oxidised, core dark"
`;
const kInclusions = `fabric,inclusion,frequency,size_least_mm,size_most_mm,sorting,rounding
grey-1,quartz,abundant,0.1,0.25,well sorted,subrounded
grey-2,quartz,abundant,0.3,0.8,moderately sorted,rounded
shell-1,shell,common,0.5,3,poorly sorted,
shell-3,quartz,common,0.2,0.6,moderately sorted,rounded
shell-3,shell,moderate,0.5,2,,
`;
const kSpecimens = 'specimen,fabric,record,place\nS1,grey-2,10201,drawer 4\n';

let bench: Bench;
test.skip(!kHasProgram, 'needs the built program');
test.describe.configure({ mode: 'default' });

test.beforeAll(async () => {
  bench = new Bench();
  for (const [name, text] of [['fabrics_more.csv', kFabrics], ['inclusions.csv', kInclusions], ['specimens.csv', kSpecimens]] as const) writeFileSync(join(bench.folder, name), text);
  bench.run('import', bench.store, 'fabrics_more.csv', '--as', 'fabrics', '--update');
  bench.run('import', bench.store, 'inclusions.csv', '--as', 'inclusions');
  bench.run('import', bench.store, 'specimens.csv', '--as', 'specimens');
  await bench.serve();
  cookies = [];
});
test.afterAll(async () => {
  await bench.end();
});

/** The token of the address works once: the first page spends it, and the others have its cookie. */
let cookies: { name: string; value: string; domain: string; path: string }[] = [];
test.beforeEach(async ({ page, context }) => {
  await with_pages(context);
  if (cookies.length > 0) return context.addCookies(cookies);
  await page.goto(bench.url);
  cookies = (await context.cookies()).map(({ name, value, domain, path }) => ({ name, value, domain, path }));
});

async function open(page: Page, query: string): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${bench.origin}/#/series?${query}`);
  await expect(page.getByRole('heading', { name: 'Series', exact: true })).toBeVisible();
  await settled(page);
}
const fabric = (code: string) => bench.rows('fabrics', `fabric=${code}`)[0];

test.describe('the list and the card', () => {
  test.use({ expected: /400 \(Bad Request\)/ });
  test('a fabric is found, opened and read with its scales, swatches and note for the bag', async ({ page }) => {
    await open(page, 'part=list');
    await expect(page.getByText('29 of 30 fabrics')).toBeVisible();
    await page.getByLabel('with retired ones').check();
    await expect(page.getByText('30 fabrics', { exact: true })).toBeVisible();
    await page.getByLabel('Find', { exact: true }).fill('rounded');
    await page.getByLabel('Find', { exact: true }).fill('coarse sandy');
    await page.getByRole('button', { name: 'grey-2' }).click();
    await expect(page.getByRole('heading', { name: 'grey-2 Coarse sandy grey ware' })).toBeFocused();
    await expect(page.getByText('7.5YR 6/2-6/4, brownish grey to brown')).toBeVisible();
    await expect(page.getByText('scale even-bins, 40-100 %')).toBeVisible();
    await expect(page.getByText('A sherd of this bag (record 10201) is kept as the specimen of grey-2, at drawer 4.')).toBeVisible();
    await page.getByRole('button', { name: '100 lines, 570 sherds' }).click();
    await expect(page.getByRole('heading', { name: 'Lines of grey-2' })).toBeFocused();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'grey-9' }).click();
    await expect(page.getByRole('heading', { name: /^grey-9/ })).toBeVisible();
    await expect(page).toHaveURL(/code=grey-9/);
  });

  test('what is amended is in the record, and stays as it was typed where it cannot be', async ({ page }) => {
    await open(page, 'part=list&code=grey-3');
    await page.getByRole('button', { name: 'Amend', exact: true }).click();
    await page.getByLabel('Hardness').fill('hard');
    await page.getByLabel('Hardness').press('Enter');
    await page.getByLabel('Earliest', { exact: true }).first().fill('about then');
    await page.keyboard.press('Tab');
    await expect(page.getByRole('alert').first()).toContainText('about then');
    await expect(page.getByLabel('Earliest', { exact: true }).first()).toHaveValue('about then');
    await page.getByLabel('Earliest', { exact: true }).first().fill('220');
    await page.keyboard.press('Tab');
    await all_saved(page);
    expect(fabric('grey-3')).toMatchObject({ hardness: 'hard', earliest: '220' });
  });

  test('an inclusion is added and removed by keys alone, and a row that lacks something says what', async ({ page }) => {
    await open(page, 'part=list&code=black-1');
    await page.getByRole('button', { name: 'Amend', exact: true }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Add an inclusion' }).focus();
    await page.keyboard.press('Enter');
    await expect(page.getByText('Still wanted: inclusion.')).toBeVisible();
    await page.getByRole('textbox', { name: 'Inclusion' }).or(page.getByRole('combobox', { name: 'Inclusion' })).focus();
    await page.keyboard.type('quartz');
    await page.keyboard.press('Tab');
    await page.keyboard.type('abundant');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('button', { name: 'Remove quartz' })).toBeVisible();
    await all_saved(page);
    expect(bench.rows('inclusions', 'fabric=black-1')).toMatchObject([{ inclusion: 'quartz', frequency: 'abundant' }]);
    await page.getByRole('button', { name: 'Remove quartz' }).focus();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('button', { name: 'Remove quartz' })).toHaveCount(0);
    await all_saved(page);
    expect(bench.rows('inclusions', 'fabric=black-1')).toEqual([]);
  });

  test('a variant is added under its fabric', async ({ page }) => {
    await open(page, 'part=list');
    await page.getByText('Add a fabric').click();
    await page.getByLabel('Code', { exact: true }).fill('shell-3');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await expect(page.getByText('There is a shell-3 already.')).toBeVisible();
    await page.getByLabel('Code', { exact: true }).fill('shell-3a');
    await page.getByLabel('as a variant of').selectOption('shell-3');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await expect(page.getByRole('heading', { name: 'shell-3a' })).toBeVisible();
    await all_saved(page);
    expect(fabric('shell-3a')).toMatchObject({ variant_of: 'shell-3', ware_group: 'medieval', status: 'provisional' });
  });
});

test.describe('the key', () => {
  test('ranks the fabrics by what is seen, and takes an answer to what to look at next', async ({ page }) => {
    await open(page, 'part=key');
    await expect(page.getByText('Nothing is said yet.')).toBeVisible();
    await page.getByLabel('Hardness').selectOption('hard');
    await page.getByLabel('Inclusion', { exact: true }).fill('Quartz');
    await page.getByLabel('Amount').selectOption('common');
    await page.getByLabel('Size').fill('to 0.6 mm');
    await page.getByRole('button', { name: 'Add the inclusion' }).click();
    const first = page.getByRole('region', { name: 'What it may be' }).getByRole('row').nth(1);
    await expect(first).toContainText('shell-3');
    await expect(first).toContainText('100 %, of 100 % of what is seen');
    await expect(page).toHaveURL(/lens=inclusion%3Dquartz%2C\+common%2C\+to\+0\.6\+mm/);
    const next = page.getByRole('region', { name: 'Look next at' }).getByRole('button', { name: /^feel rough/ });
    await next.click();
    await expect(page.getByLabel('Feel')).toHaveValue('rough');
    await page.getByRole('link', { name: /^shell-3/ }).click();
    await expect(page.getByRole('heading', { name: /^shell-3/ })).toBeVisible();
    await page.getByRole('link', { name: 'Key' }).click();
    await expect(page.getByLabel('Feel')).toHaveValue('rough');
  });

  test.describe('where a colour cannot be read', () => {
    test.use({ expected: /422 \(Unprocessable Content\)/ });
    test('it says so and keeps what was typed', async ({ page }) => {
      await open(page, 'part=key');
      await page.getByLabel('Colours, core').fill('reddish');
      await page.keyboard.press('Tab');
      await expect(page.getByRole('alert')).toContainText('reddish');
      await expect(page.getByLabel('Colours, core')).toHaveValue('reddish');
    });
  });
});

/** What a refusal leaves in the browser's console. */
const kRefused = /40[09]|422/;

test.describe('changes of codes', () => {
  test.use({ expected: kRefused });
  test('a name is changed after a look at every row, and taken back', async ({ page }) => {
    await open(page, 'part=codes');
    await page.getByLabel('Code', { exact: true }).fill('shell-1');
    await page.getByLabel('Its new name').fill('shell-10');
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.getByRole('heading', { name: '31 rows would change' })).toBeVisible();
    await expect(page.getByText('1 of fabrics, 1 of inclusions, 29 of sherds')).toBeVisible();
    expect(fabric('shell-10')).toBeUndefined();
    await page.locator('form').getByRole('button', { name: 'Rename' }).last().click();
    await expect(page.getByText(/^31 rows changed, in change \d+\./)).toBeVisible();
    expect(fabric('shell-10')).toBeDefined();
    await page.getByRole('button', { name: 'Take it back' }).click();
    await expect.poll(() => fabric('shell-1')?.fabric).toBe('shell-1');
  });

  test('a preview that was asked otherwise is not done', async ({ page }) => {
    await open(page, 'part=codes&from=shell-1&into=shell-10');
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.getByRole('heading', { name: '31 rows would change' })).toBeVisible();
    await page.getByLabel('Its new name').fill('shell-11');
    await expect(page.getByText('Asked otherwise since: preview again.')).toBeVisible();
    await expect(page.locator('form').getByRole('button', { name: 'Rename' })).toHaveCount(1);
  });

  test('rows that differ stop a merger until one side is kept', async ({ page }) => {
    await open(page, 'part=codes&act=merge&from=grey-2&into=grey-1');
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.getByRole('heading', { name: 'Where both say something and differ' })).toBeVisible();
    await expect(page.getByRole('alert')).toContainText('Not done.');
    await page.getByLabel(/^where both say something and differ/).check();
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.locator('form').getByRole('button', { name: 'Merge' })).toHaveCount(2);
  });

  test('a split gives the lines of a rule another code and lists the sherds by box and bag', async ({ page }) => {
    await open(page, 'part=codes&act=split&from=grey-2');
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.getByText('grey-2: 100 lines')).toBeVisible();
    await page.getByLabel(/^Code that the lines get/).fill('grey-4');
    await page.getByLabel('Lines by rule').fill('form=dish');
    await page.getByLabel('Name of a new code').fill('Grey ware of dishes');
    await page.getByRole('button', { name: 'Preview' }).click();
    await expect(page.getByText('grey-2 → grey-4: 10 lines')).toBeVisible();
    await page.locator('form').getByRole('button', { name: 'Split' }).last().click();
    await expect(page.getByText(/^11 rows changed/)).toBeVisible();
    expect(fabric('grey-4')).toMatchObject({ name: 'Grey ware of dishes', variant_of: 'grey-2', status: 'provisional' });
    await page.getByRole('link', { name: 'The series' }).click();
    await page.getByRole('button', { name: 'grey-4' }).click();
    await page.getByRole('button', { name: 'Show what these lines were called before' }).click();
    await expect(page.getByText('10 lines came here from grey-2')).toBeVisible();
  });
});

for (const [name, query] of [
  ['the list with a card', 'part=list&code=grey-2'],
  ['the forms', 'part=list&of=forms&code=jar'],
  ['the key', 'part=key&lens=hardness%3Dhard&lens=inclusion%3Dquartz%2C+common'],
  ['changes of codes', 'part=codes&act=split&from=grey-3'],
] as const) {
  for (const scheme of ['light', 'dark'] as const) {
    test(`${name}: axe-core finds nothing, ${scheme}, and no page is wider than its window`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: scheme });
      await open(page, query);
      if (query.includes('codes')) await page.getByRole('button', { name: 'Preview' }).click();
      await settled(page);
      expect(await axe(page)).toEqual([]);
      for (const width of [360, 768, 1400, 2560]) {
        await page.setViewportSize({ width, height: 900 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `at ${width}`).toBeLessThanOrEqual(0);
      }
    });
  }
}

test('a card that is amended: axe-core finds nothing', async ({ page }) => {
  await open(page, 'part=list&code=grey-2');
  await page.getByRole('button', { name: 'Amend', exact: true }).click();
  expect(await axe(page)).toEqual([]);
});
