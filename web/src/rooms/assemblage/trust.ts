/** Breakage, residual pottery, joins, key groups, sample size and fall-off as tables. */
import type { BreakageRow, ResidualityRow } from '../../api';
import { counted, fixed, percent, whole } from '../../lib/format';
import { lines_of } from '../../lib/opening';
import { condition } from '../../lib/query';
import type { Fact, Section, SheetCell } from '../../lib/sheet';
import { capital, field_name } from '../../lib/tallies';
import { number, plain, range, row_lines, rows_lines, share, column_lines, signed, type Compared, type Ground } from './answer';
import { plural } from './said';

type Interval = [number, number] | null;
const between = (interval: Interval, decimals: number): Partial<SheetCell> => (interval ? { note: range(interval[0], interval[1], decimals) ?? '' } : {});

export function breakage(found: Compared, ground: Ground): Section[] {
  const cells = (row: BreakageRow, opens: SheetCell['opens']): SheetCell[] => [
    { ...number(row.count, 0), says: 'not recorded', opens },
    { ...number(row.weight_g, 1), says: 'not recorded', opens },
    { ...number(row.vessels, 0), says: 'not recorded', opens },
    { ...number(row.eve, 2), says: 'not recorded', opens },
    number(row.mean_weight_g, 1, between(row.mean_weight_95, 1)),
    number(row.brokenness, 1, between(row.brokenness_95, 1)),
    number(row.completeness, 2, between(row.completeness_95, 2)),
    number(row.rim_diameter_mm, 0, { says: 'no rim measured', ...(row.rims_measured ? { note: counted(row.rims_measured, 'rim') } : {}) }),
    share(row.abraded_share, { says: 'condition not recorded', ...(row.condition_recorded ? { note: `of ${counted(row.condition_recorded, 'sherd')}` } : {}) }),
  ];
  return [
    {
      kind: 'sheet',
      title: 'How broken, how whole, how worn',
      caption:
        'Brokenness: sherds for each vessel’s worth of rim; completeness: how much of a vessel’s rim there is. Both are undefined where no rim was measured. Beneath: the 95 % interval.',
      columns: [
        { label: capital(field_name(ground.rows)) },
        { label: 'Sherds', number: true },
        { label: 'Weight', unit: 'g', number: true },
        { label: 'Vessels', number: true },
        { label: 'EVE', number: true },
        { label: 'Mean', unit: 'g a sherd', number: true },
        { label: 'Broken', unit: 'sherds/EVE', number: true },
        { label: 'Complete', unit: 'EVE/vessel', number: true },
        { label: 'Rims', unit: 'mm across', number: true },
        { label: 'Abraded', unit: '%', number: true },
      ],
      rows: (found.breakage_rows ?? []).map((row) => {
        const opens = row_lines(ground, row.label);
        return [plain(row.label, { opens }), ...cells(row, opens)];
      }),
      ...(found.breakage_total ? { foot: [plain('all'), ...cells(found.breakage_total, lines_of('all lines counted', ground.where))] } : {}),
    },
  ];
}

export function residuality(found: Compared, ground: Ground): Section[] {
  const cells = (row: ResidualityRow, opens: SheetCell['opens']): SheetCell[] => {
    const where = [...ground.where, condition(ground.rows, row.label)];
    const residual = row.records.length ? { opens: lines_of(`residual in ${field_name(ground.rows)} ${row.label}`, where, row.records) } : {};
    const judged = (value: number, as: string): SheetCell =>
      number(value, 0, value > 0 && opens ? { opens: lines_of(`judged ${as} in ${field_name(ground.rows)} ${row.label}`, [...where, `judged=${as}`]) } : {});
    return [
      number(row.contexts, 0, row.tested < row.contexts ? { note: `${whole(row.tested)} with a terminus` } : {}),
      number(row.sherds, 0, { opens }),
      number(row.dated, 0),
      number(row.residual, 0, residual),
      share(row.share, row.share === null ? { says: 'nothing dated' } : { bar: row.share, note: row.low95 === null || row.high95 === null ? '' : `${percent(row.low95)} to ${percent(row.high95)}` }),
      share(row.weight_share),
      share(row.vessels_share),
      judged(row.judged_residual, 'residual'),
      judged(row.judged_intrusive, 'intrusive'),
    ];
  };
  return [
    {
      kind: 'sheet',
      title: 'How much is older than its deposit',
      caption:
        'Shares of what is dated, with the 95 % interval from contexts drawn anew. Residual: made too early for its context’s terminus, by the dates of its ware; judged: as the specialist wrote it on the line.',
      columns: [
        { label: capital(field_name(ground.rows)) },
        { label: 'Contexts', number: true },
        { label: 'Sherds', number: true },
        { label: 'Dated', number: true },
        { label: 'Residual', number: true },
        { label: 'Share', unit: '%', number: true },
        { label: 'By weight', unit: '%', number: true },
        { label: 'By vessels', unit: '%', number: true },
        { label: 'Judged', unit: 'residual', number: true },
        { label: 'Judged', unit: 'intrusive', number: true },
      ],
      rows: (found.residuality_rows ?? []).map((row) => {
        const opens = row_lines(ground, row.label);
        return [plain(row.label, { opens, ...(row.title ? { note: row.title } : {}) }), ...cells(row, opens)];
      }),
      ...(found.residuality_total ? { foot: [plain('all'), ...cells({ ...found.residuality_total, records: [] }, null)] } : {}),
    },
  ];
}

