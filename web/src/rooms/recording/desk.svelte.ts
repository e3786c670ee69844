import { rows_address, type Row, type Step } from '../../lib/edits';
import { tick } from 'svelte';
import type { Grid } from './grid.svelte';
import { ask } from './queue.svelte';
import { session } from '../../lib/session.svelte';
import type { Line } from './sheet.svelte';
import { kWords } from './words';

/** Kinds whose rows name a line by its record number, and the columns that do. */
const kNaming: readonly (readonly [string, readonly string[]])[] = [
  ['rims', ['record']],
  ['joins', ['record_a', 'record_b']],
  ['trays', ['record']],
  ['pictures', ['record']],
  ['specimens', ['record']],
];

/** Rows that name this record, each with the column that does. */
export async function rows_naming(record: string): Promise<{ row: Row; column: string }[]> {
  const asked = kNaming.flatMap(([kind, columns]) => columns.map((column) => ({ kind, column })));
  const answers = await Promise.all(
    asked.map(async ({ kind, column }) => {
      const answer = await ask<{ rows: Row[] }>(rows_address(kind, [`${column}=${record}`], { limit: 1000 }));
      return answer.rows.map((row) => ({ row: { ...row, kind }, column }));
    }),
  );
  return answers.flat();
}

export type Part = 'date' | 'line' | 'fabric' | 'rim' | 'similar' | 'checks' | 'history';
export type Task = 'merge' | 'split' | 'move' | null;

/** What is open on the desk beside the lines. */
class Desk {
  task = $state<Task>(null);
  /** The rim chart lies under the lines, where there is room for it. */
  chart = $state(false);
  parts = $state<Record<Part, boolean>>({ date: true, line: true, fabric: true, rim: false, similar: false, checks: true, history: false });

  turn_chart(): void {
    this.chart = !this.chart;
    if (this.chart) void tick().then(() => document.querySelector('.chart')?.scrollIntoView({ block: 'nearest' }));
  }

  begin(task: Task): void {
    this.task = task;
    void tick().then(() => document.querySelector<HTMLElement>('.task input, .task button')?.focus());
  }

  open_part(part: Part): void {
    this.parts[part] = true;
    void tick().then(() => {
      const summary = document.querySelector<HTMLElement>(`#part-${part} summary`);
      const field = document.querySelector<HTMLElement>(`#part-${part} :is(input, select, button)`);
      (field ?? summary)?.focus();
      summary?.scrollIntoView({ block: 'nearest' });
    });
  }

  next_matter(grid: Grid | null): void {
    const matters = grid?.sheet.matters ?? [];
    const at = matters.findIndex((one) => one.line === grid?.line && one.column === grid?.field.column);
    const next = matters[(at + 1) % Math.max(1, matters.length)];
    if (next && grid) grid.show(next.line, next.column);
    else session.say(kWords.no_matters);
  }

  /** Takes the chosen lines away, with their rims, links and places in trays; one undo brings all of it back. */
  async remove(grid: Grid): Promise<void> {
    const lines = grid.chosen_lines.filter((line) => !line.empty && !line.sending);
    grid.leave();
    try {
      const naming = await this.#naming(lines);
      const kept = naming.find(({ row }) => ['pictures', 'specimens'].includes(row.kind));
      if (kept) return session.say(kWords.not_removed(kept.row.kind));
      const before = naming.map(({ row }): Step => ({ do: 'remove', kind: row.kind, row: row.uid }));
      const unique = before.filter((step, at) => before.findIndex((one) => one.row === step.row) === at);
      grid.sheet.remove(lines, unique);
      session.say(kWords.removed(lines.length, unique.length));
    } catch {
      session.say(kWords.away);
    }
    grid.go(grid.selected[0], grid.at);
  }

  async #naming(lines: readonly Line[]): Promise<{ row: Row; column: string }[]> {
    const records = lines.filter((line) => !line.draft).map((line) => line.values.record ?? '');
    return (await Promise.all(records.filter(Boolean).map(rows_naming))).flat();
  }
}

export const desk = new Desk();
