/** The ways of looking at an assemblage, in the order of the questions that they answer. */

export const kGroups = {
  amounts: ['tally', 'measures', 'breakage', 'sample-size'],
  likeness: ['similarity', 'ordination', 'order', 'clusters'],
  variety: ['difference', 'diversity'],
  trust: ['key-groups', 'residuality', 'joins'],
  away: ['distance', 'published'],
} as const;
export type Group = keyof typeof kGroups;
export type View = (typeof kGroups)[Group][number];
/** What the program compares; the other views are made of tallies. */
export type How = Exclude<View, 'tally' | 'measures' | 'published'>;

export const kViews = Object.values(kGroups).flat() as View[];

export function view_of(query: URLSearchParams): View {
  return kViews.find((one) => one === query.get('how')) ?? 'tally';
}
export function group_of(view: View): Group {
  return (Object.keys(kGroups) as Group[]).find((group) => (kGroups[group] as readonly View[]).includes(view)) ?? 'amounts';
}
export function is_compared(view: View): view is How {
  return view !== 'tally' && view !== 'measures' && view !== 'published';
}
