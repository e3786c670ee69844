/** Difference and diversity as tables. */
import { counted, fixed, percent, whole } from '../../lib/format';
import { shade_of, type Fact, type Grid, type Section } from '../../lib/sheet';
import { capital, field_name } from '../../lib/tallies';
import type { DiversityRow } from '../../api';
import { cell_lines, number, p_text, plain, range, row_lines, signed, type Compared, type Ground } from './answer';

export function difference(found: Compared, ground: Ground): Section[] {
  const facts: Fact[] = [];
  const test = (label: string, value: number | null | undefined, p: number | null | undefined) => {
    if (value !== null && value !== undefined) facts.push({ label, text: `${fixed(value, 1)} on ${found.df ?? 0} df`, means: `p ${p_text(p) ?? 'unknown'}` });
  };
  test('Chi-square', found.chi_square, found.p);
  test('Likelihood ratio', found.g_square, found.g_p);
  test('Chi-square after Yates', found.chi_square_yates, found.p_yates);
  if (found.cramers_v !== undefined) facts.push({ label: 'Cramér’s V', text: fixed(found.cramers_v, 2), means: 'how strong: 0 none, 1 all' });
  if (found.p_shuffled !== null && found.p_shuffled !== undefined) {
    facts.push({ label: 'By dealing out anew', text: `p ${p_text(found.p_shuffled)}`, means: counted(found.shuffles ?? 0, 'deal') });
  }
  if (found.least_expected !== undefined) {
    facts.push({ label: 'Least expected', text: fixed(found.least_expected, 1), means: `${counted(found.expected_below_5 ?? 0, 'cell')} below 5` });
  }
  const sections: Section[] = [{ kind: 'facts', title: 'Is there a difference', facts }, residuals(found, ground)];
  const drivers = found.drivers ?? [];
  if (drivers.length) {
    sections.push({
      kind: 'sheet',
      title: 'What drives it',
      caption: 'Cells that lie farther from what is expected than chance would put them, the farthest first.',
      columns: [{ label: capital(field_name(ground.rows)) }, { label: capital(field_name(ground.columns)) }, { label: 'Found', number: true }, { label: 'Expected', number: true }, { label: 'Residual', number: true }],
      rows: drivers.map((one) => {
        const opens = cell_lines(ground, one.row, one.column);
        return [plain(one.row, { opens: row_lines(ground, one.row) }), plain(one.column), number(one.observed, Number.isInteger(one.observed) ? 0 : 1, one.observed > 0 ? { opens } : {}), number(one.expected, 1), number(one.residual, 1)];
      }),
    });
  }
  if (found.shares?.length) sections.push(shares(found, ground));
  if (found.log_linear) {
    const models = found.log_linear;
    sections.push({
      kind: 'sheet',
      title: 'Three sides at once',
      caption: `Log-linear models of ${models.sides.map(field_name).join(' × ')}, the simplest that passes in bold${models.simplest ? `: ${models.simplest}` : ': none'}. ${counted(models.structural_zeros, 'cell')} cannot exist.`,
      columns: [{ label: 'Terms' }, { label: 'Likelihood ratio', number: true }, { label: 'Chi-square', number: true }, { label: 'df', number: true }, { label: 'p', number: true }],
      rows: models.models.map((one) => [
        plain(one.terms),
        number(one.g_square, 2, { strong: one.terms === models.simplest }),
        number(one.chi_square, 2, { strong: one.terms === models.simplest }),
        number(one.df, 0),
        { text: p_text(one.p), value: one.p, says: 'undefined', strong: one.terms === models.simplest },
      ]),
    });
  }
  return sections;
}

