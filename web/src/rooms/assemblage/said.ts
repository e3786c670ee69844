/** What an answer was made of, in sentences: how much, what was merged, what was left out, and why. */
import type { Compared } from './answer';
import { counted, fixed } from '../../lib/format';
import { field_name, kMeasures } from '../../lib/tallies';

function measured(total: number, measure: string): string {
  const one = kMeasures.find((known) => known.measure === (measure === 'weight_g' ? 'weight' : measure));
  if (!one) return fixed(total, Number.isInteger(total) ? 0 : 1);
  if (one.measure === 'count') return counted(total, 'sherd');
  if (one.measure === 'vessels') return counted(total, 'vessel');
  return `${fixed(total, one.decimals)} ${one.unit || one.label}`;
}

/** "ware group" -> "ware groups", "vessel class" -> "vessel classes", "recovery" -> "recoveries" */
export function plural(name: string): string {
  return /[^aeiou]y$/.test(name) ? name.replace(/y$/, 'ies') : /(s|x|ch|sh)$/.test(name) ? `${name}es` : `${name}s`;
}
const rows_of = (number: number, field: string) => counted(number, field_name(field), plural(field_name(field)));

/** "8 phases by 6 ware groups, 5,173 sherds." */
export function made_of({ table, how }: Compared): string {
  if (how === 'distance') return '';
  if (table.rows_field === '') return `${counted(table.rows, 'row')} by ${counted(table.columns, 'column')}, ${measured(table.total, table.measure)} in all.`;
  const by = table.columns > 0 ? ` by ${rows_of(table.columns, table.columns_field)}` : '';
  return `${rows_of(table.rows, table.rows_field)}${by}, ${measured(table.total, table.measure)}.`;
}

/** A sentence of the program as the page says it: fields by their names, without what is typed on the command line. */
export function as_said(sentence: string): string {
  return sentence.replace(/[:;,]? --[\w-]+ "[^"]*"/g, '').replace(/\b(?:context|fabric|form)\.[a-z_]+\b/g, (field) => field_name(field));
}

/** The program's warnings, those of what was left out in one sentence, which comes first. */
export function warned(warnings: readonly string[]): string[] {
  const kLeft = 'left out: ';
  const left = warnings.filter((one) => one.startsWith(kLeft)).map((one) => as_said(one.slice(kLeft.length)));
  const others = warnings.filter((one) => !one.startsWith(kLeft)).map(as_said);
  return left.length ? [`${kLeft}${left.join('; ')}`, ...others] : others;
}
