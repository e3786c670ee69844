/** Tables of an answer as the page shows them: every cell its text, its place in an order, and what it opens. */
import type { Opening } from './opening';
import type { Cell } from './sort';

export interface SheetCell {
  /** null: there is no such number. */
  text: string | null;
  /** For ordering, where it is not the text. */
  value?: Cell;
  opens?: Opening | null;
  /** What a null means, in words. */
  says?: string;
  /** A share of 0..1 drawn as a bar beside the number. */
  bar?: number;
  /** Said of the cell in words, after it. */
  note?: string;
  strong?: boolean;
}
export interface SheetColumn {
  label: string;
  unit?: string;
  number?: boolean;
  /** Sentences: they take the room that is left. */
  prose?: boolean;
}
export interface Sheet {
  kind: 'sheet';
  title: string;
  /** Says in a sentence how to read it. */
  caption: string;
  columns: readonly SheetColumn[];
  rows: readonly (readonly SheetCell[])[];
  /** Column by which the rows are first ordered; as they came without one. */
  first?: { column: number; down: boolean };
  foot?: readonly SheetCell[];
}

export interface GridHead {
  label: string;
  opens?: Opening | null;
  total?: SheetCell;
}
export interface GridCell extends SheetCell {
  /** -7..7: how dark; below 0 in the second colour, with a minus sign in the text. */
  shade: number;
}
/** Rows by columns, shaded. Cells are asked for as they are shown. */
export interface Grid {
  kind: 'grid';
  title: string;
  caption: string;
  down: string;
  rows: readonly GridHead[];
  columns: readonly GridHead[];
  cell: (row: number, column: number) => GridCell;
  totals_label?: string;
  total?: SheetCell;
}

export interface Fact {
  label: string;
  text: string;
  /** What it says, in a few words. */
  means?: string;
}
export interface Facts {
  kind: 'facts';
  title: string;
  facts: readonly Fact[];
}
export type Section = Sheet | Grid | Facts;

/** -7..7 in equal steps of the square root, so that small amounts are told from none. */
export function shade_of(value: number | null, most: number): number {
  if (value === null || value === 0 || most <= 0) return 0;
  const step = Math.min(7, Math.max(1, Math.ceil(7 * Math.sqrt(Math.abs(value) / most))));
  return value < 0 ? -step : step;
}
