/** The answer's codes in words. */
import type { MemoryEnd, WhenReason } from '../../api';
import { counted, day, sentence, whole, year, years } from '../../lib/format';
import { plain } from './piece';

type Nature = WhenReason['nature'];
type Basis = WhenReason['basis'];
type Known = WhenReason['known'];

const kBasis: Record<Basis, string> = {
  made: 'made in these years',
  arrived: 'arrived here in these years',
  deposited: 'found in deposits of these years',
};

export function nature_words(nature: Nature, basis: Basis): string {
  if (nature === 'limit') return 'a hard limit: a law, a reign, a registration';
  if (nature === 'usual') return basis === 'made' ? 'usual in these years' : `usually ${kBasis[basis]}`;
  return kBasis[basis];
}

export function known_words(known: Known): string {
  if (known === 'memory') return 'from memory';
  if (known === 'calculated') return 'calculated';
  return known === 'read' ? 'read in the source' : 'how it is known is not said';
}

/** Years with both ends open are "no year"; a range otherwise as everywhere on the page. */
export function range_words(earliest: number | null, latest: number | null): string {
  return years(earliest, latest) || 'no year of its own';
}

export function ranges_words(ranges: readonly (readonly number[])[]): string {
  return ranges.map(([from, to]) => years(from as number, to as number)).join(' and ');
}

/** The statement's first words for large type, and the rest of it: long where it names ways out of a conflict. */
export function statement_parts(statement: string): [string, string] {
  const at = statement.indexOf(': ');
  if (at < 0) return [sentence(statement), ''];
  return [sentence(statement.slice(0, at)), sentence(plain(statement.slice(at + 2)))];
}

/** What of the answer would be another without the rows from memory. */
export function memory_words(end: MemoryEnd): string {
  const rests = `${end.evidence.map(plain).join(' and ')}, from memory`;
  if (end.end === 'most_likely') return `The most likely years rest on ${rests}.`;
  const which = end.end === 'earliest' ? 'earliest' : 'latest';
  const what = end.year === null ? `That there is no ${which} year rests` : `The ${which} year, ${year(end.year)}, rests`;
  const else_ = end.without === null ? `there is no ${which} year` : `it is ${year(end.without)}`;
  return `${what} on ${rests}; without that ${else_}.`;
}

const kConflicts: Record<string, string> = {
  no_year_fits: 'No year fits',
  spans_miss: 'Only the margins meet',
  outside_window: 'Outside the years considered',
  sources_differ: 'Sources differ',
  regions_differ: 'Regions differ',
  unusual: 'Unusual',
};

export function conflict_title(code: string): string {
  return kConflicts[code] ?? 'Does not go together';
}

/** Conflicts that leave no year, or none of those considered: they go before everything else that is said. */
export function is_grave(code: string): boolean {
  return code === 'no_year_fits' || code === 'spans_miss' || code === 'outside_window';
}

const amount = (lines: number, count: number | null, grams: number | null) =>
  [
    counted(lines, 'line'),
    count === null ? '' : counted(count, 'sherd'),
    grams === null ? '' : `${grams.toLocaleString('en-GB', { maximumFractionDigits: 1 })} g`,
  ]
    .filter(Boolean)
    .join(', ');
const cents = (share: number) => `${whole(100 * share)} %`;

