import type { Field } from '../site/fields';

const choice = (...words: string[]): (readonly [string, string])[] => [['', 'not said'], ...words.map((word) => [word, word.replace(/_/g, ' ')] as const)];

/** Parts and techniques that are usual; common practice, no source. */
export const kParts = ['rim', 'base', 'profile', 'body', 'handle'];

export const kPieceFields: Field[] = [
  { column: 'rim_diameter_mm', label: 'Rim diameter, mm', short: true },
  { column: 'rim_least_mm', label: 'hardly less than', short: true },
  { column: 'rim_most_mm', label: 'nor more than', short: true },
  { column: 'diameter_certainty', label: 'Diameter is', options: choice('sure', 'probable', 'possible') },
  { column: 'rim_percent', label: 'Rim that survives, %', short: true },
  { column: 'stance', label: 'Stance', options: choice('measured', 'estimated', 'unknown') },
  { column: 'base_diameter_mm', label: 'Base diameter, mm', short: true },
  { column: 'base_percent', label: 'Base that survives, %', short: true },
  { column: 'handles', label: 'Handles', short: true },
  { column: 'part', label: 'Part', suggestions: kParts },
  { column: 'technique', label: 'Technique', suggestions: ['wheel', 'hand', 'coil', 'slab', 'mould'] },
  { column: 'form', label: 'Form, if not its line’s' },
  { column: 'record', label: 'Record', short: true },
  { column: 'vessel', label: 'Vessel', short: true },
  { column: 'scale', label: 'Scale of its source' },
  { column: 'measured_by', label: 'Measured by', short: true },
  { column: 'measured_on', label: 'Measured on', short: true },
  { column: 'reference', label: 'Published', wide: true },
  { column: 'notes', label: 'Notes', wide: true },
];

export const kBandKinds = [
  'groove', 'cordon', 'thumbing', 'frill', 'incision', 'wave', 'combing', 'combed_wave', 'rouletting',
  'lattice', 'stamp', 'dots', 'burnish', 'slip', 'paint', 'glaze', 'other',
] as const;

export const kBandFields: Field[] = [
  { column: 'kind', label: 'Kind', options: choice(...kBandKinds) },
  { column: 'side', label: 'Side', options: [['', 'outer'], ['inner', 'inner']] },
  { column: 'from_z_mm', label: 'From height, mm', short: true },
  { column: 'to_z_mm', label: 'to, mm', short: true },
  { column: 'lines', label: 'Lines', short: true },
  { column: 'spacing_mm', label: 'Spacing, mm', short: true },
  { column: 'angle', label: 'Angle, degrees', short: true },
  { column: 'colour', label: 'Colour' },
  { column: 'drawn', label: 'Seen', options: [['', 'seen'], ['conjectured', 'conjectured']] },
  { column: 'notes', label: 'Notes' },
];
