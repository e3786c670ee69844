/** Rows of the site as fields: what they are called, what may stand in them. */
export interface Field {
  column: string;
  label: string;
  options?: readonly (readonly [string, string])[];
  suggestions?: readonly string[];
  short?: boolean;
  wide?: boolean;
}
export interface Shown {
  column: string;
  label: string;
  number?: boolean;
  /** Left out where the window is narrow. */
  wide?: boolean;
}

const choice = (...words: string[]): (readonly [string, string])[] => [['', 'not said'], ...words.map((word) => [word, word.replace(/_/g, ' ')] as const)];

export const kRecovery = ['hand', 'sieved', 'machine', 'flotation', 'metal detector'];

export const kSheet: Field[] = [
  { column: 'title', label: 'Title', wide: true },
  { column: 'level', label: 'How deep it records', options: choice('scan', 'basic', 'detailed') },
  { column: 'counting_rule', label: 'Vessels counted by', options: choice('minimum', 'maximum', 'rims') },
  { column: 'counted', label: 'Sherds counted', options: choice('before_joining', 'after_joining') },
  { column: 'crumbs_below_mm', label: 'Crumbs, weight only, below, mm' },
  { column: 'box_limit_g', label: 'A box holds at most, g' },
  { column: 'date_style', label: 'Date style', options: [['', 'the usual one'], ...['default', 'cco', 'object-id', 'ucsd', 'mid-30-70', 'quarters', 'edtf'].map((one) => [one, one] as const)] },
  { column: 'region', label: 'Region' },
  { column: 'repository', label: 'Repository' },
  { column: 'notes', label: 'Notes', wide: true },
];

export const kFields: Record<string, Field[]> = {
  contexts: [
    { column: 'type', label: 'Type', suggestions: ['layer', 'fill', 'cut', 'structure'] },
    { column: 'deposit', label: 'Deposit', options: choice('use', 'dump', 'silting', 'make_up', 'cut', 'structure', 'mixed', 'unknown') },
    { column: 'integrity', label: 'Integrity', options: choice('sealed', 'ordinary', 'disturbed') },
    { column: 'feature', label: 'Feature' },
    { column: 'spit', label: 'Spit', short: true },
    { column: 'group', label: 'Group' },
    { column: 'area', label: 'Area', short: true },
    { column: 'phase', label: 'Phase' },
    { column: 'not_before', label: 'Not before', short: true },
    { column: 'not_after', label: 'Not after', short: true },
    { column: 'limit_basis', label: 'The limits rest on' },
    { column: 'recovery', label: 'Recovery', suggestions: kRecovery },
    { column: 'sieved_litres', label: 'Sieved, litres', short: true },
    { column: 'my_earliest', label: 'Own date, from', short: true },
    { column: 'my_latest', label: 'to', short: true },
    { column: 'my_confidence', label: 'Confidence', suggestions: ['high', 'fair', 'low'] },
    { column: 'my_reason', label: 'Reason', wide: true },
    { column: 'stage', label: 'Recording', options: [['', 'as its lines say'], ['to_do', 'to do'], ['begun', 'begun'], ['done', 'done']] },
    { column: 'description', label: 'Description', wide: true },
    { column: 'notes', label: 'Notes', wide: true },
  ],
  phases: [
    { column: 'title', label: 'Title', wide: true },
    { column: 'area', label: 'Area', short: true },
    { column: 'order', label: 'Order', short: true },
    { column: 'earliest', label: 'Earliest', short: true },
    { column: 'latest', label: 'Latest', short: true },
    { column: 'basis', label: 'Rests on', options: choice('stratigraphy', 'documents', 'pottery') },
  ],
  bags: [
    { column: 'received', label: 'Received', options: choice('expected', 'received', 'missing', 'empty') },
    { column: 'context', label: 'Context' },
    { column: 'box', label: 'Box', short: true },
    { column: 'material', label: 'Material', suggestions: ['pottery', 'building material', 'clay pipe', 'bone', 'glass', 'metal'] },
    { column: 'count', label: 'Sherds, as listed', short: true },
    { column: 'weight_g', label: 'Weight as listed, g', short: true },
    { column: 'cleaning', label: 'Cleaning', options: choice('unwashed', 'washed', 'brushed', 'left_unwashed') },
    { column: 'marking', label: 'Marking', options: choice('unmarked', 'marked', 'not_to_mark') },
    { column: 'recovery', label: 'Recovery', suggestions: kRecovery },
    { column: 'sample', label: 'Sample' },
    { column: 'notes', label: 'Notes', wide: true },
  ],
  drawings: [
    { column: 'piece', label: 'Piece', short: true },
    { column: 'reason', label: 'Why it is drawn' },
    { column: 'status', label: 'Status', options: choice('to_draw', 'sent', 'drawn', 'to_correct', 'checked', 'dropped') },
    { column: 'catalogue', label: 'No in the catalogue', short: true },
    { column: 'scale', label: 'Scale', short: true, suggestions: ['1:1', '1:2', '1:3', '1:4'] },
    { column: 'record', label: 'Record', short: true },
    { column: 'place', label: 'Where the sherd is' },
    { column: 'illustrator', label: 'Illustrator' },
    { column: 'sent_on', label: 'Sent on', short: true },
    { column: 'drawn_on', label: 'Drawn on', short: true },
    { column: 'checked_by', label: 'Checked by', short: true },
    { column: 'checked_on', label: 'Checked on', short: true },
    { column: 'plate', label: 'Plate', short: true },
    { column: 'corrections', label: 'Corrections', wide: true },
    { column: 'caption', label: 'Caption', wide: true },
    { column: 'notes', label: 'Notes', wide: true },
  ],
  people: [
    { column: 'name', label: 'Name' },
    { column: 'role', label: 'Role', suggestions: ['pottery specialist', 'recorder', 'checker', 'excavator', 'finds officer'] },
    { column: 'notes', label: 'Notes', wide: true },
  ],
};

