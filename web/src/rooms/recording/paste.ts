import type { Values } from '../../lib/edits';
import { kFields, type Field } from '../../lib/fields';

/** Cells of what a spreadsheet puts on the clipboard: tabs between cells, quotes around those that hold a line's end. */
export function cells_of(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  const clean = text.replace(/\r\n?/g, '\n').replace(/\n$/, '');
  while (at <= clean.length) {
    let cell = '';
    if (clean[at] === '"' && closes(clean, at)) {
      at += 1;
      while (!(clean[at] === '"' && clean[at + 1] !== '"')) {
        if (clean[at] === '"') at += 1;
        cell += clean[at];
        at += 1;
      }
      at += 1;
    } else {
      while (at < clean.length && clean[at] !== '\t' && clean[at] !== '\n') cell += clean[at++];
    }
    row.push(cell.replace(/\s*\n\s*/g, ' ').trim());
    if (at >= clean.length || clean[at] === '\n') {
      rows.push(row);
      row = [];
    }
    at += 1;
  }
  return rows.filter((one) => one.some((cell) => cell !== ''));
}

/** True where the quote that opens here is closed at a cell's end; else it is a mark of inches. */
function closes(text: string, from: number): boolean {
  const end = /^"(?:[^"]|"")*"(?=\t|\n|$)/.exec(text.slice(from));
  return end !== null;
}

/** Heads as people write them, folded; common practice, no source. */
const kHeads: Record<string, string> = {
  ware: 'fabric',
  'fabric code': 'fabric',
  'sherd type': 'part',
  no: 'count',
  nos: 'count',
  number: 'count',
  quantity: 'count',
  wt: 'weight_g',
  weight: 'weight_g',
  'vessel form': 'form',
  type: 'form',
  dec: 'decoration',
  'rim pc': 'rim_percent',
  'rim percent': 'rim_percent',
  diameter: 'rim_diameter_mm',
  diam: 'rim_diameter_mm',
  'rim diameter': 'rim_diameter_mm',
  env: 'vessels',
  comments: 'notes',
  comment: 'notes',
  context: 'context',
  ctx: 'context',
  record: 'record',
};

const folded = (text: string) =>
  text
    .toLowerCase()
    .replace(/%/g, ' pc')
    .replace(/[_.,()]/g, ' ')
    .replace(/\b(g|mm)\b/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

function column_of(head: string): string | null {
  const wanted = folded(head);
  const own = kFields.find((field) => folded(field.label) === wanted || folded(field.column) === wanted || field.column === head.trim());
  return own?.column ?? kHeads[wanted] ?? null;
}

export interface Pasted {
  rows: Values[];
  /** Heads that name no column: what stood under them is left out. */
  unknown: string[];
  /** Rows of another context than this one, left out. */
  elsewhere: number;
  /** Whether the first row named the columns. */
  headed: boolean;
}

/**
 * Rows for the sheet of one context. A first row whose cells name at least two columns is a head; without one the cells
 * go into the columns shown, from `first` on. Record numbers are given by the program, and do not come along.
 */
export function read_paste(text: string, shown: readonly Field[], first: number, context: string): Pasted {
  const cells = cells_of(text);
  const heads = (cells[0] ?? []).map((head) => column_of(head));
  const headed = cells.length > 1 && heads.filter((head) => head !== null).length >= 2;
  const columns = headed ? heads : shown.slice(first).map((field) => (field.given ? null : field.column));
  const body = headed ? cells.slice(1) : cells;
  const all = body.map((row) =>
    Object.fromEntries(row.map((cell, at) => [columns[at] ?? '', cell] as const).filter(([column, cell]) => column && column !== 'record' && cell !== '')),
  );
  const here = all.filter((row) => !row.context || row.context === context);
  return {
    rows: here.map(({ context: _, ...rest }) => rest as Values),
    unknown: headed ? (cells[0] ?? []).filter((head, at) => heads[at] === null && head !== '') : [],
    elsewhere: all.length - here.length,
    headed,
  };
}
