/** How far the recording has got, place by place. */
import type { QueueContext } from '../../api';

export interface Place {
  name: string;
  to_do: number;
  begun: number;
  done: number;
  lines: number;
}

/** Contexts by area and phase, in the order of their names; those without either last. */
export function places_of(contexts: readonly QueueContext[]): Place[] {
  const places = new Map<string, Place>();
  for (const context of contexts) {
    const name = [context.area, context.phase].filter(Boolean).join(', ');
    const place = places.get(name) ?? { name, to_do: 0, begun: 0, done: 0, lines: 0 };
    place[context.stage] += 1;
    place.lines += context.lines;
    places.set(name, place);
  }
  const order = new Intl.Collator('en', { numeric: true });
  return [...places.values()].sort((a, b) => (a.name === '' ? 1 : b.name === '' ? -1 : order.compare(a.name, b.name)));
}