/** All that the series, its key and the changes of its codes say. */
export const kSeries = {
  room: 'Series',
  parts_label: 'Parts of the room',
  parts: { list: 'The series', key: 'Key', codes: 'Change of codes', piece: 'Date a piece' },
  lead: {
    list: 'Ware groups, fabrics and variants, forms and decorations: what is known of each, and how much of the record is called so.',
    key: 'Say what is seen on a fresh break under the lens: the fabrics rank by how well they fit.',
    codes: 'Rename, merge or split a code: every record that names it follows, and it is one change that can be taken back.',
    piece: 'Date one piece by what is seen on it, read what others write, and look up what is known.',
  },

  what: 'the series',
  kinds_label: 'What is listed',
  kinds: { fabrics: 'Fabrics', forms: 'Forms', decorations: 'Decorations' },
  one: { fabrics: 'fabric', forms: 'form', decorations: 'decoration' },
  find: 'Find',
  find_such_as: 'code, name, ware group, inclusion',
  with_retired: 'with retired ones',
  shown: (found: number, all: number, kind: string) =>
    found === all ? counted(all, kind.replace(/s$/, '')) : `${whole(found)} of ${counted(all, kind.replace(/s$/, ''))}`,
  none: (kind: string) => `No ${kind} yet. They come with an import, or are made here and in the Recording room.`,
  none_found: (text: string) => `None holds "${text}".`,
  no_group: 'no ware group',
  amount,
  group_amount: (lines: number) => counted(lines, 'line'),
  status: (status: string) => (status === '' ? '' : status),
  choose: (kind: string) => `Choose a ${kind} from the list.`,
  add: (kind: string) => `Add a ${kind}`,
  add_code: 'Code',
  add_variant: 'as a variant of',
  add_do: 'Add',
  add_taken: (code: string) => `There is a ${code} already.`,
  add_blank: 'Say its code first.',
  label_add: (kind: string, code: string) => `${kind} ${code} added`,
  amend: 'Amend',
  amended: 'Done amending',
  not_in_series: 'Lines name it; it has no row of its own yet.',
  make_row: 'Give it a row',

  variant_of: 'Variant of',
  variants: 'Variants',
  source_area: 'Comes from',
  class: 'Vessel class',
  technique: 'Technique',
  description: 'Description',
  no_description: 'Not described yet.',
  hand: 'In the hand',
  hardness: 'Hardness',
  feel: 'Feel',
  fracture: 'Fracture',
  colours: 'Colours',
  zone: { outside: 'outside', core: 'core', inside: 'inside' } as Record<string, string>,
  out_of_gamut: 'more than a screen can show',
  firing: 'Firing',
  on_scale: (scale: string, measure: string) => `scale ${scale}${measure ? `, ${measure}` : ''}`,
  paste: 'Inclusions',
  no_paste: 'No inclusions are described.',
  no_inclusions: 'No inclusions are seen.',
  sizes: (least: number | null, most: number | null) =>
    least !== null && most !== null ? (least === most ? `${most} mm` : `${least} to ${most} mm`) : most !== null ? `to ${most} mm` : least !== null ? `from ${least} mm` : '',
  dates: 'Dates',
  own_years: 'of the whole',
  full: (text: string) => `in full production ${text}`,
  no_dates: 'No date rows; only the years above hold.',
  equivalents: 'In other series',
  no_equivalents: 'No equivalents are given.',
  specimens: 'Specimens',
  no_specimens: 'No specimen is kept.',
  proxy: 'Note for its bag',
  proxy_title: (specimen: string) => `Specimen ${specimen}`,
  proxy_text: (code: string, record: string, place: string) =>
    `A sherd of this bag${record ? ` (record ${record})` : ''} is kept as the specimen of ${code}${place ? `, at ${place}` : ''}. It stays in the counts of this bag.`,
  proxy_print: 'Print the note',
  pictures: 'Pictures',
  no_pictures: 'No picture is kept.',
  picture_of: (code: string) => `Picture of ${code}`,
  all_lines: (lines: number) => `Show ${counted(lines, 'line')}`,
  lines_title: (code: string) => `Lines of ${code}`,
  calls: 'First calls',
  calls_show: 'Show what these lines were called before',
  calls_none: 'All of its lines were called so from the first.',
  call_in: (lines: number, was: string) => `${counted(lines, 'line')} came here from ${was || 'blank'}`,
  call_out: (lines: number, now: string) => `${counted(lines, 'line')} went on to ${now || 'blank'}`,
  call_by: (who: string, at: string, change: number) => `${who}, ${day(at)}, change ${change}`,

  rows_add: (kind: string) => `Add ${kind === 'inclusions' ? 'an inclusion' : kind === 'equivalents' ? 'an equivalent' : kind === 'dates' ? 'a date' : 'a specimen'}`,
  rows_add_missing: (labels: readonly string[]) => `Still wanted: ${labels.join(', ').toLowerCase()}.`,
  rows_remove: (id: string) => `Remove ${id}`,
  rows_label: (kind: string, code: string) => `${kind} of ${code}`,

  seen: 'What is seen',
  clear: 'Clear',
  any: 'not looked at',
  only: 'nothing else is in the paste',
  inclusion: 'Inclusion',
  add_inclusion: 'Add the inclusion',
  take_away: (text: string) => `Take away ${text}`,
  amount_of: 'Amount',
  not_there: 'not there',
  sorting: 'Sorting',
  rounding: 'Rounding',
  size_of: 'Size',
  size_such_as: '0.3-0.8 mm, medium sand',
  colour_such_as: '5YR 5/6',
  firing_such_as: 'oxidised with a dark core',
  candidates: 'What it may be',
  fabric_head: 'Fabric',
  candidates_none: 'The series has no fabric yet.',
  start: 'Nothing is said yet. What would tell most is named beside.',
  unsettled: (bits: number) => `still open: ${bits.toFixed(1)} bits`,
  fit: 'Fit',
  fit_words: (fit: number | null, heard: number) => (fit === null ? 'does not say' : `${cents(fit)}, of ${cents(heard)} of what is seen`),
  share: 'Share',
  share_words: (share: number) => cents(share),
  lines: 'Lines',
  differs: 'Goes against it',
  differs_words: (key: string, described: string) => `${key}: ${described}`,
  silent: (silent: number, all: number) => `${whole(silent)} of ${counted(all, 'fabric')} say nothing of what is seen.`,
  in_full: 'How each fits',
  agreement: (likeness: number) => (likeness >= 0.995 ? 'alike' : likeness <= 0.005 ? 'not alike' : `${cents(likeness)} alike`),
  next: 'Look next at',
  next_none: 'Nothing further would tell the fabrics apart.',
  next_bits: (bits: number) => `${bits.toFixed(2)} bits`,
  next_answer: (value: string, fabric: string) => `${value}: then ${fabric}`,
  fault: (message: string, hint: string) => `${sentence(message)} ${hint ? sentence(hint) : ''}`,
  open_card: (code: string) => `card of ${code}`,

  acts: { rename: 'Rename', merge: 'Merge', split: 'Split' },
  act_label: 'What is done',
  kind_label: 'Of',
  from: { rename: 'Code', merge: 'Codes that go', split: 'Code that is split' },
  from_hint: 'several with commas',
  into: { rename: 'Its new name', merge: 'Code that stays', split: 'Code that the lines get' },
  into_hint: 'blank: only the list of sherds to pull',
  rule: 'Lines by rule',
  rule_such_as: 'form=jar, context.phase=A1',
  records: 'or by number',
  records_such_as: '10031, 10201',
  new_name: 'Name of a new code',
  variant: 'a new fabric is a variant of the one that is split',
  drop: 'take the codes that go out of the series (else they stay, retired)',
  keep: 'where both say something and differ, what the code that stays says stands',
  preview: 'Preview',
  do: { rename: 'Rename', merge: 'Merge', split: 'Split' },
  would: (rows: number) => `${counted(rows, 'row')} would change`,
  done: (rows: number, change: number) => `${counted(rows, 'row')} changed, in change ${change}.`,
  take_back: 'Take it back',
  old_preview: 'Asked otherwise since: preview again.',
  of_table: (rows: number, table: string) => `${whole(rows)} of ${table}`,
  nothing_touched: 'No row would change.',
  values: (values: number) => counted(values, 'value'),
  head: { table: 'Table', row: 'Row', column: 'Column', was: 'Was', now: 'Will be' },
  added: 'added',
  removed: 'removed',
  clashes: 'Where both say something and differ',
  clash_head: { goes: 'Goes', stays: 'Stays' },
  pull: 'To pull, by box and bag',
  pull_lines: (lines: number) => counted(lines, 'line'),
  pull_print: 'Print the list',
  pull_head: { box: 'Box', bag: 'Bag', context: 'Context', record: 'Record', sherds: 'Sherds', g: 'g', form: 'Form', part: 'Part', also: 'Also', done: 'Pulled' },
  more: (rows: number) => `Show ${whole(rows)} more`,
  away: 'The program does not answer; nothing was done. Try again when it does.',
  not_done: (message: string, hint: string) => `Not done. ${sentence(message)} ${hint ? sentence(hint) : ''}`,
};

/** The years of a code, or that it has none. */
export function code_years(entry: { earliest: number | null; latest: number | null }): string {
  return years(entry.earliest, entry.latest);
}
