/** Bags as the program compares them with the finds list, by box and by what is still to do. */
import type { BagEntry, RowState } from '../../api';

export interface Bag {
  entry: BagEntry;
  /** Its row of the finds list; none where only lines name it. */
  row: RowState | null;
}
export interface Box {
  box: string;
  bags: number;
  received: number;
  listed: number | null;
  recorded: number | null;
  /** Of what is recorded, and of what the list says where nothing is yet. */
  weight_g: number | null;
}

function sum(a: number | null, b: number | null): number | null {
  return a === null ? b : b === null ? a : a + b;
}

export function bags_of(entries: readonly BagEntry[], rows: readonly RowState[]): Bag[] {
  const by_uid = new Map(rows.map((row) => [row.uid, row]));
  return entries.map((entry) => ({ entry, row: by_uid.get(entry.uid) ?? null }));
}

export function boxes_of(bags: readonly Bag[]): Box[] {
  const boxes = new Map<string, Box>();
  for (const { entry } of bags) {
    const box = boxes.get(entry.box) ?? { box: entry.box, bags: 0, received: 0, listed: null, recorded: null, weight_g: null };
    boxes.set(entry.box, box);
    box.bags += 1;
    if (entry.standing === 'received') box.received += 1;
    box.listed = sum(box.listed, entry.count);
    box.recorded = sum(box.recorded, entry.count_recorded);
    box.weight_g = sum(box.weight_g, entry.weight_recorded_g ?? entry.weight_g);
  }
  const order = new Intl.Collator('en', { numeric: true });
  return [...boxes.values()].sort((a, b) => (a.box === '' ? 1 : b.box === '' ? -1 : order.compare(a.box, b.box)));
}

/** Whether a bag is of the state that is asked for; nothing said of cleaning or marking is still to do. */
export function is_of({ entry, row }: Bag, state: string): boolean {
  switch (state) {
    case 'open':
      return entry.standing === 'expected';
    case 'received':
    case 'missing':
    case 'empty':
    case 'unlisted':
      return entry.standing === state;
    case 'differs':
      return entry.troubles.length > 0;
    case 'unwashed':
      return row !== null && ['', 'unwashed'].includes(row.values.cleaning ?? '');
    case 'unmarked':
      return row !== null && ['', 'unmarked'].includes(row.values.marking ?? '');
    default:
      return true;
  }
}