export function joins(found: Compared, ground: Ground): Section[] {
  const facts: Fact[] = [];
  const add = (label: string, value: number | null | undefined, decimals: number, means: string) => {
    if (value !== null && value !== undefined) facts.push({ label, text: signed(fixed(value, decimals)), means });
  };
  add('Within', found.within, 0, `joins inside one ${field_name(ground.rows)}`);
  add('Between', found.between, 0, `joins across two ${plural(field_name(ground.rows))}`);
  add('Cohesion', found.cohesion, 2, 'within / (within + between)');
  add('Vessels across', found.vessels_across, 0, 'that lie in more than one');
  add('Only possible', found.possible || null, 0, 'said to be perhaps the same; not counted');
  add('Parts', found.components, 0, 'of the network, with no link between them');
  add('Modularity', found.modularity, 2, 'how far links keep inside their groups');
  const links = found.links ?? [];
  const sections: Section[] = [{ kind: 'facts', title: 'What holds together', facts }];
  if (links.length) {
    sections.push({
      kind: 'sheet',
      title: 'Links',
      caption: 'Index: joins in proportion to how much there is on both sides.',
      columns: [{ label: 'One' }, { label: 'Other' }, { label: 'Joins', number: true }, { label: 'Vessels', number: true }, { label: 'Index', number: true }],
      first: { column: 4, down: true },
      rows: links.map((link) => {
        const opens = rows_lines(ground, [link.a, link.b], link.records.length ? link.records : undefined);
        return [
          plain(link.a, { opens: row_lines(ground, link.a) }),
          plain(link.b, { opens: row_lines(ground, link.b) }),
          number(link.joins, 0, { opens }),
          number(link.vessels, 0, { opens }),
          number(link.index, 4),
        ];
      }),
    });
  }
  sections.push({
    kind: 'sheet',
    title: 'What each holds',
    caption: 'Joins that stay inside, and those that lead out.',
    columns: [
      { label: capital(field_name(ground.rows)) },
      { label: 'Group' },
      { label: 'Sherds', number: true },
      { label: 'Within', number: true },
      { label: 'Across', number: true },
      { label: 'Vessels shared', number: true },
      { label: 'Part', number: true },
    ],
    rows: (found.nodes ?? []).map((one) => {
      const opens = row_lines(ground, one.label);
      return [
        plain(one.label, { opens }),
        { ...plain(one.group || null), says: 'in no group' },
        number(one.sherds, 0, { opens }),
        number(one.within, 0),
        number(one.across, 0),
        number(one.vessels_shared, 0),
        number(one.component, 0),
      ];
    }),
  });
  return sections;
}

export function key_groups(found: Compared, ground: Ground): Section[] {
  const scored = (value: SheetCell, score: number | null): SheetCell => (score === null ? value : { ...value, bar: score });
  return [
    {
      kind: 'sheet',
      title: 'Ranked',
      caption: 'Bars: how well each does in one quality, 0 to 1; the score is their mean by the weights. What could not be judged is named.',
      columns: [
        { label: capital(field_name(ground.rows)) },
        { label: 'Rank', number: true },
        { label: 'Score', number: true },
        { label: 'Size', unit: 'sherds', number: true },
        { label: 'Fresh', unit: 'abraded, %', number: true },
        { label: 'Complete', unit: 'EVE/vessel', number: true },
        { label: 'Residual', unit: '%', number: true },
        { label: 'Dated within', unit: 'years', number: true },
        { label: 'Not judged' },
      ],
      rows: (found.ranked ?? []).map((one) => {
        const opens = row_lines(ground, one.label);
        const mean = one.mean_weight_g === null ? {} : { note: `${fixed(one.mean_weight_g, 1)} g a sherd` };
        return [
          plain(one.label, { opens }),
          plain(String(one.rank), { value: one.rank }),
          number(one.score, 2, { strong: true, bar: one.score }),
          scored(number(one.sherds, 0, { opens }), one.size_score),
          scored(share(one.abraded_share, { says: 'condition not recorded', ...mean }), one.freshness_score),
          scored(number(one.completeness, 2), one.completeness_score),
          scored(share(one.residual_share, { says: 'nothing dated' }), one.residual_score),
          scored(number(one.years, 0, { says: 'not dated' }), one.dating_score),
          plain(one.missing.length ? one.missing.join(', ') : null, { says: 'all judged' }),
        ];
      }),
    },
  ];
}

