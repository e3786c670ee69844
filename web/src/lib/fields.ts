/** The columns of a sherd line as the grid shows them: which at which level of recording, and how each is filled. */
import type { Amount } from './typed';

export type Level = 'scan' | 'basic' | 'detailed';
export type Codes = 'fabrics' | 'forms' | 'decorations' | 'parts';

export interface Field {
  column: string;
  label: string;
  /** In characters. */
  width: number;
  /** What is typed is completed from this list. */
  codes?: Codes;
  amount?: Amount;
  /** The column that holds how sure one is. */
  certainty?: string;
  words?: readonly string[];
  /** Not typed in: the program gives it. */
  given?: boolean;
  help?: string;
}

/** In the order in which hands fill them: what it is, how much, then what more there is to say. */
export const kFields: readonly Field[] = [
  { column: 'record', label: 'Record', width: 7, given: true, help: 'given by the program, for good' },
  { column: 'fabric', label: 'Fabric', width: 15, codes: 'fabrics', certainty: 'fabric_certainty' },
  { column: 'part', label: 'Part', width: 9, codes: 'parts' },
  { column: 'count', label: 'Sherds', width: 7, amount: 'count' },
  { column: 'weight_g', label: 'Weight, g', width: 8, amount: 'weight' },
  { column: 'form', label: 'Form', width: 13, codes: 'forms', certainty: 'form_certainty' },
  { column: 'decoration', label: 'Decoration', width: 15, codes: 'decorations', certainty: 'decoration_certainty' },
  { column: 'rim_percent', label: 'Rim, %', width: 7, amount: 'percent' },
  { column: 'rim_diameter_mm', label: 'Rim diam., mm', width: 10, amount: 'length' },
  { column: 'rims', label: 'Rims', width: 6, amount: 'count', help: 'blank is 1' },
  { column: 'vessels', label: 'Vessels', width: 8, amount: 'count', help: '0: the rest of a vessel counted on another line' },
  { column: 'vessel', label: 'Vessel', width: 9, help: 'lines with the same word are one vessel' },
  { column: 'base_percent', label: 'Base, %', width: 8, amount: 'percent' },
  { column: 'base_diameter_mm', label: 'Base diam., mm', width: 11, amount: 'length' },
  { column: 'wall_mm', label: 'Wall, mm', width: 8, amount: 'length' },
  { column: 'surface', label: 'Surface', width: 16, help: 'glaze, slip, burnish, and where' },
  { column: 'technique', label: 'Technique', width: 14, help: 'of the decoration' },
  { column: 'condition', label: 'Condition', width: 20, help: 'what, how much, where: sooted, heavy, base; abraded, slight' },
  { column: 'use_traces', label: 'Traces of use', width: 16 },
  { column: 'mark', label: 'Mark', width: 14 },
  { column: 'judged', label: 'Judged', width: 10, words: ['own', 'residual', 'intrusive'] },
  { column: 'earliest', label: 'Earliest', width: 8, amount: 'year', help: "the line's own date" },
  { column: 'latest', label: 'Latest', width: 8, amount: 'year' },
  { column: 'notes', label: 'Notes', width: 24 },
  { column: 'bag', label: 'Bag', width: 6 },
  { column: 'box', label: 'Box', width: 6 },
  { column: 'sample', label: 'Sample', width: 8 },
  { column: 'small_find', label: 'Small find', width: 9 },
  { column: 'accession', label: 'Accession', width: 10 },
  { column: 'drawing', label: 'Drawing', width: 9, help: 'wanted, or its number' },
  { column: 'photo', label: 'Photo', width: 9, help: 'wanted, or its number' },
  { column: 'passed_to', label: 'Passed to', width: 11, help: 'the specialist who has it' },
  { column: 'weight_note', label: 'Weight note', width: 14, help: 'why the weight means nothing' },
  { column: 'checked_by', label: 'Checked by', width: 9 },
  { column: 'recorder', label: 'Recorder', width: 8 },
  { column: 'recorded_on', label: 'On', width: 11 },
];

const kScan = ['record', 'fabric', 'count', 'weight_g', 'notes', 'bag', 'box', 'checked_by'];
const kBasic = [
  ...['record', 'fabric', 'part', 'count', 'weight_g', 'form', 'decoration', 'rim_percent', 'rim_diameter_mm', 'vessels'],
  ...['condition', 'mark', 'notes', 'bag', 'box', 'checked_by'],
];

/** What a level asks of every line. Published for basic and detailed records; the scan's is common practice, no source. */
const kRequired: Record<Level, readonly string[]> = {
  scan: ['fabric', 'count'],
  basic: ['fabric', 'part', 'count', 'weight_g'],
  detailed: ['fabric', 'part', 'count', 'weight_g', 'form', 'condition'],
};

export function fields_of(level: Level): Field[] {
  if (level === 'detailed') return [...kFields];
  const shown = level === 'scan' ? kScan : kBasic;
  return shown.map((column) => field_of(column)).filter((field): field is Field => field !== null);
}

export function field_of(column: string): Field | null {
  return kFields.find((field) => field.column === column) ?? null;
}

/** Of a rim its share of the circle, besides: without it the line has no EVE. */
export function required(level: Level, column: string, values: Readonly<Record<string, string>>): boolean {
  if (level !== 'scan' && column === 'rim_percent') return /\brim\b|profile/.test(values.part ?? '');
  return kRequired[level].includes(column);
}

export function level_of(word: unknown): Level {
  return word === 'scan' || word === 'detailed' ? word : 'basic';
}

/** Parts of a vessel, completed as codes are; common practice, no source. Any other word may be typed. */
export const kParts = ['rim', 'body', 'base', 'handle', 'spout', 'lid', 'foot', 'neck', 'shoulder', 'profile', 'rim and handle', 'sherd'];

/** Columns that go along from the line before, so that they are typed once a bag. */
export const kCarried = ['bag', 'box', 'sample'];
/** Amounts that add up when lines are merged. */
export const kSummed = ['count', 'weight_g', 'vessels', 'rims', 'rim_percent', 'base_percent'];

/** How a cell is shown: a doubt stands behind its code. */
export function shown(column: string, values: Readonly<Record<string, string>>): string {
  const value = values[column] ?? '';
  const certainty = field_of(column)?.certainty;
  const doubt = { probable: '?', possible: '??' }[(certainty && values[certainty]) || ''] ?? '';
  return value ? `${value}${doubt}` : value;
}
