/** Each part of the room is found again as it was left. */
import { hash_of } from '../../lib/query';
import { kParts, part_of, type Part } from './part';

class Parts {
  #kept = $state<Record<Part, string>>(
    Object.fromEntries(kParts.map((part) => [part, hash_of('series', { part })])) as Record<Part, string>,
  );

  hash(part: Part): string {
    return this.#kept[part];
  }

  keep(part: Part, hash: string): void {
    const [, query = ''] = hash.split('?');
    if (part_of(new URLSearchParams(query)) === part && this.#kept[part] !== hash) this.#kept[part] = hash;
  }
}

export const parts = new Parts();
