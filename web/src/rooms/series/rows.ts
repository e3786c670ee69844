import type { Row } from '../../lib/edits';

/** A row of an answer as the edits know it: its columns as text. */
export function row_of(kind: string, entry: object & { uid: string }): Row {
  const values: Record<string, string> = {};
  for (const [name, value] of Object.entries(entry)) {
    if (name === 'uid' || name === 'changed' || Array.isArray(value)) continue;
    if (typeof value === 'string' || typeof value === 'number') values[name] = String(value);
  }
  return { kind, uid: entry.uid, values };
}
