/** The parts of the room, one at a time. */
export const kParts = ['list', 'key', 'codes', 'piece'] as const;
export type Part = (typeof kParts)[number];

/** What only the dating of a piece says in an address; addresses without a part are of that time. */
const kOfPiece = ['seen', 'aside', 'window', 'shoulders', 'read', 'text', 'names', 'touching'];

export function part_of(query: URLSearchParams): Part {
  const named = kParts.find((one) => one === query.get('part'));
  return named ?? (kOfPiece.some((name) => query.has(name)) ? 'piece' : 'list');
}
