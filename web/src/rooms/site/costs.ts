import type { CostSheetResponse, Spread } from '../../api';
import { fixed, whole } from '../../lib/format';

export const hours = (value: number): string => fixed(value, 1);
export const money = (value: number): string => whole(Math.round(value));

/** The likely value; a dash where the line has none of it. */
export function likely(spread: Spread, number: (value: number) => string): string {
  return spread.most > 0 ? number(spread.likely) : '–';
}
/** "40–72"; one value where it is sure. */
export function range(spread: Spread, number: (value: number) => string): string {
  if (spread.most <= 0) return '–';
  return spread.least === spread.most ? number(spread.likely) : `${number(spread.low)}–${number(spread.high)}`;
}

/** The tasks as CSV. */
export function tasks_csv(sheet: CostSheetResponse): string {
  const quoted = (text: string) => (/[",\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text);
  const rows = sheet.lines.map((line) => [
    line.stage,
    line.task || line.estimate,
    line.grade,
    line.basis ?? '',
    String(line.amount),
    line.sherds === null ? '' : String(Math.round(line.sherds)),
    ...[line.sum.hours.low, line.sum.hours.likely, line.sum.hours.high, line.sum.money.low, line.sum.money.likely, line.sum.money.high].map((value) => value.toFixed(2)),
    sheet.currency,
    line.note,
  ]);
  const head = ['stage', 'task', 'grade', 'basis', 'amount', 'sherds', 'hours_low', 'hours_likely', 'hours_high', 'cost_low', 'cost_likely', 'cost_high', 'currency', 'note'];
  return [head, ...rows].map((row) => row.map(quoted).join(',')).join('\n') + '\n';
}
