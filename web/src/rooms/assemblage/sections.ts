import type { Section } from '../../lib/sheet';
import type { Compared, Ground } from './answer';
import { clusters, order, ordination, similarity } from './likeness';
import type { How } from './part';
import { breakage, distance, joins, key_groups, residuality, sample_size } from './trust';
import { difference, diversity } from './variety';

const kOf: Record<How, (found: Compared, ground: Ground) => Section[]> = {
  breakage,
  'sample-size': sample_size,
  similarity,
  ordination,
  order,
  clusters,
  difference,
  diversity,
  'key-groups': key_groups,
  residuality,
  joins,
  distance,
};

/** The tables of an answer; those without rows are left away. */
export function sections_of(found: Compared, ground: Ground): Section[] {
  const of = kOf[found.how as How];
  const filled = (one: Section) => (one.kind === 'facts' ? one.facts.length : one.rows.length) > 0;
  return of ? of(found, ground).filter(filled) : [];
}
