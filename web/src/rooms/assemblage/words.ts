/** All that the room says of its views; cautions come with the answers. */
import type { Group, View } from './part';

export const kWords = {
  room: 'Assemblage',
  nothing: 'There is no pottery to count yet. It comes with',
  groups_label: 'Questions',
  views_label: 'Ways of looking',
  compare: 'Compare',
  by: 'by',
  each: 'For each',
  measured: 'measured in',
  turn: 'Turn round',
  turn_says: 'rows become columns',
  doubtful: 'doubtful identifications',
  unchecked: 'unchecked lines',
  with: 'With',
  settings: 'Settings',
  comparing: 'Comparing',
  done: 'Compared',
  caution: 'Bear in mind',
  together: 'Count these as one',
} as const;

export const kGroupNames: Record<Group, string> = {
  amounts: 'How much',
  likeness: 'How alike',
  variety: 'How different',
  trust: 'What to trust',
  away: 'Elsewhere',
};

export const kViewWords: Record<View, { name: string; asks: string }> = {
  tally: { name: 'Tally', asks: 'How much is there, by anything?' },
  measures: { name: 'Four measures', asks: 'Do sherds, weight, vessels and EVE tell the same, and why not?' },
  breakage: { name: 'Breakage', asks: 'How broken, how whole and how worn is it?' },
  'sample-size': { name: 'Sample size', asks: 'How many sherds must be sorted for a share that holds?' },
  similarity: { name: 'Similarity', asks: 'Which of them have the same shares?' },
  ordination: { name: 'Ordination', asks: 'What sets them apart, on one map?' },
  order: { name: 'Order', asks: 'In which order do they follow from each other?' },
  clusters: { name: 'Clusters', asks: 'Into which groups do they fall?' },
  difference: { name: 'Difference', asks: 'Is the difference more than the luck of breakage, and where does it lie?' },
  diversity: { name: 'Diversity', asks: 'How many types are there, at equal numbers?' },
  'key-groups': { name: 'Key groups', asks: 'Which are worth publishing in full?' },
  residuality: { name: 'Residual pottery', asks: 'How much is older than the deposit that it lay in?' },
  joins: { name: 'Joins', asks: 'Which deposits share vessels?' },
  distance: { name: 'Fall-off', asks: 'How does a ware thin out with distance?' },
  published: { name: 'Other sites', asks: 'What have other sites published, to compare with?' },
};

/** What the program calls the measures of a key group. */
export const kWeightNames = {
  size: 'size',
  freshness: 'freshness',
  completeness: 'completeness',
  residual: 'little residual',
  dating: 'close dating',
} as const;

export const kPublished = {
  none: 'Nothing of other sites is kept yet. What stands here can be a row beside those of this site.',
  how_used: 'In Similarity, Ordination, Order, Clusters, Difference and Diversity, Settings takes them as rows; one measure at a time, since unlike ones cannot be compared.',
  add: 'Add what was published',
  help: 'A row a type, with heads: assemblage, measure (count, weight_g, vessels, eve), source, code, amount; also field (fabric unless said), rounded_to, notes, east and north (or longitude and latitude). With commas or tabs, as a spreadsheet copies it.',
  such_as: 'assemblage,measure,source,field,code,amount\nMill Close pit 4,count,"Report 12, table 3",fabric.ware_group,Roman,112',
} as const;

export const kPlain = {
  of: 'Compared is the table',
  kept: 'It stays while this page is open; the address does not hold it.',
  back: 'Back to the record',
  instead: 'A table of its own in place of the record',
  paste: 'With commas or tabs, as a spreadsheet copies it; first the names, then amounts',
  use: 'Use this table',
  file: 'or read a file',
  pasted: 'as pasted',
  half: 'places without any count as half of one',
  counts: 'assemblage,grey ware,red ware\nPit 4,12,30\nPit 9,41,8',
  places: 'place,amount,distance,transport\nNorth Farm,12.5,8,land\nQuay,9,31,water',
} as const;
