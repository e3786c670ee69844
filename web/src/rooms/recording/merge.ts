import type { Row, Step, Values } from '../../lib/edits';
import { kFields, kSummed } from '../../lib/fields';

/** What comes of several lines made one: the sums, and where they differ what each says. */
export interface Merged {
  values: Values;
  differ: { column: string; values: string[] }[];
}

const kLeft = new Set(['record', 'recorder', 'recorded_on', 'checked_by', 'notes']);

/** The first line's values stand where the others differ; amounts add up; notes are put together. */
export function merge_of(lines: readonly Values[]): Merged {
  const values: Values = { ...lines[0] };
  const differ: Merged['differ'] = [];
  for (const { column } of kFields) {
    const all = lines.map((line) => line[column] ?? '');
    if (kSummed.includes(column)) {
      const known = all.filter((text) => text !== '').map(Number);
      if (known.length) values[column] = String(Math.round(1000 * known.reduce((a, b) => a + b, 0)) / 1000);
    } else if (column === 'notes') {
      values.notes = [...new Set(all.filter(Boolean))].join('; ');
    } else if (!kLeft.has(column)) {
      const distinct = [...new Set(all)];
      if (distinct.length > 1) differ.push({ column, values: distinct });
    }
  }
  return { values, differ };
}

/** The steps of a merge: the first line takes the sums, what named the others names it, the others go. */
export function merge_steps(lines: readonly { key: string; values: Values }[], naming: readonly { row: Row; column: string }[]): Step[] {
  const [first, ...others] = lines;
  if (!first) return [];
  const merged = merge_of(lines.map((line) => line.values)).values;
  const sets = Object.entries(merged)
    .filter(([column, value]) => value !== (first.values[column] ?? ''))
    .map(([column, value]): Step => ({ do: 'set', kind: 'sherds', row: first.key, column, seen: first.values[column] ?? '', value }));
  const record = first.values.record ?? '';
  const inner = (row: Row) =>
    row.kind === 'joins' && [row.values.record_a, row.values.record_b].every((one) => lines.some((line) => line.values.record === one));
  const gone = new Set(naming.filter(({ row }) => inner(row)).map(({ row }) => row.uid));
  const moved = naming
    .filter(({ row }) => !gone.has(row.uid))
    .map(({ row, column }): Step => ({ do: 'set', kind: row.kind, row: row.uid, column, seen: row.values[column] ?? '', value: record }));
  const links = [...gone].map((row): Step => ({ do: 'remove', kind: 'joins', row }));
  return [...sets, ...moved, ...links, ...others.map((line): Step => ({ do: 'remove', kind: 'sherds', row: line.key }))];
}

/** The steps of a split: amounts go over to a new line that is otherwise the same. Amounts in the columns' units. */
export function split_steps(line: { key: string; values: Values }, off: Readonly<Record<string, number>>, changes: Values): Step[] {
  const left_out = new Set(['record', ...kSummed]);
  const sets: Step[] = [];
  const values: Values = Object.fromEntries(Object.entries(line.values).filter(([column]) => !left_out.has(column)));
  for (const [column, amount] of Object.entries(off)) {
    const had = line.values[column] ?? '';
    values[column] = String(amount);
    if (had === '') continue;
    const rest = Math.round(1000 * (Number(had) - amount)) / 1000;
    sets.push({ do: 'set', kind: 'sherds', row: line.key, column, seen: had, value: String(rest) });
  }
  return [...sets, { do: 'add', kind: 'sherds', values: { ...values, ...changes } }];
}
