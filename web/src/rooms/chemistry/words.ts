import { counted, fixed } from '../../lib/format';

/** All that the room says. */
export const kWords = {
  room: 'Chemistry',
  lead: 'From the instrument’s readings to a membership that can be defended, with its limits beside it.',
  safety:
    'An X-ray instrument is used under the local rules, by those licensed and trained to. The program reads files and drives no instrument; nothing here is advice on radiation.',
  nothing: 'The record has no readings yet. The command import-readings takes an instrument’s file into it.',
  instrument: 'Which elements may be used',
  instrument_lead: 'By the standards among the readings, the scatter of readings of one sample, and what lies below a limit. A specialist’s own decision stands over the rules.',
  standards: 'Standards',
  lines: 'Calibration',
  lines_lead: 'reported = a + b × certified',
  no_lines: 'No analyte has standards enough for a line.',
  line_of: 'The line of',
  drift: 'Along the run',
  drift_lead: 'Readings of the check standard, with lines at two and three standard deviations from their mean.',
  no_drift: 'No standard was read twice or more.',
  compositions: 'Compositions',
  fabrics: 'Fabrics against chem groups',
  no_fabrics: 'No sample has both a fabric and a chem group.',
  agree: 'No sherd disagrees with the usual group of its fabric.',
  disagree: 'Sherds that do not go with their fabric',
  samples: 'Register of samples',
  no_samples: 'No samples are registered.',
  how: 'Show',
  by: 'Groups by',
  transform: 'Scale',
  analytes: 'Analytes',
  all_accepted: 'all that may be used',
  corrected: 'Amounts',
  none_of_these: 'none of these',
  in_none: 'in none',
} as const;

export const kHows = [
  ['components', 'principal components'],
  ['membership', 'membership, each sherd left out of its group'],
  ['origin', 'candidates of origin'],
  ['clusters', 'clusters'],
  ['discriminant', 'discriminant functions'],
  ['variation', 'variation'],
  ['outliers', 'outliers'],
] as const;
export type How = (typeof kHows)[number][0];
export const kBys = [
  ['chem_group', 'chem group'],
  ['fabric', 'fabric'],
  ['ware_group', 'ware group'],
  ['petro_group', 'petrological group'],
  ['context', 'context'],
] as const;
export const kTransforms = [
  ['log10', 'log10'],
  ['clr', 'centred log-ratios'],
  ['ilr', 'isometric log-ratios'],
  ['none', 'as measured'],
] as const;
export const kCorrections = [
  ['no', 'as read'],
  ['yes', 'by the calibration'],
  ['within', 'by the calibration, within the standards only'],
] as const;

export const kDecisions: Record<string, string> = { use: 'use', with_care: 'with care', leave_out: 'leave out' };

/** Four figures: 12.34, 1234, 0.001234. */
export function figures(value: number | null | undefined): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '–';
  if (value === 0) return '0';
  const size = Math.floor(Math.log10(Math.abs(value)));
  return fixed(value, Math.max(0, Math.min(6, 3 - size)));
}

/** A probability: "0.034", "below 0.001". */
export function chance(p: number | null | undefined): string {
  if (p === null || p === undefined) return '–';
  return p < 0.001 ? 'below 0.001' : fixed(p, 3);
}

/** "84 samples, 168 readings" */
export function extent(rows: number, readings: number): string {
  return readings > rows ? `${counted(rows, 'sample')}, means of ${counted(readings, 'reading')}` : counted(rows, 'sample');
}
