/** A table that is brought in: what it holds, and which heading is which column. */

/** What the rows of a table may be, by what a specialist has in a spreadsheet; the first three have to be there before the sherds that name them. */
export const kTables: readonly (readonly [string, string])[] = [
  ['contexts', 'contexts'],
  ['fabrics', 'fabrics'],
  ['forms', 'forms'],
  ['sherds', 'sherds, a row a line'],
  ['rims', 'rims'],
  ['bags', 'bags or boxes: the finds list'],
  ['phases', 'phases'],
  ['relations', 'relations of contexts'],
  ['dates', 'dates of fabrics and forms'],
  ['evidence', 'features that date'],
  ['pieces', 'measured pieces'],
  ['sections', 'sections, a row a point'],
  ['drawings', 'drawings'],
  ['samples', 'samples'],
  ['readings', 'readings of an instrument'],
  ['standards', 'reference materials'],
  ['certified', 'certified values'],
  ['petrology', 'thin sections'],
  ['joins', 'cross-joins'],
  ['loans', 'what is out of its bag'],
  ['selections', 'selection and retention'],
  ['people', 'people'],
];

/** What a file's name says of its rows: "Finds 2024 - contexts.csv". */
export function table_of(file_name: string): string | null {
  const words = file_name.toLowerCase().split(/[^a-z]+/);
  const found = kTables.find(([kind]) => words.includes(kind) || words.includes(kind.replace(/s$/, '')));
  return found?.[0] ?? (words.some((word) => ['finds', 'pottery', 'pot'].includes(word)) ? 'sherds' : null);
}

type Rule = string | string[] | { from: string | string[] };
export interface Mapping {
  columns?: Record<string, Rule>;
  [part: string]: unknown;
}
/** null where the text is no object of JSON. */
export function read_mapping(text: string): Mapping | null {
  if (!text.trim()) return {};
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Mapping) : null;
  } catch {
    return null;
  }
}
export const mapping_text = (mapping: Mapping): string => (Object.keys(mapping).length ? JSON.stringify(mapping, null, 2) : '');

const headings_of = (rule: Rule): string[] => [typeof rule === 'object' && !Array.isArray(rule) ? rule.from : rule].flat();

/** The mapping by which a heading fills that column, and no other; of a column of several headings the others stay. */
export function taken_for(mapping: Mapping, heading: string, column: string): Mapping {
  const columns = Object.fromEntries(
    Object.entries(mapping.columns ?? {}).flatMap(([name, rule]) => {
      if (name === column) return [];
      const left = headings_of(rule).filter((one) => one !== heading);
      if (left.length === headings_of(rule).length) return [[name, rule]];
      return left.length ? [[name, left]] : [];
    }),
  );
  return { ...mapping, columns: { ...columns, [column]: heading } };
}
/** Hints of the program name the options of its command; here these are choices of the page. */
export function on_page(hint: string): string {
  return hint
    .replace('let --new-codes add it as provisional', 'tick that codes and contexts are added')
    .replace('let the good rows in with --keep-good', 'tick that the good rows come in')
    .replace('say --again and --prefix', 'tick that it is read once more, and put something before each number')
    .replace('say --again', 'tick that it is read once more')
    .replace(/^say which with --columns: .*$/, 'say which above')
    .replace('--prefix', 'what is put before each number')
    .replace('--units', 'the unit')
    .replace('--errors', 'what its errors are')
    .replace('--columns', 'the mapping');
}
/** The code of the table as the record's own one, or as a word. */
export function read_as(mapping: Mapping, column: string, code: string, word: string): Mapping {
  const codes = (mapping.codes ?? {}) as Record<string, Record<string, string>>;
  return { ...mapping, codes: { ...codes, [column]: { ...codes[column], [code]: word } } };
}
