/** Condition as triples: what, how much, where. Written "abraded, moderate, outside; sooted, heavy, base". */

export interface Triple {
  type: string;
  level: string;
  position: string;
}

/** Common practice, no source: other words may be typed. */
export const kTypes = ['abraded', 'worn', 'burnt', 'sooted', 'limescale', 'residue', 'glaze lost', 'spalled', 'laminated', 'stained', 'mended', 'pierced', 'scratched'];
export const kLevels = ['slight', 'moderate', 'heavy'];
export const kPositions = ['all over', 'outside', 'inside', 'rim', 'neck', 'shoulder', 'base', 'edges', 'handle', 'spout'];

/** The second and third word fall into their places by what they are; a third that is neither a level nor known is a place. */
export function read_condition(text: string): Triple[] {
  return text
    .split(';')
    .map((part) => part.split(',').map((word) => word.trim()))
    .filter((words) => words[0])
    .map(([type = '', ...rest]) => {
      const level = rest.find((word) => kLevels.includes(word)) ?? '';
      return { type, level, position: rest.filter((word) => word && word !== level).join(', ') };
    });
}

export function write_condition(triples: readonly Triple[]): string {
  return triples
    .filter((one) => one.type.trim())
    .map((one) => [one.type, one.level, one.position].map((word) => word.trim()).filter(Boolean).join(', '))
    .join('; ');
}
