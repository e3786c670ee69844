// The figures are those of the demo site, which the program makes from its seed; they were read off its command line
// (`tally`, `check`, `date --only-spot`), not off these pages.
import { context_read, expect, kPanel, open_assemblage, open_site, test } from './watch';

const kAgainstProgram = Boolean(process.env.BASE_URL);

test('opens on the Site room with the quantities of the whole record', async ({ page }) => {
  const response = await page.goto('/');
  expect(response?.headers()['content-security-policy']).toContain("default-src 'none'");
  await expect(page.getByRole('heading', { level: 1, name: 'Tanyard Lane, Sallowhythe' })).toBeVisible();
  await expect(page).toHaveTitle('Site · SAL26 · Sherdwright');
  for (const figure of ['5,230 sherds', '86.0 kg weight', '1,034 vessels', '86.24 EVE']) {
    await expect(page.getByRole('button', { name: figure, exact: true })).toBeVisible();
  }
  await expect(page.getByText('1,207 of 1,509')).toBeVisible();
});

test('every number opens its rows beside the record, and Escape gives the focus back', async ({ page }) => {
  await open_site(page);
  const number = page.getByRole('button', { name: '127 sherds of context 1013' });
  await number.click();
  const panel = page.locator(kPanel);
  await expect(panel.getByRole('heading', { name: 'Pottery of context 1013' })).toBeFocused();
  await expect(panel.getByText('48 lines, 127 sherds, 1,829.5 g')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Contexts' })).toBeVisible();
  await expect(panel.getByRole('row')).toHaveCount(49);
  await page.keyboard.press('Escape');
  await expect(panel).toHaveCount(0);
  await expect(number).toBeFocused();
});

test('a context says why it is dated so, and one can go on from there and back', async ({ page }) => {
  await open_site(page);
  await page.getByRole('button', { name: '1013 why these dates' }).click();
  const panel = page.locator(kPanel);
  await context_read(page);
  await expect(panel.getByText('1650–1680', { exact: true })).toBeVisible();
  await expect(panel.getByText('record 10087: white-1: 1830-1970 (demo: invented)', { exact: true })).toBeVisible();
  await expect(panel.getByText('1830–1850', { exact: true })).toBeVisible();
  await panel.getByRole('button', { name: '89.8 % of the dated sherds' }).click();
  await expect(panel.getByRole('heading', { name: 'Residual in context 1013' })).toBeVisible();
  await expect(panel.getByText(/^40 lines, 114 sherds/)).toBeVisible();
  await panel.getByRole('button', { name: 'Back' }).click();
  await expect(panel.getByRole('heading', { name: 'Context 1013' })).toBeFocused();
});

test('a context that its terminus came up to names where it came from', async ({ page }) => {
  await open_site(page);
  await page.getByRole('button', { name: '1035 why these dates' }).click();
  const panel = page.locator(kPanel);
  await expect(panel.getByText(/carried up from context 1028/)).toBeVisible();
  await panel.getByRole('button', { name: '1028', exact: true }).first().click();
  await expect(panel.getByRole('heading', { name: 'Context 1028' })).toBeVisible();
});

test('findings stand by severity, each with its way out and its rows', async ({ page }) => {
  await open_site(page);
  await expect(page.getByText('18 warnings')).toBeVisible();
  await expect(page.getByText('5 notes')).toBeVisible();
  await page.getByRole('button', { name: /^Rows for: record 10302/ }).click();
  const panel = page.locator(kPanel);
  await expect(panel.getByRole('heading', { name: 'Record 10302' })).toBeVisible();
  await expect(panel.getByText('Each vessel needs a sherd: were the two numbers exchanged?')).toBeVisible();
  await expect(panel.locator('.asked')).toHaveText(/vessels\s*5/);
});

test('the filter narrows findings, phases and contexts, and stays in the address', async ({ page }) => {
  await open_site(page);
  await page.getByLabel('Find in findings, phases and contexts').fill('2016');
  await expect(page.getByText('1 of 62 contexts')).toBeVisible();
  await expect(page.getByText('3 warnings')).toBeVisible();
  await expect(page.getByText('None of the 8 phases holds "2016".')).toBeVisible();
  await expect(page).toHaveURL(/find=2016/);
  await page.reload();
  await expect(page.getByText('1 of 62 contexts')).toBeVisible();
});

test('the contexts are ordered by any column, and those without pottery can be shown', async ({ page }) => {
  await open_site(page);
  const table = page.getByRole('region', { name: 'Contexts' }).getByRole('table');
  await table.getByRole('button', { name: 'Sherds', exact: true }).click();
  await expect(table.getByRole('columnheader', { name: 'Sherds' })).toHaveAttribute('aria-sort', 'descending');
  await expect(table.getByRole('rowheader').first()).toHaveText(/^1019/);
  await page.getByLabel('with pottery only').uncheck();
  await expect(table.getByRole('rowheader')).toHaveCount(62);
});

test('the Assemblage room counts by a field in four measures', async ({ page }) => {
  await open_assemblage(page);
  const row = page.getByRole('row', { name: /^sandy-2/ });
  for (const figure of ['834 sherds', '12,962.2 weight', '140 vessels', '16.01 EVE']) {
    await expect(row.getByRole('button', { name: `${figure}, fabric sandy-2`, exact: true })).toBeVisible();
  }
  await page.getByRole('button', { name: '37 vessels, fabric grey-1', exact: true }).click();
  await expect(page.locator(kPanel).getByText('48 lines, 122 sherds, 1,382.0 g')).toBeVisible();
  await page.getByRole('button', { name: 'Weight g', exact: true }).click();
  await expect(page.getByRole('rowheader').first()).toHaveText('sandy-2');
});

test('a measure that was not recorded is not a nought', async ({ page }) => {
  await open_assemblage(page);
  const row = page.getByRole('row', { name: /^grey-9/ });
  await expect(row.getByText('not recorded')).toHaveCount(2);
  await expect(row.getByText('undefined')).toHaveCount(2);
});

test('two fields stand down and across, and each cell opens its lines', async ({ page }) => {
  await open_assemblage(page, 'by=fabric.ware_group');
  await page.getByLabel('and by').selectOption('context.phase');
  const row = page.getByRole('row', { name: /^Roman/ });
  await expect(page.getByRole('columnheader')).toHaveCount(11);
  await expect(row.getByRole('button', { name: '1,691 in all' })).toBeVisible();
  await row.getByRole('button', { name: '419', exact: true }).click();
  await expect(page.locator(kPanel).getByRole('heading', { name: 'Ware group Roman, phase B1' })).toBeVisible();
  await page.getByLabel('% of the row').check();
  await expect(row.getByText('61.1')).toBeVisible();
  await expect(page).toHaveURL(/show=of_row/);
});

test('intervals stand with their estimates when asked for', async ({ page }) => {
  await open_assemblage(page, 'by=fabric.ware_group');
  await page.getByLabel('95 % intervals').check();
  await expect(page.getByText(/400 resamples of .* Seed 1\./)).toBeVisible();
  await expect(page.getByRole('row', { name: /^Roman/ }).locator('span.range').first()).toHaveText(/^\d+\.\d–\d+\.\d$/);
});

test('only some lines are counted where a condition says so, and it can be taken away', async ({ page }) => {
  await open_assemblage(page);
  await page.getByLabel('Value', { exact: true }).fill('A1');
  await page.getByRole('button', { name: 'Add' }).click();
  await expect(page.getByRole('button', { name: '1,035 sherds in all' })).toBeVisible();
  await page.getByRole('button', { name: 'Take away phase A1' }).click();
  await expect(page.getByRole('button', { name: '5,230 sherds in all' })).toBeVisible();
});

test('a room is found again as it was left', async ({ page }) => {
  await open_assemblage(page);
  await page.getByLabel('Count by').selectOption('fabric.ware_group');
  await page.getByLabel('weight').check();
  await page.getByRole('link', { name: 'Site', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Quantities' })).toBeVisible();
  await page.getByRole('link', { name: 'Assemblage', exact: true }).click();
  await expect(page.getByLabel('Count by')).toHaveValue('fabric.ware_group');
  await expect(page.getByRole('radio', { name: 'weight' })).toBeChecked();
  await page.goBack();
  await expect(page.getByRole('heading', { name: 'Quantities' })).toBeVisible();
});

test('a condition that no line meets is said in words', async ({ page }) => {
  await page.goto('/#/assemblage?by=fabric&where=context.phase%3Dnowhere');
  await expect(page.getByText('No line meets these conditions.')).toBeVisible();
});

test('more lines than a page are read a page at a time', async ({ page }) => {
  await open_site(page);
  await page.getByRole('button', { name: '5,230 sherds', exact: true }).click();
  const panel = page.locator(kPanel);
  await expect(panel.getByText('the first 200 of 1,509 lines, 5,230 sherds, 86,016.8 g')).toBeVisible();
  await panel.getByRole('button', { name: 'Show 200 more' }).click();
  await expect(panel.getByText('the first 400 of 1,509 lines')).toBeVisible();
});

test('the changes are read when they are asked for', async ({ page }) => {
  await open_site(page);
  await page.getByText(/\d+ changes, the last on/).click();
  const changes = page.getByRole('region', { name: 'Changes', exact: true });
  const first = changes.getByRole('listitem').filter({ hasText: 'Site SAL26 made.' });
  const more = changes.getByRole('button', { name: /^Show \d+ more$/ });
  await expect(changes.getByRole('listitem').first()).toBeVisible();
  // The newest stand first; what the tests before this one changed may have pushed the first of all off the page.
  while (await more.isVisible()) await more.click();
  await expect(first).toBeVisible();
});

test('light and dark are turned by a switch and kept', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'light' });
  await open_site(page);
  const body = page.locator('body');
  await expect(body).toHaveCSS('background-color', 'rgb(247, 243, 234)');
  await page.getByRole('button', { name: 'Dark page' }).click();
  await expect(body).toHaveCSS('background-color', 'rgb(28, 26, 24)');
  await page.reload();
  await expect(body).toHaveCSS('background-color', 'rgb(28, 26, 24)');
  await page.getByRole('button', { name: 'Light page' }).click();
  await expect(body).toHaveCSS('background-color', 'rgb(247, 243, 234)');
});

