/** The columns of the series' rows as fields: what they are called, and what may stand in them. */
export interface Field {
  column: string;
  label: string;
  options?: readonly (readonly [string, string])[];
  suggestions?: readonly string[];
  short?: boolean;
  wide?: boolean;
}

const kBasis = [
  ['', 'not said'],
  ['made', 'made'],
  ['arrived', 'arrived here'],
  ['deposited', 'deposited'],
] as const;
const kStatus = [
  ['', 'in use'],
  ['provisional', 'provisional'],
  ['retired', 'retired'],
] as const;
export const kRelations = [
  ['', 'not said'],
  ['same', 'the same'],
  ['broader', 'ours is broader'],
  ['narrower', 'ours is narrower'],
  ['overlaps', 'they overlap'],
] as const;

/** The usual scales' words, as suggestions; any scale's word is taken. */
export const kHardness = ['soft', 'hard', 'very hard'];
export const kFeel = ['harsh', 'rough', 'smooth', 'soapy', 'powdery'];
export const kFracture = ['conchoidal', 'smooth', 'finely irregular', 'irregular', 'hackly', 'laminated'];
export const kFrequency = ['rare', 'sparse', 'moderate', 'common', 'very common', 'abundant'];
export const kSorting = ['poorly sorted', 'moderately sorted', 'well sorted', 'very well sorted'];
export const kRounding = ['very angular', 'angular', 'subangular', 'subrounded', 'rounded', 'well rounded'];
export const kInclusions = ['quartz', 'flint', 'shell', 'chalk', 'limestone', 'mica', 'iron-rich grains', 'grog', 'organic', 'slag', 'rock'];

const kDated: Field[] = [
  { column: 'earliest', label: 'Earliest', short: true },
  { column: 'latest', label: 'Latest', short: true },
  { column: 'basis', label: 'Years of', options: kBasis },
  { column: 'reference', label: 'Source', wide: true },
  { column: 'status', label: 'Status', options: kStatus },
];

export const kFields: Record<string, Field[]> = {
  fabrics: [
    { column: 'name', label: 'Name', wide: true },
    { column: 'ware_group', label: 'Ware group' },
    { column: 'variant_of', label: 'Variant of' },
    { column: 'description', label: 'Description', wide: true },
    { column: 'hardness', label: 'Hardness', suggestions: kHardness },
    { column: 'feel', label: 'Feel', suggestions: kFeel },
    { column: 'fracture', label: 'Fracture', suggestions: kFracture },
    { column: 'outside', label: 'Colour outside' },
    { column: 'core', label: 'Colour of the core' },
    { column: 'inside', label: 'Colour inside' },
    { column: 'firing', label: 'Firing', wide: true },
    { column: 'source_area', label: 'Comes from' },
    ...kDated,
  ],
  forms: [
    { column: 'name', label: 'Name', wide: true },
    { column: 'vessel_class', label: 'Vessel class' },
    ...kDated,
  ],
  decorations: [
    { column: 'name', label: 'Name', wide: true },
    { column: 'technique', label: 'Technique' },
    { column: 'description', label: 'Description', wide: true },
    ...kDated,
  ],
  inclusions: [
    { column: 'inclusion', label: 'Inclusion', suggestions: kInclusions },
    { column: 'frequency', label: 'Frequency', suggestions: kFrequency },
    { column: 'size_least_mm', label: 'From, mm', short: true },
    { column: 'size_most_mm', label: 'To, mm', short: true },
    { column: 'sorting', label: 'Sorting', suggestions: kSorting },
    { column: 'rounding', label: 'Rounding', suggestions: kRounding },
    { column: 'colour', label: 'Colour' },
    { column: 'scale', label: 'Scale', suggestions: ['even-bins', 'pcrg', 'chart-steps', 'nrfrc'] },
    { column: 'notes', label: 'Notes' },
  ],
  dates: [
    { column: 'form', label: 'Form' },
    { column: 'decoration', label: 'Decoration' },
    { column: 'region', label: 'Region' },
    { column: 'earliest', label: 'Earliest', short: true },
    { column: 'latest', label: 'Latest', short: true },
    { column: 'full_from', label: 'Full from', short: true },
    { column: 'full_to', label: 'Full to', short: true },
    { column: 'basis', label: 'Years of', options: kBasis },
    { column: 'reference', label: 'Source' },
  ],
  equivalents: [
    { column: 'series', label: 'Series' },
    { column: 'code', label: 'Code there' },
    { column: 'relation', label: 'To it', options: kRelations },
    { column: 'said_by', label: 'Who says so' },
    { column: 'reference', label: 'Source' },
  ],
  specimens: [
    { column: 'specimen', label: 'Specimen' },
    { column: 'record', label: 'Record' },
    { column: 'place', label: 'Kept at' },
    { column: 'notes', label: 'Notes' },
  ],
};

/** Without these a row is no row. */
export const kRequired: Record<string, readonly string[]> = {
  fabrics: ['fabric'],
  forms: ['form'],
  decorations: ['decoration'],
  inclusions: ['inclusion'],
  dates: ['earliest', 'latest', 'reference'],
  equivalents: ['series', 'code'],
  specimens: ['specimen'],
};
