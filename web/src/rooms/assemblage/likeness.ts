/** Similarity, ordination, order and clusters as tables. */
import { counted, fixed, mean_year, percent, whole } from '../../lib/format';
import { shade_of, type Fact, type Grid, type Section, type Sheet, type SheetCell } from '../../lib/sheet';
import { capital, field_name } from '../../lib/tallies';
import type { AxisDate, Point } from '../../api';
import { cell_lines, column_lines, number, p_text, plain, range, row_lines, rows_lines, share, type Compared, type Ground } from './answer';

/** A pair whose likeness chance could make is no finding. */
const kChance = 0.05;
const kPairs = 200;
const kAxes = 8;
/** Above this many rows the square is left to its picture. */
const kSquare = 400;

export function similarity(found: Compared, ground: Ground): Section[] {
  const labels = found.labels ?? [];
  const matrix = found.matrix ?? [];
  const p = (a: number, b: number) => found.p_matrix?.[a]?.[b] ?? null;
  const square: Grid = {
    kind: 'grid',
    title: 'Every pair',
    caption: `Similarity of each ${field_name(ground.rows)} to each: 200 the same shares, 0 nothing in common. “?”: chance could make two samples of one population as unlike.`,
    down: field_name(ground.rows),
    rows: labels.map((label) => ({ label, opens: row_lines(ground, label) })),
    columns: labels.map((label) => ({ label })),
    cell: (a, b) => {
      const value = matrix[a]?.[b] ?? null;
      if (value === null || a === b) return { text: null, value, shade: 0, says: 'itself' };
      const chance = p(a, b);
      const doubt = chance !== null && chance > kChance ? '?' : '';
      return {
        text: `${fixed(value, 0)}${doubt}`,
        value,
        shade: shade_of(value, 200),
        opens: rows_lines(ground, [labels[a] ?? '', labels[b] ?? '']),
      };
    },
  };
  const all = (labels.length * (labels.length - 1)) / 2;
  const nearest = nearest_pairs(matrix, kPairs);
  const list: Sheet = {
    kind: 'sheet',
    title: 'Pairs, the most alike first',
    caption: `${all > kPairs ? `The first ${kPairs} of ${counted(all, 'pair')}` : counted(all, 'pair')}. p: how often two samples of one population are as unlike as this or more.`,
    columns: [{ label: 'One' }, { label: 'Other' }, { label: 'Similarity', number: true }, { label: 'p', number: true }],
    rows: nearest.map(({ a, b, value }) => [
      plain(labels[a] ?? '', { opens: row_lines(ground, labels[a] ?? '') }),
      plain(labels[b] ?? '', { opens: row_lines(ground, labels[b] ?? '') }),
      number(value, 1, { opens: rows_lines(ground, [labels[a] ?? '', labels[b] ?? '']) }),
      { text: p_text(p(a, b)), value: p(a, b), says: 'not tested' },
    ]),
  };
  return labels.length <= kSquare ? [square, list] : [list];
}

export interface Pair {
  a: number;
  b: number;
  value: number;
}
/** The pairs of the greatest values, the greatest first; equal ones in the order of the rows. */
export function nearest_pairs(matrix: readonly (readonly number[])[], most: number): Pair[] {
  let kept: Pair[] = [];
  let least = -Infinity;
  const first = () => {
    kept = kept.sort((one, other) => other.value - one.value || one.a - other.a || one.b - other.b).slice(0, most);
    if (kept.length === most) least = kept[most - 1]?.value ?? least;
  };
  matrix.forEach((row, a) => {
    for (let b = a + 1; b < row.length; ++b) {
      const value = row[b] as number;
      if (value <= least) continue;
      kept.push({ a, b, value });
      if (kept.length >= 8 * most) first();
    }
  });
  first();
  return kept;
}