export function sample_size(found: Compared, ground: Ground): Section[] {
  const facts: Fact[] = [];
  const add = (label: string, value: number | null | undefined, decimals: number, means: string) => {
    if (value !== null && value !== undefined) facts.push({ label, text: fixed(value, decimals), means });
  };
  add('Sherds to sort', found.simple_n, 0, 'were each a thing of its own');
  add('Fewer, since they run out', found.finite_n, 0, found.population ? `of ${counted(found.population, 'sherd')} there are` : '');
  add('Since they come in pots', found.clustered_n, 0, 'sherds to sort, all told');
  add('Design effect', found.design_effect, 1, 'so many sherds say as much as one of its own');
  add('Sherds a vessel', found.sherds_per_vessel, 1, 'on the mean, in this record');
  add('This record is worth', found.effective_n, 0, 'sherds of their own');
  const within = (low: number | null, high: number | null) => plain(low === null || high === null ? null : `${fixed(100 * low, 1)} to ${fixed(100 * high, 1)}`, { says: 'not known' });
  const points = (half: number | null) => number(half === null ? null : 100 * half, 1);
  return [
    { kind: 'facts', title: `For a share of ${fixed(100 * (found.share ?? 0.5), 0)} % within ${fixed(100 * (found.within ?? 0.05), 0)} points`, facts },
    {
      kind: 'sheet',
      title: 'Shares as they are known now',
      caption: 'Each share with its 95 % interval, as sherds of their own and as pots; and how many sherds it would take.',
      columns: [
        { label: capital(field_name(ground.columns)) },
        { label: 'Share', unit: '%', number: true },
        { label: 'Sherds', number: true },
        { label: 'As sherds', unit: '95 %, %' },
        { label: 'As pots', unit: '95 %, %' },
        { label: 'Needed', unit: 'as sherds', number: true },
        { label: 'Needed', unit: 'as pots', number: true },
      ],
      rows: (found.sample_shares ?? []).map((one) => {
        const opens = column_lines(ground, one.label);
        return [
          plain(one.label, { opens }),
          share(one.share, { bar: one.share }),
          number(one.count, 0, { opens }),
          within(one.low95, one.high95),
          within(one.low95_clustered, one.high95_clustered),
          number(one.needed, 0),
          number(one.needed_clustered, 0),
        ];
      }),
    },
    {
      kind: 'sheet',
      title: 'What more sherds would bring',
      caption: 'Half the width of the interval, in points.',
      columns: [{ label: 'Sherds' }, { label: 'As sherds', unit: '± points', number: true }, { label: 'As pots', unit: '± points', number: true }],
      rows: (found.sample_curve ?? []).map((one) => [plain(whole(one.n), { value: one.n }), points(one.half_width), points(one.half_width_clustered)]),
    },
  ];
}

export function distance(found: Compared): Section[] {
  return [
    {
      kind: 'sheet',
      title: 'Curves',
      caption: 'R² on the curve’s own scale, and of the amounts themselves, by which the curves can be compared. Beneath b: its 95 % interval.',
      columns: [
        { label: 'Transport' },
        { label: 'Curve' },
        { label: 'Formula' },
        { label: 'Places', number: true },
        { label: 'b', number: true },
        { label: 'R²', number: true },
        { label: 'R²', unit: 'of amounts', number: true },
        { label: 'Half distance', number: true },
        { label: 'To bear in mind', prose: true },
      ],
      rows: (found.groups ?? []).flatMap((group) =>
        group.curves.map((curve) => [
          plain(group.group || 'all'),
          plain(curve.name),
          plain(curve.formula),
          number(curve.n, 0),
          number(curve.b, 4, curve.b95 ? { note: range(curve.b95[0], curve.b95[1], 4) ?? '' } : {}),
          number(curve.r_square, 3),
          number(curve.r_square_amounts, 3),
          { ...number(curve.half_distance, 1), says: 'varies' },
          plain(curve.note || null, { says: 'nothing' }),
        ]),
      ),
    },
    {
      kind: 'sheet',
      title: 'Places',
      caption: 'As they entered the curves; what could not is said. Last: what the exponential curve of its transport gives there.',
      columns: [{ label: 'Place' }, { label: 'Transport' }, { label: 'Distance', number: true }, { label: 'Amount', number: true }, { label: 'Exponential', number: true }],
      rows: (found.places ?? []).map((one) => [
        plain(one.label),
        plain(one.group || null),
        number(one.distance, 1),
        number(one.amount, 1, one.used ? {} : { note: 'left out' }),
        number(one.exponential, 1),
      ]),
    },
  ];
}
