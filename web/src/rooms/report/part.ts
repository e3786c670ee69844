/** The parts of the room, one at a time, and which report it is about. */
export const kParts = ['needs', 'texts', 'works', 'contents', 'issues'] as const;
export type Part = (typeof kParts)[number];

export function part_of(query: URLSearchParams): Part {
  return kParts.find((one) => one === query.get('part')) ?? 'needs';
}

/** 2 where the address names no type. */
export function type_of(query: URLSearchParams): number {
  const asked = Number(query.get('type'));
  return asked === 1 || asked === 3 ? asked : 2;
}

/** "2, 3" names both, blank all. */
export function is_for(reports: string | undefined, type: number): boolean {
  return !reports?.trim() || reports.includes(String(type));
}

/** Puts a field at the cursor: the new text, and where the cursor is then. */
export function with_field(text: string, from: number, to: number, field: string): { text: string; at: number } {
  return { text: text.slice(0, from) + field + text.slice(to), at: from + field.length };
}
