/** Orders rows by one column. Numbers inside words count as numbers (1002 before 1010, grey-2 before grey-10). */

export type Cell = string | number | null;
export interface Order {
  column: string;
  down: boolean;
}

const kCollator = new Intl.Collator('en-GB', { numeric: true, sensitivity: 'base' });

export function natural(a: string, b: string): number {
  return kCollator.compare(a, b);
}

function compare(a: string | number, b: string | number): number {
  return typeof a === 'number' && typeof b === 'number' ? a - b : natural(String(a), String(b));
}

/** A sorted copy; equal rows keep their order, and what is not recorded (null, "") is last both ways. */
export function sorted<T>(rows: readonly T[], value: (row: T) => Cell, down: boolean): T[] {
  const blank = (cell: Cell): cell is null => cell === null || cell === '';
  return rows
    .map((row, index) => ({ row, index, cell: value(row) }))
    .sort((a, b) => {
      if (blank(a.cell) || blank(b.cell)) return Number(blank(a.cell)) - Number(blank(b.cell)) || a.index - b.index;
      return (down ? -1 : 1) * compare(a.cell, b.cell) || a.index - b.index;
    })
    .map((entry) => entry.row);
}

/** The order after a click on a column's head: the same column turns round, another starts its own way. */
export function turned(order: Order, column: string, starts_down: boolean): Order {
  return order.column === column ? { column, down: !order.down } : { column, down: starts_down };
}