/** How far each cell lies from what is expected: more is plus, less is minus. */
function residuals(found: Compared, ground: Ground): Grid {
  const labels = found.labels ?? [];
  const types = found.types ?? [];
  const values = found.adjusted_residuals ?? [];
  const most = Math.min(20, Math.max(3, ...values.flat().map(Math.abs)));
  return {
    kind: 'grid',
    title: 'Where it lies',
    caption: `Adjusted residuals: beyond ±2 more (+) or less (−) than chance would often give; below each, what was found. Shade as strong as the residual.`,
    down: field_name(ground.rows),
    rows: labels.map((label) => ({ label, opens: row_lines(ground, label) })),
    columns: types.map((label) => ({ label })),
    cell: (r, c) => {
      const value = values[r]?.[c] ?? null;
      const observed = found.pseudo_counts?.[r]?.[c] ?? 0;
      if (value === null) return { text: null, value, shade: 0, says: 'undefined' };
      const text = `${value > 0 ? '+' : ''}${signed(fixed(value, 1))}`;
      const decimals = Number.isInteger(observed) ? 0 : 1;
      const some = observed > 0 ? { opens: cell_lines(ground, labels[r] ?? '', types[c] ?? '') } : {};
      return { text, value, shade: Math.abs(value) < 2 ? 0 : shade_of(value, most), note: fixed(observed, decimals), ...some };
    },
  };
}

/** Share of each type in its row, with the interval from drawing anew. */
function shares(found: Compared, ground: Ground): Grid {
  const labels = found.labels ?? [];
  const types = found.types ?? [];
  const of = new Map((found.shares ?? []).map((one) => [JSON.stringify([one.row, one.column]), one]));
  return {
    kind: 'grid',
    title: 'Shares with their intervals',
    caption: `Percent of each ${field_name(ground.rows)}, beneath it the 95 % interval from drawing anew.`,
    down: field_name(ground.rows),
    rows: labels.map((label) => ({ label, opens: row_lines(ground, label) })),
    columns: types.map((label) => ({ label })),
    cell: (r, c) => {
      const one = of.get(JSON.stringify([labels[r], types[c]]));
      if (!one || one.share === 0) return { text: null, value: one ? 0 : null, shade: 0 };
      const between = one.low95 === null || one.high95 === null ? {} : { note: `${percent(one.low95)}–${percent(one.high95)}` };
      return { text: percent(one.share), value: one.share, shade: shade_of(one.share, 1), opens: cell_lines(ground, one.row, one.column), ...between };
    },
  };
}

export function diversity(found: Compared, ground: Ground): Section[] {
  const rows = (found.rows ?? []) as DiversityRow[];
  const common = found.common_n ?? null;
  const at_common = (row: DiversityRow) => row.expected_richness.find((one) => one.n === common) ?? null;
  const facts: Fact[] = [];
  if (common !== null) facts.push({ label: 'Compared at', text: whole(common), means: 'the size of the smallest row' });
  if (found.size_correlation !== null && found.size_correlation !== undefined) {
    facts.push({ label: 'Size and types', text: `r ${signed(fixed(found.size_correlation, 2))}`, means: 'near 1 the number of types only follows the number of pieces' });
  }
  const sections: Section[] = facts.length ? [{ kind: 'facts', title: 'At equal numbers', facts }] : [];
  sections.push({
    kind: 'sheet',
    title: 'How many types, and how evenly',
    caption: `Types as found${common === null ? '' : `, at ${whole(common)} pieces`}, as there may be at least (Chao1), and as equally common ones would be as diverse (Shannon, Simpson).`,
    columns: [
      { label: capital(field_name(ground.rows)) },
      { label: 'n', number: true },
      { label: 'Types', number: true },
      ...(common === null ? [] : [{ label: `At ${whole(common)}`, number: true }]),
      { label: 'Chao1', number: true },
      { label: 'Shannon', number: true },
      { label: 'Evenness', number: true },
      { label: 'Simpson', number: true },
      { label: 'As many as', unit: 'equal types', number: true },
      { label: 'Against all' },
    ],
    rows: rows.map((row) => {
      const opens = row_lines(ground, row.label);
      const expected = at_common(row);
      return [
        plain(row.label, { opens }),
        number(row.n, Number.isInteger(row.n) ? 0 : 2, { opens }),
        number(row.richness, 0, { opens }),
        ...(common === null ? [] : [number(expected?.value, 1, expected ? { note: range(expected.low95, expected.high95, 1) ?? '' } : {})]),
        number(row.chao1, 1),
        number(row.shannon, 2),
        number(row.evenness, 2),
        number(row.simpson, 3),
        number(row.types_of_shannon, 1),
        plain(row.against_all || null),
      ];
    }),
  });
  return sections;
}
