import type { Route } from '../../lib/query';

/** The page of the guide that belongs to each room. */
const kOfRoom: Readonly<Record<string, string>> = {
  site: 'receive',
  recording: 'measure',
  series: 'sort',
  stratigraphy: 'date-a-context',
  assemblage: 'compare',
  vessels: 'draw',
  chemistry: 'composition',
  report: 'report',
  public: 'public',
};
/** Parts of a room that have a page of their own. */
const kOfPart: Record<string, string> = {
  'series piece': 'date-an-object',
  'site overview': 'first-hour',
  'site costs': 'costs',
};

/** What Help opens on for someone who is there. */
export function page_for(route: Route): string {
  const { room, query } = route;
  if (room === 'help') return query.get('page') ?? 'README';
  const part = query.get('part') ?? (query.has('seen') ? 'piece' : '');
  return kOfPart[`${room} ${part}`] ?? kOfRoom[room] ?? 'README';
}