test.describe('when something is amiss', () => {
  test.use({ expected: /^Failed to load resource/ }); // the requests that are made to fail

  test('an answer that does not come is told with the way out, and asking again helps', async ({ page }) => {
    await page.route('**/api/tally*', (route) => route.abort());
    await page.goto('/#/assemblage?by=fabric');
    const trouble = page.getByRole('alert').filter({ hasText: 'The program does not answer.' });
    await expect(trouble).toContainText('Start it again in its window, then try again; what was recorded is safe in the store.');
    await page.unroute('**/api/tally*');
    await trouble.getByRole('button', { name: 'Try again' }).click();
    await expect(page.getByRole('rowheader', { name: 'all' })).toBeVisible();
  });

  test('an error of the data is told in the words of the program', async ({ page }) => {
    const where = { file: null, sheet: null, row: null, line: null, column: null, id: null };
    const errors = [{ code: 'loop', message: 'the relations run in a loop', where, hint: 'look at context 1028' }];
    await page.route('**/api/findings', (route) =>
      route.fulfill({ status: 422, json: { ok: false, errors, warnings: [], provenance: {} } }),
    );
    await page.goto('/#/site');
    await expect(page.getByRole('alert')).toContainText('The relations run in a loop. Look at context 1028.');
  });

  test('a site without pottery says how the tables come in', async ({ page }) => {
    await page.route('**/api/site', async (route) => {
      const site = await (await route.fetch()).json();
      await route.fulfill({ json: { ...site, lines: 0, checked: 0, tables: { ...site.tables, sherds: 0 } } });
    });
    await page.goto('/#/site');
    await expect(page.getByRole('heading', { name: 'No pottery yet' })).toBeVisible();
    await page.goto('/#/assemblage');
    await expect(page.getByText('There is no pottery to count yet.')).toBeVisible();
  });
});