export const kKey: Record<string, Field> = {
  contexts: { column: 'context', label: 'Context' },
  phases: { column: 'phase', label: 'Phase' },
  bags: { column: 'bag', label: 'Bag' },
  people: { column: 'initials', label: 'Initials' },
  drawings: { column: 'drawing', label: 'Drawing' },
};

export const kShown: Record<string, Shown[]> = {
  contexts: [
    { column: 'type', label: 'Type' },
    { column: 'deposit', label: 'Deposit' },
    { column: 'phase', label: 'Phase' },
    { column: 'area', label: 'Area', wide: true },
    { column: 'feature', label: 'Feature', wide: true },
    { column: 'recovery', label: 'Recovery', wide: true },
    { column: 'sieved_litres', label: 'Sieved, l', number: true, wide: true },
  ],
  phases: [
    { column: 'title', label: 'Title' },
    { column: 'area', label: 'Area', wide: true },
    { column: 'order', label: 'Order', number: true, wide: true },
    { column: 'earliest', label: 'Earliest', number: true },
    { column: 'latest', label: 'Latest', number: true },
  ],
  bags: [
    { column: 'context', label: 'Context' },
    { column: 'box', label: 'Box' },
    { column: 'received', label: 'Received' },
    { column: 'cleaning', label: 'Cleaning', wide: true },
    { column: 'marking', label: 'Marking', wide: true },
    { column: 'recovery', label: 'Recovery', wide: true },
  ],
  drawings: [
    { column: 'catalogue', label: 'No', number: true },
    { column: 'piece', label: 'Piece' },
    { column: 'status', label: 'Status' },
    { column: 'reason', label: 'Why', wide: true },
    { column: 'corrections', label: 'Corrections', wide: true },
  ],
  people: [
    { column: 'name', label: 'Name' },
    { column: 'role', label: 'Role' },
    { column: 'notes', label: 'Notes', wide: true },
  ],
};
