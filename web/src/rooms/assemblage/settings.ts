/** The settings of each way of comparing, as the program names them. */
import type { How } from './part';

export interface Setting {
  name: string;
  label: string;
  views: readonly How[];
  /** choice: one of `choices`; number; field: a field of lines; list: words that may be given again. */
  kind: 'choice' | 'number' | 'field' | 'list';
  /** [as the program has it, in words]; the first stands unless said. */
  choices?: readonly (readonly [string, string])[];
  /** What stands where nothing is said. */
  unless: string;
  least?: number;
  most?: number;
  /** How one of a list is written. */
  such_as?: string;
}

/** Those that cross rows with columns and take a measure. */
const kCrossed: readonly How[] = ['similarity', 'ordination', 'order', 'clusters', 'difference', 'diversity'];
/** Those that draw anew. */
const kResampled: readonly How[] = ['ordination', 'similarity', 'order', 'diversity', 'difference', 'breakage', 'residuality'];

export const kSettings: readonly Setting[] = [
  {
    name: 'method',
    label: 'Order by',
    views: ['order'],
    kind: 'choice',
    choices: [
      ['search', 'search: the fewest steps back'],
      ['axis', 'the first axis of the ordination'],
    ],
    unless: '',
  },
  {
    name: 'linkage',
    label: 'Join by',
    views: ['clusters'],
    kind: 'choice',
    choices: [
      ['average', 'the mean distance (average)'],
      ['single', 'the nearest pair (single)'],
      ['complete', 'the farthest pair (complete)'],
      ['ward', 'the least growth of squares (Ward)'],
      ['k-means', 'centres (k-means)'],
    ],
    unless: '',
  },
  {
    name: 'distance',
    label: 'Distance',
    views: ['clusters'],
    kind: 'choice',
    choices: [
      ['percent', 'of percentages'],
      ['chi-square', 'chi-square'],
      ['similarity', '200 less the similarity'],
      ['amounts', 'of amounts as they are'],
    ],
    unless: '',
  },
  { name: 'cut', label: 'Clusters', views: ['clusters'], kind: 'number', unless: 'as lie best apart', least: 2, most: 100 },
  { name: 'groups', label: 'Agree with', views: ['clusters'], kind: 'field', unless: 'nothing' },
  { name: 'layer', label: 'Also by', views: ['difference'], kind: 'field', unless: 'nothing else' },
  { name: 'impossible', label: 'Cannot exist', views: ['difference'], kind: 'list', unless: '', such_as: 'COLUMN*LAYER' },
  {
    name: 'dates',
    label: 'Date the axes by',
    views: ['ordination'],
    kind: 'choice',
    choices: [
      ['', 'nothing'],
      ['own', 'the specialist’s own dates'],
      ['sequence', 'the dates in sequence'],
      ['spot', 'spot dates'],
      ['phase', 'the phases'],
    ],
    unless: '',
  },
  { name: 'beside', label: 'Rows beside', views: ['ordination'], kind: 'list', unless: '', such_as: 'a row' },
  { name: 'beside_columns', label: 'Columns beside', views: ['ordination'], kind: 'list', unless: '', such_as: 'a column' },
  { name: 'share', label: 'Share', views: ['sample-size'], kind: 'number', unless: '50', least: 1, most: 99 },
  { name: 'within', label: 'Within ± points', views: ['sample-size'], kind: 'number', unless: '5', least: 1, most: 50 },
  { name: 'population', label: 'Sherds there are', views: ['sample-size'], kind: 'number', unless: 'not known', least: 1 },
  {
    name: 'with',
    label: 'Other sites',
    views: kCrossed,
    kind: 'list',
    unless: '',
    such_as: 'an assemblage, or all',
  },
  { name: 'merge', label: 'Counted as one', views: kCrossed, kind: 'list', unless: '', such_as: 'A+B' },
  { name: 'resamples', label: 'Resamples', views: kResampled, kind: 'number', unless: 'as the method needs', least: 0, most: 100_000 },
  { name: 'seed', label: 'Seed', views: kResampled, kind: 'number', unless: '1', least: 0 },
];

/** What only the record has: a table of its own is asked without. */
export const kOfRecord = ['with', 'dates', 'layer', 'impossible', 'groups'];

/** Of key groups, what counts for how much. */
export const kWeights = ['size', 'freshness', 'completeness', 'residual', 'dating'] as const;

export function settings_of(view: How): readonly Setting[] {
  return kSettings.filter((one) => one.views.includes(view));
}
/** Which views cross rows with columns; the others look at rows alone. */
export function takes_columns(view: How): boolean {
  return kCrossed.includes(view) || view === 'sample-size';
}
export function takes_measure(view: How): boolean {
  return kCrossed.includes(view);
}
