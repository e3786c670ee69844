/** Addresses: of the API's answers and of the page's own rooms. */

export type Value = string | number | boolean | null | undefined | readonly string[];

/** "/api/lines?where=context%3D1013&where=fabric%3Dgrey-1": a list repeats its key; null, undefined and false are left out. */
export function address(path: string, values: Record<string, Value>): string {
  const query = new URLSearchParams();
  for (const [key, value] of Object.entries(values)) {
    if (value === null || value === undefined || value === false) continue;
    if (Array.isArray(value)) for (const one of value as readonly string[]) query.append(key, one);
    else query.append(key, String(value));
  }
  const text = query.toString();
  return text ? `${path}?${text}` : path;
}

/** A condition as the API reads it; null asks for the lines where the field is blank. */
export function condition(field: string, value: string | null): string {
  return `${field}=${value ?? ''}`;
}

/** "context.phase=A1" -> ["context.phase", "A1"]; without "=" the value is "". */
export function parts(where: string): [string, string] {
  const at = where.indexOf('=');
  return at < 0 ? [where, ''] : [where.slice(0, at), where.slice(at + 1)];
}

/** A room is a folder of `rooms` and a row here; App.svelte says what stands in it. */
export const kRooms = ['site', 'recording', 'series', 'stratigraphy', 'assemblage', 'vessels', 'chemistry', 'help'] as const;
export type Room = (typeof kRooms)[number];
export interface Route {
  room: Room;
  query: URLSearchParams;
}

/** "#/assemblage?by=fabric" -> its room and query. An address that names no room is the Site room. */
export function route_of(hash: string): Route {
  const text = hash.replace(/^#\/?/, '');
  const at = text.indexOf('?');
  const name = at < 0 ? text : text.slice(0, at);
  const room = kRooms.find((known) => known === name) ?? 'site';
  return { room, query: new URLSearchParams(at < 0 ? '' : text.slice(at + 1)) };
}

export function hash_of(room: Room, values: Record<string, Value> = {}): string {
  return `#${address(`/${room}`, values)}`;
}

/** True where every word of the filter occurs somewhere in the texts; a hyphen also finds the dash of a range. */
export function holds(filter: string, texts: readonly string[]): boolean {
  const all = plain(texts.join('\n'));
  return plain(filter)
    .split(/\s+/)
    .every((word) => all.includes(word));
}

function plain(text: string): string {
  return text.toLowerCase().replace(/–/g, '-');
}