test.describe('long work', () => {
  test.skip(kAgainstProgram, 'the demo site is dated in less than a second');
  test.use({ baseURL: 'http://127.0.0.1:4174' });

  test('shows its progress after a second, can be stopped and begun again', async ({ page }) => {
    test.setTimeout(90_000);
    await page.addInitScript(() => {
      // When the place where it is dated was there, and when the bar was, by the page's own clock.
      const seen: { place?: number; bar?: number } = {};
      (globalThis as unknown as { seen: typeof seen }).seen = seen;
      new MutationObserver(() => {
        if (document.querySelector('#contexts')) seen.place ??= performance.now();
        if (document.querySelector('progress')) seen.bar ??= performance.now();
      }).observe(document, { childList: true, subtree: true });
    });
    await page.goto('/#/site');
    const progress = page.getByRole('progressbar', { name: 'Dating the contexts' });
    await expect(progress).toBeVisible();
    const waited = await page.evaluate(() => {
      const { place, bar } = (globalThis as unknown as { seen: { place: number; bar: number } }).seen;
      return bar - place;
    });
    expect(waited).toBeGreaterThan(900);
    await expect(page.getByText(/Dating the contexts: \d+ %, context \d+ of 120/)).toBeVisible();
    await page.getByRole('button', { name: 'Stop' }).click();
    const stopped = page.getByRole('alert').filter({ hasText: 'Stopped before it was done.' });
    await expect(stopped).toBeVisible();
    await stopped.getByRole('button', { name: 'Try again' }).click();
    await expect(page.getByRole('button', { name: '1013 why these dates' })).toBeVisible({ timeout: 45_000 });
  });

  test('is stopped when the page is left, since nobody would read its answer', async ({ page }) => {
    const begun = page.waitForResponse((response) => response.url().endsWith('/api/jobs'));
    await page.goto('/#/site');
    const { id } = await (await begun).json();
    await expect(page.getByText('2 errors')).toBeVisible();
    await page.goto('about:blank');
    await expect
      .poll(async () => (await (await page.request.get(`/api/jobs/${id}`)).json()).state)
      .toBe('stopped');
  });
});
