/** What is compared and how: as the address has it, as the page holds it, as the program is asked. */
import type { Value } from '../../lib/query';
import { kMeasures, type Show } from '../../lib/tallies';
import type { Measure } from '../../lib/types';
import { heads_of, likely } from './heads';
import { view_of, type How, type View } from './part';
import { kSettings, settings_of, takes_columns, takes_measure } from './settings';

export interface Choice {
  view: View;
  /** Of the tally: what it counts by, one field or two, with intervals or not, and what its cells show. */
  by: readonly string[];
  intervals: boolean;
  show: Show;
  rows: string;
  columns: string;
  measure: Measure;
  where: readonly string[];
  /** Left out: lines whose identification is doubtful, lines that nobody has checked. */
  doubtful_out: boolean;
  unchecked_out: boolean;
  /** By the program's names; a list has several. Those of all views, so that going to and fro keeps them. */
  settings: Readonly<Record<string, readonly string[]>>;
}

export const kRows = 'context.phase';
export const kColumns = 'fabric.ware_group';
/** Columns of a table of places. */
const kPlaces = ['amount', 'far', 'transport', 'east', 'north', 'zeros'];
const kNames = [...kSettings.map((one) => one.name), 'weights', ...kPlaces];

export function choice_of(query: URLSearchParams): Choice {
  const by = [...new Set((query.get('by') ?? '').split(',').filter(Boolean))].slice(0, 2);
  const settings: Record<string, string[]> = {};
  for (const name of kNames) {
    const given = query.getAll(name).filter(Boolean);
    if (given.length) settings[name] = given;
  }
  return {
    view: view_of(query),
    by: by.length ? by : ['fabric'],
    intervals: query.get('intervals') === 'yes',
    show: (['of_row', 'of_column'] as const).find((one) => one === query.get('show')) ?? 'amount',
    rows: query.get('rows') || kRows,
    columns: query.get('columns') || kColumns,
    measure: kMeasures.find((one) => one.measure === query.get('measure'))?.measure ?? 'count',
    where: query.getAll('where'),
    doubtful_out: query.get('doubtful') === 'out',
    unchecked_out: query.get('unchecked') === 'out',
    settings,
  };
}

/** As it stands in the address: what is as it is unless said is left out. */
export function note_of(choice: Choice): Record<string, Value> {
  return {
    how: choice.view === 'tally' ? null : choice.view,
    by: choice.by.join(',') === 'fabric' ? null : choice.by.join(','),
    intervals: choice.intervals ? 'yes' : null,
    show: choice.show === 'amount' ? null : choice.show,
    rows: choice.rows === kRows ? null : choice.rows,
    columns: choice.columns === kColumns ? null : choice.columns,
    measure: choice.measure === 'count' ? null : choice.measure,
    where: choice.where,
    doubtful: choice.doubtful_out ? 'out' : null,
    unchecked: choice.unchecked_out ? 'out' : null,
    ...choice.settings,
  };
}

/** A request's measure is named as its column is. */
export const asked_measure = (measure: Measure): string => (measure === 'weight' ? 'weight_g' : measure);

/** Numbers with decimals go as they were written. */
const kAsText = ['within', 'share'];

export type Asked = Record<string, string | number | boolean | string[]>;

/** What the program is asked for; settings of other views stay behind. */
export function request_of(choice: Choice, view: How): Asked {
  const asked: Asked = view === 'sample-size' ? { how: view } : { how: view, rows: choice.rows };
  if (takes_columns(view)) asked.columns = choice.columns;
  if (takes_measure(view)) asked.measure = asked_measure(choice.measure);
  if (choice.where.length) asked.where = [...choice.where];
  if (choice.doubtful_out) asked.doubtful = 'out';
  if (choice.unchecked_out) asked.unchecked = 'out';
  for (const setting of settings_of(view)) {
    const given = choice.settings[setting.name];
    if (!given?.length) continue;
    const [first = ''] = given;
    if (setting.kind === 'number') {
      if (first !== '' && Number.isFinite(Number(first))) asked[setting.name] = kAsText.includes(setting.name) ? first : Number(first);
    } else asked[setting.name] = setting.kind === 'list' || setting.name === 'dates' ? [...given] : first;
  }
  const weights = choice.settings.weights;
  if (view === 'key-groups' && weights?.length) asked.weights = [...weights];
  return asked;
}

/** What is asked of a table of its own: nothing that only a record has. */
export function request_of_table(choice: Choice, view: How, table: string): Asked {
  const asked: Asked = { ...request_of(choice, view), table };
  for (const name of ['rows', 'columns', 'measure', 'where', 'doubtful', 'unchecked', 'with', 'dates', 'layer', 'groups']) delete asked[name];
  return asked;
}

/** A fall-off, once it is known which column is the amount and which the distance; null before. */
export function request_of_places(choice: Choice, table: string): Asked | null {
  const places = { ...likely(heads_of(table)) } as Record<string, string>;
  for (const name of kPlaces) places[name] = choice.settings[name]?.[0] ?? places[name] ?? '';
  const { amount = '', far = '', transport = '', east = '', north = '', zeros = '' } = places;
  if (table.trim() === '' || amount === '' || far === '') return null;
  return {
    how: 'distance',
    table,
    measure: amount,
    columns: far,
    ...(transport ? { groups: transport } : {}),
    ...(east && north ? { at: `${east},${north}` } : {}),
    ...(zeros ? { zeros } : {}),
  };
}

/** With one setting changed; nothing given takes it away. */
export function with_setting(choice: Choice, name: string, given: readonly string[]): Choice {
  const { [name]: _, ...others } = choice.settings;
  return { ...choice, settings: given.some(Boolean) ? { ...others, [name]: given.filter(Boolean) } : others };
}

/** For a tally: the lines that are left out by a switch, as conditions. */
export function tally_where(choice: Choice): string[] {
  const certainties: Record<string, string> = { fabric: 'fabric_certainty', form: 'form_certainty', decoration: 'decoration_certainty' };
  const used = choice.view === 'measures' ? [choice.columns] : choice.by;
  const doubted = new Set(used.map((field) => certainties[field.split('.')[0] ?? '']).filter((one) => one !== undefined));
  return [
    ...choice.where,
    ...(choice.doubtful_out ? [...doubted].flatMap((one) => [`${one}!=probable`, `${one}!=possible`]) : []),
    ...(choice.unchecked_out ? ['checked_by!='] : []),
  ];
}
