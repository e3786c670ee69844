/** The parts of the room, one at a time. */
export const kParts = ['overview', 'sheet', 'bags', 'contexts', 'progress', 'costs', 'people', 'bring-in'] as const;
export type Part = (typeof kParts)[number];

export function part_of(query: URLSearchParams): Part {
  return kParts.find((one) => one === query.get('part')) ?? 'overview';
}