export function ordination(found: Compared, ground: Ground): Section[] {
  const facts: Fact[] = [{ label: 'Inertia', text: fixed(found.inertia ?? 0, 3), means: 'all that differs; the axes share it out' }];
  if (found.chi_square !== null && found.chi_square !== undefined) {
    facts.push({ label: 'Chi-square', text: `${fixed(found.chi_square, 1)} on ${found.df ?? 0} df`, means: `p ${p_text(found.p) ?? 'unknown'}, for independent things` });
  }
  let so_far = 0;
  const axes: Sheet = {
    kind: 'sheet',
    title: 'Axes',
    caption: `How much of what differs each axis shows${(found.eigenvalues ?? []).length > kAxes ? `; the first ${kAxes} of ${whole((found.eigenvalues ?? []).length)}` : ''}.`,
    columns: [{ label: 'Axis' }, { label: 'Eigenvalue', number: true }, { label: 'Share', unit: '%', number: true }, { label: 'So far', unit: '%', number: true }],
    rows: (found.eigenvalues ?? []).slice(0, kAxes).map((value, at) => {
      const part = found.inertia_shares?.[at] ?? 0;
      so_far += part;
      return [plain(String(at + 1), { value: at + 1 }), number(value, 4), share(part, { bar: part }), share(Math.min(1, so_far))];
    }),
  };
  const sections: Section[] = [
    { kind: 'facts', title: 'In all', facts },
    axes,
    points(`${capital(field_name(ground.rows))}`, (found.rows ?? []) as Point[], (label) => row_lines(ground, label)),
    points(`${capital(field_name(ground.columns))}`, found.columns ?? [], (label) => column_lines(ground, label)),
  ];
  if (found.supplementary_rows?.length) sections.push(points('Rows beside, without a say', found.supplementary_rows, (label) => row_lines(ground, label)));
  if (found.supplementary_columns?.length) {
    sections.push(points('Columns beside, without a say', found.supplementary_columns, (label) => column_lines(ground, label)));
  }
  if (found.dates) sections.push(...axis_dates(found, ground));
  return sections;
}

function points(title: string, all: readonly Point[], opens: (label: string) => SheetCell['opens']): Sheet {
  const axes = Math.min(2, ...all.map((one) => one.principal.length));
  const of_axis = (label: string, unit?: string) =>
    Array.from({ length: axes }, (_, at) => ({ label: `${label} ${at + 1}`, number: true, ...(unit ? { unit } : {}) }));
  return {
    kind: 'sheet',
    title,
    caption: 'Place on the first axes; what it adds to each; how much of it they show. A point of low quality lies elsewhere than it seems.',
    columns: [{ label: title.split(',')[0] ?? title }, { label: 'Mass', unit: '%', number: true }, ...of_axis('Axis'), ...of_axis('Adds', '%'), { label: 'Quality', unit: '%', number: true }],
    rows: all.map((one) => {
      const quality = one.quality.slice(0, axes).reduce((sum, value) => sum + value, 0);
      return [
        plain(one.label, { opens: opens(one.label) }),
        share(one.mass),
        ...one.principal.slice(0, axes).map((value) => number(value, 3)),
        ...one.contribution.slice(0, axes).map((value) => share(value)),
        share(quality, { bar: Math.min(1, quality) }),
      ];
    }),
  };
}

function axis_dates(found: Compared, ground: Ground): Section[] {
  const dates = found.dates;
  if (!dates) return [];
  const dated = (year: number | null, says: string): SheetCell => ({ text: year === null ? null : mean_year(year), value: year, says });
  const sheet = (title: string, field: string, rows: readonly AxisDate[], opens: (label: string) => SheetCell['opens']): Sheet => ({
    kind: 'sheet',
    title,
    caption: 'The year that the axes give, its 95 % interval of prediction, and the year that the other dated rows alone would have given.',
    columns: [{ label: capital(field_name(field)) }, { label: 'Given', number: true }, { label: 'By the axes', number: true }, { label: 'Left out', number: true }],
    rows: rows.map((one) => [
      plain(one.label, { opens: opens(one.label) }),
      dated(one.given, 'no date'),
      { ...dated(one.year, 'no date'), note: `${mean_year(one.low95)} to ${mean_year(one.high95)}` },
      dated(one.left_out, 'not dated'),
    ]),
  });
  return [
    {
      kind: 'facts',
      title: 'Years on the axes',
      facts: [
        { label: 'Axes used', text: whole(dates.axes), means: `by ${counted(dates.dated, 'dated row')}` },
        { label: 'Left-out rows missed by', text: `${fixed(dates.left_out_sd, 0)} years`, means: `${percent(dates.within95)} % lie in their interval` },
        { label: 'R²', text: fixed(dates.r_square, 3) },
      ],
    },
    sheet('Years of the rows', ground.rows, dates.rows, (label) => row_lines(ground, label)),
    sheet('Years of the types', ground.columns, dates.columns, (label) => column_lines(ground, label)),
  ];
}

