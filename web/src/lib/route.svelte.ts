import { hash_of, kRooms, route_of, type Room, type Route, type Value } from './query';

/** The room that the address names. Each room's choices are kept while the page is open, so that coming back finds them. */
class Router {
  route = $state.raw<Route>(route_of(''));
  /** Counts the reader's steps from address to address; the page's own notes are none. */
  visit = $state(0);
  #kept = $state<Record<Room, string>>(Object.fromEntries(kRooms.map((room) => [room, hash_of(room)])) as Record<Room, string>);

  start(): void {
    this.#arrive();
    addEventListener('hashchange', () => this.#arrive());
  }

  /** The address of a room as it was left. */
  hash(room: Room): string {
    return this.#kept[room];
  }

  /** Writes the room's choices into the address, so that it can be kept and sent, without a step in the history. */
  note(room: Room, values: Record<string, Value>): void {
    const hash = hash_of(room, values);
    if (this.#kept[room] !== hash) this.#kept[room] = hash;
    if (hash !== location.hash) history.replaceState(null, '', hash);
  }

  #arrive(): void {
    this.route = route_of(location.hash);
    this.visit += 1;
  }
}

export const router = new Router();
