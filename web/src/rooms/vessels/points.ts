/** A section as it is typed or pasted, point by point. */
import { cells_of } from '../recording/paste';

export type Side = 'outer' | 'inner' | 'handle' | 'handle_section';
export const kSides: readonly Side[] = ['outer', 'inner', 'handle', 'handle_section'];

export interface PointRow {
  side: Side;
  r: string;
  z: string;
  conjectured: boolean;
}
export interface Point {
  side: Side;
  r_mm: number;
  z_mm: number;
  conjectured: boolean;
}

export const blank_row = (side: Side): PointRow => ({ side, r: '', z: '', conjectured: false });

/** "12.5", "12,5", "-3"; null where it is no number. */
export function number_of(text: string): number | null {
  const clean = text.trim().replace(/\s*mm$/i, '').replace('−', '-');
  return /^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(clean) ? Number(clean.replace(',', '.')) : null;
}

const kHeads: Record<string, keyof PointRow> = {
  r: 'r', r_mm: 'r', x: 'r', x_mm: 'r', radius: 'r',
  z: 'z', z_mm: 'z', y: 'z', y_mm: 'z', height: 'z',
  side: 'side',
  drawn: 'conjectured', conjectured: 'conjectured',
};

function side_of(text: string, unless: Side): Side | null {
  const low = text.toLowerCase().trim().replace(/[\s-]+/g, '_');
  if (low === '') return unless;
  if (['outside', 'exterior', 'o'].includes(low)) return 'outer';
  if (['inside', 'interior', 'i'].includes(low)) return 'inner';
  return kSides.find((one) => one === low) ?? null;
}
function conjectured_of(text: string): boolean {
  return ['conjectured', 'yes', 'true', '1', 'x'].includes(text.toLowerCase().trim());
}

export interface Pasted {
  rows: PointRow[];
  /** What was not understood, row by row. */
  problems: string[];
}

/** Cells of a spreadsheet as points: by their head where there is one, else from the axis, height, side, conjectured. */
export function read_points(text: string, side: Side): Pasted {
  const cells = cells_of(text.includes('\t') ? text : text.replace(/[;]/g, '\t').replace(/^([^\t\n,]+),([^\t\n,]+)(,[^\n]*)?$/gm, (_, a, b, rest) => [a, b, ...(rest ?? '').split(',').slice(1)].join('\t')));
  const heads = (cells[0] ?? []).map((head) => kHeads[head.toLowerCase().trim().replace(/[\s,()]+/g, '_').replace(/_+$/, '')] ?? null);
  const headed = heads.includes('r') && heads.includes('z');
  const columns: (keyof PointRow | null)[] = headed ? heads : ['r', 'z', 'side', 'conjectured'];
  const problems: string[] = [];
  const rows = (headed ? cells.slice(1) : cells).map((row, at) => {
    const cell = (column: keyof PointRow) => row[columns.indexOf(column)] ?? '';
    const named = side_of(cell('side'), side);
    if (named === null) problems.push(`row ${at + 1}: "${cell('side')}" is no side; outer, inner, handle or handle_section`);
    return { side: named ?? side, r: cell('r'), z: cell('z'), conjectured: conjectured_of(cell('conjectured')) };
  });
  return { rows, problems };
}

const is_blank = (row: PointRow) => row.r.trim() === '' && row.z.trim() === '';

/** What keeps the rows from being points, in sentences; blank rows are none. */
export function wrong_in(rows: readonly PointRow[]): string[] {
  return rows.flatMap((row, at) => {
    if (is_blank(row)) return [];
    return (['r', 'z'] as const).flatMap((column) => {
      const what = column === 'r' ? 'distance from the axis' : 'height';
      if (row[column].trim() === '') return [`row ${at + 1} has no ${what}`];
      return number_of(row[column]) === null ? [`row ${at + 1}: "${row[column]}" is no number of millimetres`] : [];
    });
  });
}

export function points_of(rows: readonly PointRow[]): Point[] {
  return rows.flatMap((row) => {
    const r_mm = number_of(row.r);
    const z_mm = number_of(row.z);
    return r_mm === null || z_mm === null ? [] : [{ side: row.side, r_mm, z_mm, conjectured: row.conjectured }];
  });
}

interface Outline {
  r_mm: number;
  z_mm: number;
  conjectured: boolean;
}
/** A section of the record as rows. */
export function rows_from(section: { outer: Outline[]; inner: Outline[]; handle: Outline[]; handle_section: Outline[] }): PointRow[] {
  const text = (value: number) => String(Math.round(100 * value) / 100);
  return kSides.flatMap((side) => section[side].map((p) => ({ side, r: text(p.r_mm), z: text(p.z_mm), conjectured: p.conjectured })));
}