export function order(found: Compared, ground: Ground): Section[] {
  const stability = new Map((found.stability ?? []).map((one) => [one.label, one]));
  const facts: Fact[] = [
    { label: 'Steps back', text: whole(found.anti_robinson_events ?? 0), means: `of ${whole(found.events_possible ?? 0)} that there could be; fewer is a better order` },
  ];
  for (const one of found.tried ?? []) {
    facts.push({ label: one.method === 'axis' ? 'By the first axis' : 'By search', text: whole(one.events), means: one.exhaustive ? 'every order was looked at' : '' });
  }
  if (found.agreement !== null && found.agreement !== undefined) {
    facts.push({ label: 'Agreement', text: fixed(found.agreement, 2), means: `of the order in ${counted(found.resamples ?? 0, 'resample')} with this (Kendall’s tau)` });
  }
  const bars = found.bars ?? [];
  const types = found.types ?? [];
  const most = Math.max(0, ...bars.flatMap((one) => one.percent));
  return [
    { kind: 'facts', title: 'How good an order', facts },
    {
      kind: 'sheet',
      title: 'Places',
      caption: 'Place in the order, and where resamples put it by the first axis.',
      columns: [{ label: capital(field_name(ground.rows)) }, { label: 'Place', number: true }, { label: 'Resampled', number: true }, { label: '95 %' }],
      rows: (found.order ?? []).map((label, at) => {
        const one = stability.get(label);
        return [
          plain(label, { opens: row_lines(ground, label) }),
          plain(String(at + 1), { value: at + 1 }),
          number(one?.median, 0),
          plain(one ? (range(one.low95, one.high95, 0) ?? null) : null),
        ];
      }),
    },
    {
      kind: 'grid',
      title: 'Percent of each type, rows in order',
      caption: `Percent of each ${field_name(ground.rows)}. The stronger the shade, the more.`,
      down: field_name(ground.rows),
      rows: bars.map((one) => ({ label: one.label, opens: row_lines(ground, one.label) })),
      columns: types.map((label) => ({ label })),
      cell: (r, c) => {
        const row = bars[r];
        const value = row?.percent[c] ?? 0;
        if (!row || value === 0) return { text: null, value, shade: 0 };
        return { text: percent(value / 100), value, shade: shade_of(value, most), opens: cell_lines(ground, row.label, types[c] ?? '') };
      },
    },
  ];
}

export function clusters(found: Compared, ground: Ground): Section[] {
  const labels = found.labels ?? (found.cut ?? []).map((one) => one.label);
  const facts: Fact[] = [];
  const add = (label: string, value: number | null | undefined, means: string) => {
    if (value !== null && value !== undefined) facts.push({ label, text: fixed(value, 2), means });
  };
  add('Cophenetic correlation', found.cophenetic, 'how well the tree keeps the distances; 1 is all');
  add('Silhouette', found.silhouette, 'near 1 well apart, near 0 between');
  add('Adjusted Rand', found.adjusted_rand, 'agreement with the groups given; 0 is chance');
  if (found.starts) facts.push({ label: 'Starts', text: `${whole(found.reached ?? 0)} of ${whole(found.starts)}`, means: 'came to this best parting' });
  const step_name = (at: number) => (at < labels.length ? (labels[at] ?? '') : `step ${at - labels.length + 1}`);
  const sections: Section[] = [
    { kind: 'facts', title: 'How good a parting', facts },
    {
      kind: 'sheet',
      title: 'Members',
      caption: `Cut into ${counted(new Set((found.cut ?? []).map((one) => one.cluster)).size, 'cluster')}. A silhouette below 0 would lie better elsewhere.`,
      columns: [{ label: capital(field_name(ground.rows)) }, { label: 'Cluster', number: true }, { label: 'Silhouette', number: true }],
      first: { column: 1, down: false },
      rows: (found.cut ?? []).map((one) => [
        plain(one.label, { opens: row_lines(ground, one.label) }),
        number(one.cluster, 0, { opens: rows_lines(ground, (found.cut ?? []).filter((other) => other.cluster === one.cluster).map((other) => other.label)) }),
        number(one.silhouette, 2),
      ]),
    },
  ];
  if (found.merges?.length) {
    sections.push({
      kind: 'sheet',
      title: 'How they join',
      caption: found.linkage_note ? `${capital(found.linkage_note)}.` : '',
      columns: [{ label: 'Step', number: true }, { label: 'One' }, { label: 'Other' }, { label: 'At', number: true }, { label: 'Rows', number: true }],
      rows: found.merges.map((one, at) => [plain(String(at + 1), { value: at + 1 }), plain(step_name(one.a)), plain(step_name(one.b)), number(one.height, 2), number(one.size, 0)]),
    });
  }
  return sections;
}
