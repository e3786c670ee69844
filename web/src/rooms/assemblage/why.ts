/** Four measures side by side, and why they differ: heavy sherds, much breakage, little of each vessel. */
import type { TallyResponse, TallyResponseRow } from '../../api';
import { fixed } from '../../lib/format';
import { kMeasures } from '../../lib/tallies';

/** So much more or less than the whole is worth a word. */
const kMuch = 1.1;

/** The widest gap between the shares by any two measures; null where fewer than two are known. */
export function gap(row: TallyResponseRow): number | null {
  const known = kMeasures.map((one) => row.shares[one.measure]).filter((value): value is number => value !== null);
  return known.length < 2 ? null : Math.max(...known) - Math.min(...known);
}

/**
 * share by weight / share by sherds = mean weight / mean weight of all; share by sherds / share by EVE = brokenness /
 * brokenness of all; share by vessels / share by EVE = completeness of all / completeness.
 */
export function reasons(row: TallyResponseRow, total: TallyResponse['total']): string[] {
  const out: string[] = [];
  const against = (mine: number | null, all: number | null): number | null => (mine !== null && all !== null && all > 0 ? mine / all : null);
  const much = (ratio: number | null) => ratio !== null && (ratio >= kMuch || ratio <= 1 / kMuch);
  const weight = against(row.mean_weight_g, total.mean_weight_g);
  if (much(weight) && row.mean_weight_g !== null && total.mean_weight_g !== null) {
    out.push(
      `${(weight as number) > 1 ? 'Heavy' : 'Light'} sherds (${fixed(row.mean_weight_g, 1)} g, all ${fixed(total.mean_weight_g, 1)} g): ${(weight as number) > 1 ? 'more' : 'less'} by weight than by sherds.`,
    );
  }
  const broken = against(row.brokenness, total.brokenness);
  if (much(broken) && row.brokenness !== null && total.brokenness !== null) {
    out.push(
      `In ${(broken as number) > 1 ? 'many' : 'few'} pieces (${fixed(row.brokenness, 1)} sherds an EVE, all ${fixed(total.brokenness, 1)}): ${(broken as number) > 1 ? 'more' : 'less'} by sherds than by EVE.`,
    );
  }
  const complete = against(row.completeness, total.completeness);
  if (much(complete) && row.completeness !== null && total.completeness !== null) {
    out.push(
      `${(complete as number) > 1 ? 'Much' : 'Little'} of each vessel (${fixed(row.completeness, 2)} EVE, all ${fixed(total.completeness, 2)}): ${(complete as number) > 1 ? 'less' : 'more'} by vessels than by EVE.`,
    );
  }
  if (row.eve === null || row.eve === 0) out.push('No rim was measured: EVE says nothing of it.');
  return out;
}
