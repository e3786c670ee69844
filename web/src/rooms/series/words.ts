/** The answer's codes in words. */
import type { MemoryEnd, WhenReason } from '../../api';
import { sentence, year, years } from '../../lib/format';
import { plain } from './piece';

type Nature = WhenReason['nature'];
type Basis = WhenReason['basis'];
type Known = WhenReason['known'];

const kBasis: Record<Basis, string> = {
  made: 'made in these years',
  arrived: 'arrived here in these years',
  deposited: 'found in deposits of these years',
};

export function nature_words(nature: Nature, basis: Basis): string {
  if (nature === 'limit') return 'a hard limit: a law, a reign, a registration';
  if (nature === 'usual') return basis === 'made' ? 'usual in these years' : `usually ${kBasis[basis]}`;
  return kBasis[basis];
}

export function known_words(known: Known): string {
  if (known === 'memory') return 'from memory';
  if (known === 'calculated') return 'calculated';
  return known === 'read' ? 'read in the source' : 'how it is known is not said';
}

/** Years with both ends open are "no year"; a range otherwise as everywhere on the page. */
export function range_words(earliest: number | null, latest: number | null): string {
  return years(earliest, latest) || 'no year of its own';
}

export function ranges_words(ranges: readonly (readonly number[])[]): string {
  return ranges.map(([from, to]) => years(from as number, to as number)).join(' and ');
}

/** The statement's first words for large type, and the rest of it: long where it names ways out of a conflict. */
export function statement_parts(statement: string): [string, string] {
  const at = statement.indexOf(': ');
  if (at < 0) return [sentence(statement), ''];
  return [sentence(statement.slice(0, at)), sentence(plain(statement.slice(at + 2)))];
}

/** What of the answer would be another without the rows from memory. */
export function memory_words(end: MemoryEnd): string {
  const rests = `${end.evidence.map(plain).join(' and ')}, from memory`;
  if (end.end === 'most_likely') return `The most likely years rest on ${rests}.`;
  const which = end.end === 'earliest' ? 'earliest' : 'latest';
  const what = end.year === null ? `That there is no ${which} year rests` : `The ${which} year, ${year(end.year)}, rests`;
  const else_ = end.without === null ? `there is no ${which} year` : `it is ${year(end.without)}`;
  return `${what} on ${rests}; without that ${else_}.`;
}

const kConflicts: Record<string, string> = {
  no_year_fits: 'No year fits',
  spans_miss: 'Only the margins meet',
  outside_window: 'Outside the years considered',
  sources_differ: 'Sources differ',
  regions_differ: 'Regions differ',
  unusual: 'Unusual',
};

export function conflict_title(code: string): string {
  return kConflicts[code] ?? 'Does not go together';
}

/** Conflicts that leave no year, or none of those considered: they go before everything else that is said. */
export function is_grave(code: string): boolean {
  return code === 'no_year_fits' || code === 'spans_miss' || code === 'outside_window';
}
