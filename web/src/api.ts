// Made by `sherdwright schema --typescript`; do not edit.

/** The place an error speaks of. */
export interface ErrorWhere {
  file: string | null;
  sheet: string | null;
  row: number | null;
  line: number | null;
  column: string | null;
  id: string | null;
}

/** What went wrong, in one sentence, and the way out. */
export interface ErrorEntry {
  code: string;
  message: string;
  where: ErrorWhere;
  hint: string | null;
}

/** What every answer carries beside its own keys. */
export interface Envelope {
  ok: boolean;
  errors: ErrorEntry[];
  warnings: string[];
  provenance: Provenance;
}

export interface Provenance {
  version: string;
  inputs: string[];
  settings: Record<string, string>;
  seed: number | null;
}

export interface NewRequest {
  /** the site's code, such as SAL26 */
  site: string;
  /** the project's title */
  title?: string;
  /** how vessels are counted where in doubt: minimum, maximum or rims */
  counting_rule?: string;
  /** when sherds are counted: before_joining or after_joining */
  counted?: string;
  /** the most a box may weigh, in g (10000 unless said) */
  box_limit_g?: string;
}

export interface NewResponse extends Envelope {
  site: string;
  title: string;
}

export interface ImportRequest {
  /** the table: CSV, TSV, XLSX or ODS */
  file: string;
  /** what its rows are: contexts, relations, phases, fabrics, forms, dates, evidence, sherds, rims, joins, scans, bags, decorations, inclusions, equivalents, specimens, pictures, trays, people, pieces, sections, bands, drawings, measures, repositories, loans, selections, standards, certified, samples, sources, readings, concentrations, petrology, point_counts, analytes, texts, report_items, bibliography, rates, estimates or hours */
  as: string;
  /** a mapping file (JSON) that says which heading is which column */
  columns?: string;
  /** let the good rows in although others are refused */
  keep_good?: boolean;
  /** add contexts, fabrics and forms that the store does not know, as provisional */
  new_codes?: boolean;
  /** match rows by their key and apply every difference; columns that the table lacks stay */
  update?: boolean;
  /** with --update: a file of keys, one a line; other rows are left out */
  only?: string;
  /** read a file whose bytes came in before */
  again?: boolean;
  /** the sheet of a spreadsheet */
  sheet?: string;
  /** tell what would happen, and the mapping that would be used; change nothing */
  dry_run?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface UnderstoodHeading {
  heading: string;
  as: string;
}

export interface Problem {
  row: number;
  line: number | null;
  column: string;
  code: string;
  text: string;
  message: string;
  hint: string;
}

export interface ImportTotals {
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  eve: number | null;
}

export interface ImportDifference {
  key: string;
  column: string;
  was: string;
  now: string;
}

export interface ImportResponse extends Envelope {
  kind: string;
  format: string;
  encoding: string;
  sheet: string;
  rows_read: number;
  rows_kept: number;
  rows_refused: number;
  rows_left_out: number;
  rows_new: number;
  rows_changed: number;
  rows_same: number;
  headings: UnderstoodHeading[];
  problems: Problem[];
  unknown: Record<string, Record<string, number>>;
  totals: ImportTotals;
  differences: ImportDifference[];
  mapping: string;
  change: number | null;
  change_uid: string;
}

export interface GivenTableRequest {
  /** of the file: CSV, TSV, XLSX or ODS */
  name: string;
  /** its bytes, in base64 */
  base64: string;
  /** what its rows are, as import takes it */
  as: string;
  /** what a mapping file would say, as text (JSON) */
  mapping?: string;
  /** the sheet of a spreadsheet */
  sheet?: string;
  /** of an instrument's readings, where the file says none */
  units?: string;
  /** of readings: standard deviations that the errors are */
  errors?: string;
  /** of readings: put before the number of each, where the instrument counts from 1 every day */
  prefix?: string;
  /** let the good rows in although others are refused */
  keep_good?: boolean;
  /** add contexts, fabrics and forms that the store does not know, as provisional */
  new_codes?: boolean;
  /** match rows by their key and apply every difference */
  update?: boolean;
  /** read a file whose bytes came in before */
  again?: boolean;
  /** tell what would happen; change nothing */
  dry_run?: boolean;
  /** 32 hexadecimal digits: the change's identity */
  change?: string;
  /** who records */
  who?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface SiteRequest {
  /** the site, where the store holds several */
  site?: string;
}

export interface Site {
  code: string;
  title: string;
  counting_rule: "minimum" | "maximum" | "rims" | null;
  counted: "before_joining" | "after_joining" | null;
  box_limit_g: number | null;
  level: "scan" | "basic" | "detailed" | null;
  crumbs_below_mm: number | null;
  date_style: string;
  region: string;
  repository: string;
  notes: string;
}

export interface Shares {
  count: number | null;
  weight: number | null;
  vessels: number | null;
  eve: number | null;
}

export interface TallyIntervals {
  count_share: [number, number] | null;
  weight_share: [number, number] | null;
  vessels_share: [number, number] | null;
  eve_share: [number, number] | null;
  mean_weight_g: [number, number] | null;
  brokenness: [number, number] | null;
  completeness: [number, number] | null;
}

export interface TallyRow {
  lines: number;
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  eve: number | null;
  mean_weight_g: number | null;
  brokenness: number | null;
  completeness: number | null;
  shares: Shares;
  capped: string[];
  intervals: TallyIntervals | null;
}

export interface LastChange {
  seq: number;
  at: string;
  who: string;
  command: string;
}

export interface SiteResponse extends Envelope {
  sheet: Site;
  tables: Record<string, number>;
  total: TallyRow;
  lines: number;
  checked: number;
  contexts_with_pottery: number;
  last_change: LastChange | null;
}

export interface LinesRequest {
  /** FIELD=VALUE: these lines only; may be given again */
  where?: string[];
  /** at most so many lines (200 unless said) */
  limit?: number | null;
  /** leave out so many of the first */
  offset?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface RecordLine {
  record: string;
  context: string;
  fabric: string;
  count: number | null;
  weight_g: number | null;
  form: string;
  part: string;
  decoration: string;
  vessels: number | null;
  rims: number | null;
  rim_diameter_mm: number | null;
  rim_percent: number | null;
  base_diameter_mm: number | null;
  base_percent: number | null;
  fabric_certainty: "sure" | "probable" | "possible" | null;
  form_certainty: "sure" | "probable" | "possible" | null;
  decoration_certainty: "sure" | "probable" | "possible" | null;
  judged: "own" | "residual" | "intrusive" | null;
  condition: string;
  mark: string;
  vessel: string;
  bag: string;
  box: string;
  sample: string;
  drawing: string;
  notes: string;
  recorder: string;
  recorded_on: string;
  checked_by: string;
  earliest: number | null;
  latest: number | null;
  technique: string;
  surface: string;
  use_traces: string;
  wall_mm: number | null;
  small_find: string;
  accession: string;
  photo: string;
  passed_to: string;
  weight_note: string;
}

export interface LinesResponse extends Envelope {
  total: number;
  count: number | null;
  weight_g: number | null;
  lines: RecordLine[];
}

export interface RowsRequest {
  /** sherds, rims, contexts, fabrics ..., or sheet */
  kind: string;
  /** COLUMN=VALUE: these rows only, uid=... one of them; may be given again */
  where?: string[];
  /** at most so many rows (1000 unless said) */
  limit?: number | null;
  /** leave out so many of the first */
  offset?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface RowState {
  kind: string;
  uid: string;
  removed: boolean;
  changed: number | null;
  values: Record<string, string>;
}

export interface RowsResponse extends Envelope {
  kind: string;
  columns: string[];
  total: number;
  rows: RowState[];
}

export interface QueueRequest {
  /** to_do, begun or done: these contexts only */
  stage?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface QueueScan {
  uid: string;
  wares: string;
  amount: "S" | "M" | "L" | null;
  count: number | null;
  weight_g: number | null;
  count_left: number | null;
  weight_left_g: number | null;
  earliest: number | null;
  latest: number | null;
  comment: string;
}

export interface QueueContext {
  context: string;
  uid: string;
  type: string;
  area: string;
  phase: string;
  stage: "to_do" | "begun" | "done";
  stage_said: boolean;
  lines: number;
  to_check: number;
  unfinished: number;
  count: number | null;
  weight_g: number | null;
  scan: QueueScan | null;
  flags: ("to_check" | "unfinished" | "scan_open" | "scan_exceeded")[];
  changed: number;
  who: string;
  at: string;
}

export interface QueueResponse extends Envelope {
  to_do: number;
  begun: number;
  done: number;
  contexts: QueueContext[];
}

export interface FindRequest {
  /** a record number, context, bag, box, mark, small find, vessel, fabric, or words of a note */
  text: string;
  /** at most so many of each group (20 unless said) */
  limit?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface FindHit {
  kind: string;
  uid: string;
  id: string;
  context: string;
  column: string;
  value: string;
}

export interface FindGroup {
  group: string;
  total: number;
  hits: FindHit[];
}

export interface FindResponse extends Envelope {
  text: string;
  groups: FindGroup[];
}

export interface SimilarRequest {
  /** the line's fabric */
  fabric?: string;
  /** its form */
  form?: string;
  /** its part */
  part?: string;
  /** its decoration */
  decoration?: string;
  /** or its record number: what it is comes from the line */
  record?: string;
  /** at most so many lines (10 unless said) */
  limit?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface SimilarLine {
  uid: string;
  alike: string[];
  line: RecordLine;
}

export interface SimilarResponse extends Envelope {
  fabric: string;
  form: string;
  part: string;
  decoration: string;
  of_fabric: number;
  contexts: number;
  alike_in_all: number;
  usual_weight_g: number | null;
  lines: SimilarLine[];
}

export interface LinksRequest {
  /** a record number: the network that it belongs to */
  record: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface LinkedLine {
  uid: string;
  record: string;
  context: string;
  fabric: string;
  form: string;
  part: string;
  vessel: string;
  count: number | null;
  vessels: number | null;
  weight_g: number | null;
  rim_percent: number | null;
  steps: number;
}

export interface Link {
  uid: string;
  record_a: string;
  record_b: string;
  kind: "join_fresh" | "join_old" | "same_vessel" | "possibly_same";
}

export interface LinkedVessel {
  records: string[];
  contexts: string[];
  names: string[];
  count: number | null;
  weight_g: number | null;
  counted: number | null;
}

export interface LinksResponse extends Envelope {
  record: string;
  lines: LinkedLine[];
  links: Link[];
  vessels: LinkedVessel[];
  fewest_vessels: number;
  cut_off: boolean;
}

export interface ScanRequest {
  /** the context that was scanned */
  context: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface Scan {
  context: string;
  wares: string;
  amount: "S" | "M" | "L" | null;
  count: number | null;
  weight_g: number | null;
  earliest: number | null;
  latest: number | null;
  comment: string;
  recorder: string;
  recorded_on: string;
}

export interface ScanWare {
  ware: string;
  said: boolean;
  known: boolean;
  certainty: "sure" | "probable" | "possible" | null;
  amount: "S" | "M" | "L" | null;
  count: number | null;
  count_recorded: number | null;
  count_left: number | null;
  weight_g: number | null;
  weight_recorded_g: number | null;
  weight_left_g: number | null;
  lines: number;
}

export interface ScanResponse extends Envelope {
  uid: string;
  scan: Scan;
  wares: ScanWare[];
  total: ScanWare;
}

export interface ProgressRequest {
  /** whose pace; of everyone together unless said */
  who?: string;
  /** the pace of the last so many days (14 unless said) */
  days?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface ProgressMeasure {
  recorded: number;
  expected: number;
  share: number | null;
  per_hour: number | null;
  hours_left: number | null;
}

export interface ProgressResponse extends Envelope {
  sherds: ProgressMeasure;
  weight_g: ProgressMeasure;
  contexts: ProgressMeasure;
  lines_checked: ProgressMeasure;
  contexts_without_expectation: number;
  hours: number;
  changes: number;
  days: number;
  who: string;
  basis: string;
}

export interface ReceiveRequest {
  /** the bags of this box only */
  box?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface BagEntry {
  bag: string;
  uid: string;
  context: string;
  box: string;
  material: string;
  standing: "expected" | "received" | "missing" | "empty" | "unlisted";
  count: number | null;
  count_recorded: number | null;
  weight_g: number | null;
  weight_recorded_g: number | null;
  lines: number;
  contexts: string[];
  troubles: ("count" | "weight" | "context" | "lines_of_missing")[];
}

export interface ReceiveResponse extends Envelope {
  expected: number;
  received: number;
  missing: number;
  empty: number;
  unlisted: number;
  troubled: number;
  bags: BagEntry[];
}

export interface EditStep {
  /** add, set or remove */
  do: string;
  /** sherds, rims, contexts ..., or sheet for the project sheet */
  kind: string;
  /** set, remove: its uid, its key, or @ and the name given by as */
  row?: string;
  /** add: a name for the row, for later steps of this change */
  as?: string;
  /** add: column and value, as typed */
  values?: Record<string, string>;
  /** set: the column */
  column?: string;
  /** set: the new value, as typed; blank takes the value away */
  value?: string;
  /** set: the value that was seen, as rows gives it; remove: the row's changed, where that matters */
  seen?: string | null;
  /** remove: kinds whose rows that name this one go with it */
  with?: string[];
}

export interface EditsRequest {
  /** 32 hexadecimal digits, made by whoever asks: the same change is not made twice */
  change: string;
  /** what is done, for the history */
  label?: string;
  /** who records, where it is not the one who runs the program */
  who?: string;
  /** what is done, in this order */
  steps: EditStep[];
  /** the site, where the store holds several */
  site?: string;
}

export interface EditNote {
  step: number;
  column: string;
  text: string;
  message: string;
}

export interface EditConflict {
  step: number;
  kind: string;
  row: string;
  id: string;
  column: string;
  seen: string;
  now: string;
  value: string;
  who: string;
  at: string;
}

export interface EditProblem {
  step: number;
  column: string;
  text: string;
  code: string;
  message: string;
  hint: string;
}

export interface EditsResponse extends Envelope {
  seq: number | null;
  change: string;
  rows: RowState[];
  notes: EditNote[];
  conflicts: EditConflict[];
  problems: EditProblem[];
}

export interface CheckRequest {
  /** this context only: what can be told from its own lines */
  context?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface FindingPlace {
  table: string;
  id: string;
  column: string;
}

export interface Finding {
  severity: "error" | "warning" | "note";
  code: string;
  message: string;
  where: FindingPlace;
  hint: string;
}

export interface CheckResponse extends Envelope {
  error_count: number;
  warning_count: number;
  note_count: number;
  findings: Finding[];
}

export interface TallyRequest {
  /** the table itself as text, with commas or tabs, in place of the store's record */
  table?: string;
  /** the fields to count by, with commas: fabric,context.phase; also fabric.ware_group, extra.COLUMN; of a table its columns */
  by: string[];
  /** FIELD=VALUE: count these lines only; may be given again */
  where?: string[];
  /** 95 % intervals from this many resamples */
  intervals?: number | null;
  /** the seed of the resampling (1 unless said) */
  seed?: number | null;
  /** of the figures: count, weight_g, vessels or eve (count unless said) */
  measure?: string;
  /** put the figures into the answer (SVG) */
  picture?: boolean;
  /** width of figures in mm, 84 to 400 (174 unless said) */
  width?: number | null;
  /** which figure is written or given, where there are several (the first unless said) */
  figure?: string;
  /** put a file into the answer, in base64: svg, pdf, png, csv or xlsx */
  give?: string;
  /** write this file: .svg, .pdf or .png for the figure, .csv or .xlsx for tables; may be given again */
  out?: string[];
  /** the site, where the store holds several */
  site?: string;
}

export interface TallyResponseRow {
  lines: number;
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  eve: number | null;
  mean_weight_g: number | null;
  brokenness: number | null;
  completeness: number | null;
  shares: Shares;
  capped: string[];
  intervals: TallyIntervals | null;
  /** Named values: string | null. */
  [name: string]: unknown;
}

export interface IntervalNote {
  about: string;
  unit: string;
  units: number;
  resamples: number;
  seed: number;
}

export interface DrawnPicture {
  name: string;
  title: string;
  svg: string;
}

export interface GivenFile {
  name: string;
  media_type: string;
  base64: string;
}

export interface TallyResponse extends Envelope {
  by: string[];
  rows: TallyResponseRow[];
  total: TallyRow;
  intervals: IntervalNote | null;
  pictures: DrawnPicture[];
  document: GivenFile | null;
  files: string[];
}

export interface CompareRequest {
  /** the table itself as text, with commas or tabs, in place of the store's record */
  table?: string;
  /** ordination, similarity, order, diversity, clusters, difference, distance, breakage, residuality, joins, key-groups or sample-size */
  how: string;
  /** of a store: the field whose values are compared (context unless said) */
  rows?: string;
  /** of a store: the field of the types (fabric unless said); distance: the table's column of distances */
  columns?: string;
  /** of a store: count, weight_g, vessels or eve (count unless said); distance: the table's column of amounts; of a store how the published assemblages count */
  measure?: string;
  /** FIELD=VALUE: lines of the store that meet it; FIELD!=VALUE those that do not; may be given again */
  where?: string[];
  /** of a store: out leaves out lines whose fabric, form or decoration, whichever is compared, is only probable or possible (in unless said) */
  doubtful?: string;
  /** of a store: out leaves out lines that nobody has checked (in unless said) */
  unchecked?: string;
  /** of a store: a published assemblage kept in it as another row, or all; may be given again */
  with?: string[];
  /** a column of the table that holds no amounts; may be given again */
  aside?: string[];
  /** ordination: a row that is placed on the axes without making them; may be given again */
  beside?: string[];
  /** ordination: a column likewise; may be given again */
  beside_columns?: string[];
  /** A+B: these types are counted as one; may be given again */
  merge?: string[];
  /** ordination: the table's column of years, or those of earliest and latest, to date the other rows by; may be given again; of a store: own, sequence, spot or phase, where years come from */
  dates?: string[];
  /** ordination: axes to show (20 unless said); with dates those to date by (as many as predict best) */
  axes?: number | null;
  /** order: search (unless said) or axis */
  method?: string;
  /** clusters: average (unless said), single, complete, ward or k-means */
  linkage?: string;
  /** clusters: percent (unless said), chi-square, similarity or amounts */
  distance?: string;
  /** clusters: how many; as many as lie best apart unless said */
  cut?: number | null;
  /** clusters: the table's column of phases to compare with, of a store a field such as context.phase; distance: the column of the mode of transport */
  groups?: string;
  /** difference of a store: a third field, for log-linear models */
  layer?: string;
  /** difference: COLUMN*LAYER, a pair of values that cannot exist; may be given again */
  impossible?: string[];
  /** distance: places without any are left out (leave-out, unless said), or 0.5 is added to all (add-half) */
  zeros?: string;
  /** distance: EAST,NORTH, the table's columns of coordinates; LONGITUDE,LATITUDE where they are degrees */
  at?: string;
  /** distance: EAST,NORTH of where it was made, to measure distances from */
  from?: string;
  /** key-groups: size=2; freshness, completeness, residual and dating likewise (each 1 unless said, 0 leaves it out); may be given again */
  weights?: string[];
  /** sample-size: percent points (5 unless said) */
  within?: string;
  /** sample-size: percent that is expected (50, which asks most, unless said) */
  share?: string;
  /** sample-size: sherds there are in all */
  population?: number | null;
  /** resamples for ellipses, stability, p and intervals (each method has its own number unless said) */
  resamples?: number | null;
  /** the seed of the resampling (1 unless said) */
  seed?: number | null;
  /** put the table compared into the answer */
  cells?: boolean;
  /** put the figures into the answer (SVG) */
  picture?: boolean;
  /** width of figures in mm, 84 to 400 (174 unless said) */
  width?: number | null;
  /** which figure is written or given, where there are several (the first unless said) */
  figure?: string;
  /** put a file into the answer, in base64: svg, pdf, png, csv or xlsx */
  give?: string;
  /** write this file: .svg, .pdf or .png for the figure, .csv or .xlsx for tables; may be given again */
  out?: string[];
  /** the site, where the store holds several */
  site?: string;
}

export interface ComparedTable {
  rows: number;
  columns: number;
  total: number;
  measure: string;
  empty_rows: string[];
  empty_columns: string[];
  blank_lines: number;
  doubtful_lines: number;
  unchecked_lines: number;
  merged: string[];
  where: string[];
  rows_field: string;
  columns_field: string;
  labels: string[];
  types: string[];
  cells: number[][];
}

export interface Ellipse {
  centre: [number, number];
  major: number;
  minor: number;
  angle_degrees: number;
  resamples: number;
}

export interface Expected {
  n: number;
  value: number;
  low95: number;
  high95: number;
}

export interface ComparedRow {
  label?: string;
  mass?: number;
  inertia?: number;
  standard?: number[];
  principal?: number[];
  contribution?: number[];
  quality?: number[];
  ellipse?: Ellipse | null;
  n?: number;
  richness?: number;
  shannon?: number;
  evenness?: number | null;
  simpson?: number;
  simpson_unbiased?: number | null;
  chao1?: number | null;
  chao1_corrected?: number | null;
  types_of_shannon?: number;
  types_of_simpson?: number;
  singles?: number;
  doubles?: number;
  expected_richness?: Expected[];
  if_all_alike?: Expected | null;
  against_all?: string;
}

export interface Point {
  label: string;
  mass: number;
  inertia: number;
  standard: number[];
  principal: number[];
  contribution: number[];
  quality: number[];
  ellipse: Ellipse | null;
}

export interface AxisDate {
  label: string;
  given: number | null;
  year: number;
  low95: number;
  high95: number;
  left_out: number | null;
}

export interface AxisDates {
  axes: number;
  dated: number;
  coefficients: number[];
  r_square: number;
  residual_sd: number;
  left_out_sd: number;
  within95: number;
  rows: AxisDate[];
  columns: AxisDate[];
  note: string;
}

export interface OrderFound {
  method: string;
  order: string[];
  events: number;
  exhaustive: boolean;
}

export interface Placing {
  label: string;
  place: number;
  median: number;
  low95: number;
  high95: number;
}

export interface Bars {
  label: string;
  total: number;
  percent: number[];
}

export interface DiversityRow {
  label: string;
  n: number;
  richness: number;
  shannon: number;
  evenness: number | null;
  simpson: number;
  simpson_unbiased: number | null;
  chao1: number | null;
  chao1_corrected: number | null;
  types_of_shannon: number;
  types_of_simpson: number;
  singles: number;
  doubles: number;
  expected_richness: Expected[];
  if_all_alike: Expected | null;
  against_all: string;
}

export interface Merge {
  a: number;
  b: number;
  height: number;
  size: number;
}

export interface Member {
  label: string;
  cluster: number;
  silhouette: number;
}

export interface Driver {
  row: string;
  column: string;
  observed: number;
  expected: number;
  residual: number;
}

export interface Share {
  row: string;
  column: string;
  share: number;
  low95: number | null;
  high95: number | null;
}

export interface Model {
  terms: string;
  chi_square: number;
  g_square: number;
  df: number;
  p: number | null;
  converged: boolean;
}

export interface LogLinear {
  sides: string[];
  cells: number;
  structural_zeros: number;
  total: number;
  models: Model[];
  simplest: string;
}

export interface FallOffCurve {
  name: string;
  formula: string;
  a: number | null;
  b: number | null;
  exponent: number | null;
  se_b: number | null;
  b95: [number, number] | null;
  r: number | null;
  r_square: number | null;
  r_square_amounts: number | null;
  half_distance: number | null;
  n: number;
  note: string;
}

export interface FallOffGroup {
  group: string;
  n: number;
  zeros: number;
  curves: FallOffCurve[];
}

export interface FallOffPlace {
  label: string;
  group: string;
  distance: number;
  amount: number;
  used: boolean;
  exponential: number | null;
  map_x: number | null;
  map_y: number | null;
}

export interface BreakageRow {
  label: string;
  lines: number;
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  eve: number | null;
  mean_weight_g: number | null;
  mean_weight_95: [number, number] | null;
  brokenness: number | null;
  brokenness_95: [number, number] | null;
  completeness: number | null;
  completeness_95: [number, number] | null;
  condition_recorded: number;
  abraded: number;
  abraded_share: number | null;
  rim_diameter_mm: number | null;
  rims_measured: number;
}

export interface ResidualityRow {
  label: string;
  title: string;
  contexts: number;
  tested: number;
  sherds: number;
  dated: number;
  residual: number;
  share: number | null;
  low95: number | null;
  high95: number | null;
  weight_share: number | null;
  vessels_share: number | null;
  judged_residual: number;
  judged_intrusive: number;
  records: string[];
}

export interface JoinNode {
  label: string;
  group: string;
  sherds: number;
  within: number;
  across: number;
  vessels_shared: number;
  component: number;
}

export interface JoinLink {
  a: string;
  b: string;
  joins: number;
  vessels: number;
  index: number;
  records: string[];
}

export interface KeyGroup {
  label: string;
  rank: number;
  score: number;
  sherds: number;
  vessels: number | null;
  mean_weight_g: number | null;
  abraded_share: number | null;
  completeness: number | null;
  residual_share: number | null;
  years: number | null;
  size_score: number | null;
  freshness_score: number | null;
  completeness_score: number | null;
  residual_score: number | null;
  dating_score: number | null;
  missing: string[];
}

export interface SampleStep {
  n: number;
  half_width: number;
  half_width_clustered: number | null;
}

export interface SampleShare {
  label: string;
  count: number;
  share: number;
  low95: number;
  high95: number;
  low95_clustered: number | null;
  high95_clustered: number | null;
  needed: number;
  needed_clustered: number | null;
}

export interface CompareResponse extends Envelope {
  how: string;
  table: ComparedTable;
  caution: string;
  pictures: DrawnPicture[];
  document: GivenFile | null;
  files: string[];
  rows?: ComparedRow[];
  eigenvalues?: number[];
  inertia_shares?: number[];
  inertia?: number;
  chi_square?: number | null;
  df?: number;
  p?: number | null;
  columns?: Point[];
  supplementary_rows?: Point[];
  supplementary_columns?: Point[];
  arch?: number | null;
  arch_note?: string;
  dates?: AxisDates | null;
  labels?: string[];
  matrix?: number[][];
  p_matrix?: ((number | null)[])[];
  draws?: number;
  order?: string[];
  anti_robinson_events?: number;
  events_possible?: number;
  method?: string;
  tried?: OrderFound[];
  stability?: Placing[];
  agreement?: number | null;
  resamples?: number;
  types?: string[];
  bars?: Bars[];
  common_n?: number | null;
  size_correlation?: number | null;
  note?: string;
  merges?: Merge[];
  linkage?: string;
  linkage_note?: string;
  distance?: string;
  cophenetic?: number | null;
  cut?: Member[];
  silhouette?: number | null;
  adjusted_rand?: number | null;
  within?: number | null;
  total?: number | null;
  starts?: number | null;
  reached?: number | null;
  silhouette_by_k?: (number | null)[];
  pseudo_counts?: number[][];
  n_effective?: number[];
  families?: number[];
  expected?: number[][];
  adjusted_residuals?: number[][];
  g_square?: number;
  g_p?: number;
  chi_square_yates?: number | null;
  p_yates?: number | null;
  cramers_v?: number;
  least_expected?: number;
  expected_below_5?: number;
  merge_suggestion?: string[];
  merged?: string[];
  drivers?: Driver[];
  p_shuffled?: number | null;
  shuffles?: number;
  shares?: Share[];
  log_linear?: LogLinear | null;
  groups?: FallOffGroup[];
  places?: FallOffPlace[];
  zeros_note?: string;
  source?: [number, number] | null;
  map_unit?: string;
  breakage_rows?: BreakageRow[];
  breakage_total?: BreakageRow;
  residuality_rows?: ResidualityRow[];
  residuality_total?: ResidualityRow;
  nodes?: JoinNode[];
  links?: JoinLink[];
  joins?: number;
  between?: number;
  possible?: number;
  cohesion?: number | null;
  modularity?: number | null;
  components?: number;
  vessels_across?: number;
  ranked?: KeyGroup[];
  weights?: Record<string, string>;
  site_mean_weight_g?: number;
  share?: number;
  simple_n?: number;
  population?: number | null;
  finite_n?: number | null;
  same_vessel?: number | null;
  sherds_per_vessel?: number | null;
  design_effect?: number | null;
  effective_n?: number | null;
  clustered_n?: number | null;
  sample_curve?: SampleStep[];
  sample_shares?: SampleShare[];
}

export interface PublishedRequest {
  /** the site, where the store holds several */
  site?: string;
}

export interface PublishedTotal {
  code: string;
  amount: number;
}

export interface PublishedAssemblage {
  assemblage: string;
  field: string;
  measure: string;
  source: string;
  rounded_to: number;
  totals: PublishedTotal[];
  notes: string;
  east: number | null;
  north: number | null;
  degrees: boolean;
}

export interface PublishedResponse extends Envelope {
  assemblages: PublishedAssemblage[];
}

export interface AddPublishedRequest {
  /** a table: assemblage, measure, source, code, amount; also field (fabric unless said), rounded_to, notes, east and north (or longitude and latitude); a row a type */
  from_file?: string;
  /** the same as text, with commas or tabs */
  table?: string;
  /** an assemblage to take out */
  remove?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface AddPublishedResponse extends Envelope {
  added: string[];
  replaced: string[];
  same: string[];
  removed: string[];
}

export interface DateRequest {
  /** the conventional dates: terminus post quem, spot range, mean date, apportioned curve */
  only_spot?: boolean;
  /** this context only, by its own pottery alone */
  context?: string;
  /** with --context: also with what its relations carry to it, for which the whole record is read */
  in_sequence?: boolean;
  /** without curves, mean dates and the records that a spot range or a residual share rests on */
  brief?: boolean;
  /** years a bin of the apportioned curves (25 unless said) */
  bin?: number | null;
  /** what weights mean dates and is apportioned: count (unless said), weight_g, vessels or eve */
  measure?: string;
  /** how a ware's making is spread over its years: flat (unless said), trapezoid or popularity */
  curve?: string;
  /** first and last year looked at, such as -50:450 */
  window?: string;
  /** what holds the contexts together: none, site (unless said) or phases */
  limits?: string;
  /** a file (JSON) with numbers of the model other than ours */
  settings?: string;
  /** keep the dates in sequence in the store: diagram and recording then show them */
  keep?: boolean;
  /** LATER>EARLIER: how likely it is that the first is the later; may be given again */
  pair?: string[];
  /** chains of draws side by side (4 unless said) */
  chains?: number | null;
  /** the most draws of a chain (20,000 unless said) */
  draws?: number | null;
  /** the seed of draws and of the mean date's resampling (1 unless said) */
  seed?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface OwnDate {
  earliest: number | null;
  latest: number | null;
  reason: string;
  confidence: string;
}

export interface TerminusAnswer {
  year: number | null;
  because: string;
  own: number | null;
  carried: boolean;
  from: string;
  record: string;
  via: string;
}

export interface Spot {
  earliest: number | null;
  latest: number | null;
  single: boolean;
  vessels: number;
  of: number;
  records: string[];
  because: string;
  warnings: string[];
}

export interface MeanDate {
  year: number | null;
  sd: number | null;
  low95: number | null;
  high95: number | null;
  dated: number;
  undated: number;
  undated_kinds: string[];
  undated_share: number | null;
  unit: string;
  units: number;
}

export interface Bin {
  from: number;
  to: number;
  value: number;
}

export interface YearsOfMaking {
  earliest: number | null;
  latest: number | null;
  vessels: number;
}

export interface BracketLevel {
  share: number;
  needed: number;
  side_by_side: boolean;
  years: YearsOfMaking[];
}

export interface Bracket {
  vessels: number;
  levels: BracketLevel[];
  steps: YearsOfMaking[];
  because: string;
  beside_terminus: string;
}

export interface ResidualAnswer {
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  count_share: number | null;
  weight_share: number | null;
  vessels_share: number | null;
  records: string[];
  expected: boolean;
}

export interface KeptLong {
  kept: "old_when_discarded" | "curated";
  record: string;
  years: number;
  because: string;
}

export interface DateSummary {
  median: number | null;
  range68: number[][];
  range95: number[][];
  density: Bin[];
}

export interface KindDate {
  name: string;
  earliest: number | null;
  latest: number | null;
  vessels: number;
  old_when_discarded: number;
  records: string[];
}

export interface GroupDate {
  earliest: number | null;
  latest: number | null;
  vessels: number;
  own: number | null;
  residual: number | null;
  intrusive: number | null;
  judged: "own" | "residual" | "intrusive" | null;
  influence: number | null;
  kinds: KindDate[];
}

export interface DateFlag {
  code: string;
  message: string;
  records: string[];
}

export interface KeptDate {
  context: string;
  printed: string;
  median: number | null;
  earliest: number | null;
  latest: number | null;
  strain: number | null;
  flags: string[];
}

export interface ContextDate {
  context: string;
  type: string;
  description: string;
  deposit: "use" | "dump" | "silting" | "make_up" | "cut" | "structure" | "mixed" | "unknown" | null;
  phase: string;
  lines: number;
  sherds: number | null;
  mine: OwnDate;
  terminus_post_quem: TerminusAnswer;
  spot: Spot;
  mean_date: MeanDate;
  apportioned: Bin[];
  apportioned_undated: number | null;
  bracket: Bracket | null;
  flags: string[];
  residual: ResidualAnswer;
  kept_long: KeptLong[];
  same_as: string[];
  printed: string;
  began: DateSummary | null;
  completed: DateSummary | null;
  alone_began: DateSummary | null;
  alone: DateSummary | null;
  not_intrusive: DateSummary | null;
  or_later_from: number | null;
  or_later: number | null;
  strain: number | null;
  groups: GroupDate[];
  other_grouping: GroupDate[];
  date_flags: DateFlag[];
  kept: KeptDate | null;
}

export interface PhaseDate {
  phase: string;
  title: string;
  area: string;
  earliest: number | null;
  latest: number | null;
  contexts: number;
  latest_terminus: number | null;
  start: DateSummary | null;
  finish: DateSummary | null;
  length: number | null;
  length95: number[];
}

export interface Stopped {
  context: string;
  year: number | null;
  from: string;
  record: string;
  reason: string;
}

export interface PairOrder {
  later: string;
  earlier: string;
  probability: number;
}

export interface SamplerReport {
  exact: boolean;
  converged: boolean;
  chains: number;
  draws: number;
  kept: number;
  worst_rhat: number;
  least_effective_draws: number;
  worst: string;
  seed: number;
}

export interface KeptState {
  change: number | null;
  stale: boolean;
  because: string[];
  version: string;
  settings_hash: string;
}

export interface DateResponse extends Envelope {
  measure: string;
  curve: string;
  bin: number;
  contexts: ContextDate[];
  phases: PhaseDate[];
  stopped: Stopped[];
  window: number[];
  pairs: PairOrder[];
  sampler: SamplerReport | null;
  kept: KeptState | null;
  kept_as: number | null;
}

export interface SensitivityRequest {
  /** contexts whose date moves by more years than this are listed (10 unless said) */
  years?: number | null;
  /** what holds the contexts together: none, site (unless said) or phases */
  limits?: string;
  /** a file (JSON) with the numbers from which to move */
  settings?: string;
  /** the seed of the draws (1 unless said) */
  seed?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface Variation {
  name: string;
  text: string;
  moved: number;
  most: number;
  most_in: string;
  converged: boolean;
}

export interface Move {
  variation: string;
  years: number;
  median: number | null;
}

export interface MovingContext {
  context: string;
  printed: string;
  median: number | null;
  moves: Move[];
}

export interface SensitivityResponse extends Envelope {
  years: number;
  contexts: number;
  variations: Variation[];
  moving: MovingContext[];
}

export interface StratigraphyRequest {
  /** draw the diagram into this file */
  svg?: string;
  /** put the diagram into the answer (SVG) */
  picture?: boolean;
  /** draw relations that follow from others, too, as thin lines */
  redundant?: boolean;
  /** draw this phase as one box; may be given again */
  fold?: string[];
  /** the site, where the store holds several */
  site?: string;
}

export interface RecordedRelation {
  later: string;
  kind: "later" | "above" | "below" | "cuts" | "cut_by" | "fills" | "filled_by" | "same_as" | "contemporary" | "abuts";
  earlier: string;
}

export interface Loop {
  contexts: string[];
  relations: RecordedRelation[];
  look_at: RecordedRelation[];
  because: string;
}

export interface RedundantRelation {
  relation: RecordedRelation;
  through: string;
}

export interface DoubtfulRelation {
  relation: RecordedRelation;
  later_side: number;
  earlier_side: number;
  because: string;
}

export interface SameGroup {
  contexts: string[];
  relations: RecordedRelation[];
}

export interface RelationTrouble {
  code: string;
  message: string;
  hint: string;
  contexts: string[];
  relations: RecordedRelation[];
}

export interface EffectiveTerminus {
  context: string;
  own: number | null;
  year: number | null;
  from: string;
  record: string;
  because: string;
  via: string;
  own_is_earlier: boolean;
  in_loop: boolean;
  incomplete: boolean;
  mixed: boolean;
}

export interface StratigraphyResponse extends Envelope {
  contexts: number;
  recorded: number;
  edges: RecordedRelation[];
  loops: Loop[];
  redundant: RedundantRelation[];
  repeated: RecordedRelation[];
  doubtful: DoubtfulRelation[];
  same: SameGroup[];
  apart: RecordedRelation[];
  contemporary: RecordedRelation[];
  abutments: RecordedRelation[];
  troubles: RelationTrouble[];
  termini: EffectiveTerminus[];
  dates: KeptState;
  file: string;
  picture: string;
}

export interface RephaseRequest {
  /** the stratigraphers' new table of relations: those that are not in it would go */
  relations?: string;
  /** their new table of contexts: the columns that it has are compared, contexts that are not in it stay */
  contexts?: string;
  /** their new table of phases, compared likewise */
  phases?: string;
  /** make it so, as one change that undo takes back */
  apply?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface RephasedValue {
  table: string;
  key: string;
  column: string;
  was: string;
  now: string;
}

export interface MovedDate {
  context: string;
  was: number | null;
  now: number | null;
  was_because: string;
  now_because: string;
}

export interface StaleIssue {
  name: string;
  because: string;
}

export interface RephaseResponse extends Envelope {
  problems: Problem[];
  relations_added: RecordedRelation[];
  relations_gone: RecordedRelation[];
  values: RephasedValue[];
  moved: MovedDate[];
  loops: Loop[];
  stale: StaleIssue[];
  change: number | null;
}

export interface SpotDatesRequest {
  /** the file to write: .html (prints on A4), .csv or .xlsx */
  out: string;
  /** number it and keep it; the next issue marks what changed */
  issue?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface SpotListChange {
  context: string;
  column: string;
  was: string;
  now: string;
}

export interface SpotDatesResponse extends Envelope {
  file: string;
  issue: number | null;
  contexts: number;
  changed: SpotListChange[];
}

export interface ReportRequest {
  /** the kind of report: 1 description, 2 appraisal, 3 full analysis */
  type: number;
  /** the file to write: .html, .docx, .pdf, .xlsx (every table), or .csv (one of them) */
  out: string;
  /** a name, such as draft-1: keep the report under it, so that later changes to its figures are told */
  issue?: string;
  /** of the fixed text: british (unless said) or american */
  spelling?: string;
  /** of a CSV: which table, such as fabric_by_phase */
  table?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReportNeed {
  section: string;
  what: string;
  table: string;
  command: string;
  room: string;
  slot: string;
}

export interface ReportResponse extends Envelope {
  file: string;
  annex: string;
  issue: string | null;
  missing: string[];
  needs: ReportNeed[];
  tables: number;
  figures: number;
}

export interface ReportCheckRequest {
  /** 1 description, 2 appraisal (unless said), 3 full analysis */
  type?: number | null;
  /** list every field that a text may hold, with its value */
  fields?: boolean;
  /** british (unless said) or american */
  spelling?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReportProblem {
  code: string;
  message: string;
  hint: string;
  text: string;
}

export interface ReportPart {
  id: string;
  name: string;
  caption: string;
  table: boolean;
  rows: number;
}

export interface ReportOutline {
  id: string;
  title: string;
  slots: string[];
  parts: ReportPart[];
}

export interface FieldRow {
  field: string;
  says: string;
  now: string;
}

export interface ReportCheckResponse extends Envelope {
  type: number;
  needs: ReportNeed[];
  problems: ReportProblem[];
  outline: ReportOutline[];
  field_list: FieldRow[];
}

export interface ReportFileRequest {
  /** 1, 2 or 3 */
  type: number;
  /** html, docx, pdf, xlsx or csv */
  give: string;
  /** british (unless said) or american */
  spelling?: string;
  /** of a CSV: which table */
  table?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReportFileResponse extends Envelope {
  document: GivenFile;
}

export interface ReportPreviewRequest {
  /** Markdown with fields */
  body: string;
  /** 1, 2 (unless said) or 3 */
  type?: number | null;
  /** british (unless said) or american */
  spelling?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReportPreviewResponse extends Envelope {
  html: string;
  problems: ReportProblem[];
}

export interface IssueReportRequest {
  /** 1, 2 or 3 */
  type: number;
  /** the name that it goes out under */
  name: string;
  /** british (unless said) or american */
  spelling?: string;
  /** the change's identity, so that the same one is not made twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface IssueReportResponse extends Envelope {
  name: string;
  figures: number;
}

export interface ErrataRequest {
  /** what has changed since this issue; all issues in short unless said */
  issue?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface IssuedReport {
  name: string;
  type: number;
  change: number;
  record: string;
  at: string;
  who: string;
  figures: number;
}

export interface Erratum {
  place: string;
  row: string;
  column: string;
  was: string;
  now: string;
}

export interface ErrataResponse extends Envelope {
  issues: IssuedReport[];
  errata: Erratum[];
}

export interface BibliographyTextRequest {
  /** BibTeX or CSL JSON */
  text: string;
  /** the change's identity, so that the same one is not made twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface WorkRow {
  citation: string;
  authors: string;
  year: string;
  title: string;
  what: string;
}

export interface BibliographyResponse extends Envelope {
  added: number;
  changed: number;
  same: number;
  works: WorkRow[];
  change: number | null;
}

export interface ImportReadingsRequest {
  /** the instrument's file: CSV, TSV, XLSX or ODS; a row a reading, a row an amount, a row a beam, or a column a sample */
  file: string;
  /** where the file says none: ppm, percent, or one by one, Fe=percent,Zr=ppm */
  units?: string;
  /** how many standard deviations the errors of the file are: 1, 2 or 3 */
  errors?: string;
  /** a table of limits of detection for cells that give none: columns analyte and limit, in the unit of the amounts */
  limits?: string;
  /** below: the instrument writes 0 for what it did not detect; kept as 0 unless said */
  zeros?: string;
  /** signs, such as "-.", of which the last in a sample's name parts the sherd from the number of its reading */
  cut?: string;
  /** put before the number of each reading, where the instrument counts from 1 every day */
  prefix?: string;
  /** a mapping file (JSON) that says which heading is which column of the readings */
  columns?: string;
  /** the sheet of a spreadsheet */
  sheet?: string;
  /** let the good readings in although others are refused */
  keep_good?: boolean;
  /** read a file whose bytes came in before */
  again?: boolean;
  /** tell how headings, units and sherds would be understood; change nothing */
  dry_run?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReadAnalyte {
  analyte: string;
  unit: string;
  unit_said: boolean;
  measured: number;
  below: number;
  above: number;
  missing: number;
  blank: number;
  zeros: number;
  without_limit: number;
  errors: number | null;
}

export interface TiedSample {
  sample: string;
  to: string;
  readings: number;
  before: number;
}

export interface ImportReadingsResponse extends Envelope {
  format: string;
  encoding: string;
  sheet: string;
  shape: string;
  rows_read: number;
  readings_read: number;
  readings_kept: number;
  readings_refused: number;
  amounts: number;
  censored: number;
  rule: string;
  headings: UnderstoodHeading[];
  lines_above: string[];
  analytes: ReadAnalyte[];
  samples: TiedSample[];
  problems: Problem[];
  document: string;
  oxide_total: number | null;
  change: number | null;
  change_uid: string;
}

export interface StandardsRequest {
  /** the site, where the store holds several */
  site?: string;
}

export interface OxidePart {
  oxide: string;
  percent: number;
}

export interface OxideTotal {
  percent: number;
  parts: OxidePart[];
  plausible: boolean | null;
  note: string;
}

export interface StandardValue {
  analyte: string;
  unit: string;
  value: number;
  uncertainty: number | null;
  uncertainty_kind: string;
  k: number | null;
  sd: number | null;
  status: string;
  known: string;
}

export interface StandardRow {
  standard: string;
  name: string;
  issuer: string;
  basis: string;
  expires_on: string;
  checked_by: string;
  source: string;
  readings: number;
  total: OxideTotal;
  flags: string[];
  values: StandardValue[];
}

export interface StandardsResponse extends Envelope {
  standards: StandardRow[];
}

export interface SamplesRequest {
  /** only thin_section, residue, chemistry or other */
  kind?: string;
  /** only those that are taken, sent, in (the result) or closed */
  state?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface CountedComponent {
  component: string;
  count: number;
  percent: number;
}

export interface SampleRow {
  sample: string;
  record: string;
  context: string;
  fabric: string;
  kind: string;
  question: string;
  technique: string;
  permission: string;
  laboratory: string;
  sent_on: string;
  received_on: string;
  result: string;
  remainder: string;
  returned_on: string;
  cost: string;
  state: string;
  readings: number;
  section: string;
  petro_group: string;
  section_fabric: string;
  points: number;
  components: CountedComponent[];
  flags: string[];
}

export interface SamplesResponse extends Envelope {
  samples: SampleRow[];
  taken: number;
  sent: number;
  in: number;
  closed: number;
}

export interface ChemistryRequest {
  /** components, clusters, membership, discriminant, variation, outliers, manova, dilution, origin, calibrate, drift, acceptance or fabrics */
  how: string;
  /** the groups: a column of the table; of a store chem_group (unless said), fabric, ware_group, petro_group, context or form */
  by?: string;
  /** log10 (unless said), clr, ilr, alr, closed or none */
  transform?: string;
  /** the elements or oxides to use, parted by commas; all that may be used unless said */
  analytes?: string[];
  /** ids to leave out, parted by commas */
  without?: string[];
  /** FIELD=VALUE: readings of the store that meet it, such as surface="fresh break"; may be given again */
  where?: string[];
  /** of a table: the column that names the rows (reading, sample, else the first of text) */
  id?: string;
  /** of columns that say none: ppm, percent, or Fe=percent,Zr=ppm */
  units?: string;
  /** of a store: means (of the readings of a sample, unless said) or single */
  readings?: string;
  /** where a cell is missing: refuse (unless said), samples or parts: which of them are left out */
  missing?: string;
  /** limits of detection for zeros and cells without one, such as CaO=0.01,MnO=0.001 */
  zeros?: string;
  /** share of its limit that is put in for an amount below it (0.65 unless said) */
  share?: number | null;
  /** alr: the part that all others are divided by */
  divisor?: string;
  /** only these groups, parted by commas */
  groups?: string[];
  /** origin: the sherds asked about, parted by commas; those without a group unless said */
  ask?: string[];
  /** probability below which a sherd is none of a group (0.01 unless said) */
  level?: number | null;
  /** membership and origin: on so many principal components instead of the analytes themselves */
  components?: number | null;
  /** clusters: average (unless said), single, complete, ward, ward-unsquared or k-means */
  linkage?: string;
  /** components and clusters: scaled (by each variable's standard deviation) or plain (unless said) */
  distance?: string;
  /** clusters: how many; as many as lie best apart unless said */
  cut?: number | null;
  /** k-means: random starts (200 unless said) */
  starts?: number | null;
  /** the seed of the starts (1 unless said) */
  seed?: number | null;
  /** discriminant: shares (of the groups among the samples, unless said) or equal */
  priors?: string;
  /** calibrate: ordinary (unless said), weighted, inverse (weights of 1/x), origin or both (errors in both) */
  line?: string;
  /** of a store: the check standard; amounts are corrected by its readings along the run */
  drift?: string;
  /** of a store: yes: amounts by the calibration; within: only those within the standards; no (unless said) */
  corrected?: string;
  /** the same as --out, for one figure */
  svg?: string;
  /** put the figures into the answer (SVG) */
  picture?: boolean;
  /** width of figures in mm, 84 to 400 (174 unless said) */
  width?: number | null;
  /** which figure is written or given, where there are several (the first unless said) */
  figure?: string;
  /** put a file into the answer, in base64: svg, pdf, png, csv or xlsx */
  give?: string;
  /** write this file: .svg, .pdf or .png for the figure, .csv or .xlsx for tables; may be given again */
  out?: string[];
  /** the site, where the store holds several */
  site?: string;
}

export interface ComposedTable {
  rows: number;
  readings: number;
  analytes: string[];
  unit: string;
  below: number;
  missing: number;
  zeros: number;
  groups_by: string;
  left_out: string[];
  analytes_left_out: string[];
  corrected: string;
  drift: string;
}

export interface CalibrationStandard {
  standard: string;
  certified: number;
  reported: number;
  certified_sd: number | null;
  reported_sd: number | null;
  n: number;
  residual: number;
  corrected: number;
  left_out_error_percent: number | null;
}

export interface Calibration {
  analyte: string;
  unit: string;
  line: string;
  a: number;
  b: number;
  se_a: number | null;
  se_b: number;
  r2: number | null;
  s: number;
  n: number;
  range: number[];
  p_slope: number | null;
  p_intercept: number | null;
  misfit: number | null;
  detection: number | null;
  determination: number | null;
  standards: CalibrationStandard[];
  warnings: string[];
}

export interface ChartPoint {
  reading: string;
  taken_at: string;
  place: number;
  value: number;
  sds: number;
  factor: number;
  flag: string;
}

export interface ControlChart {
  standard: string;
  analyte: string;
  unit: string;
  centre: number;
  sd: number;
  warn_low: number;
  warn_high: number;
  stop_low: number;
  stop_high: number;
  reference: number | null;
  drift_percent: number | null;
  p_drift: number | null;
  points: ChartPoint[];
}

export interface Acceptance {
  analyte: string;
  decision: string;
  decided_by: string;
  reasons: string[];
  r2: number | null;
  rsd_percent: number | null;
  error_percent: number | null;
  zeta: number | null;
  censored_percent: number | null;
  standards: number;
  readings: number;
  calibrated: string;
}

export interface FabricCell {
  fabric: string;
  group: string;
  samples: number;
  ids: string[];
}

export interface Disagreement {
  id: string;
  record: string;
  fabric: string;
  group: string;
  usual_group: string;
  of_fabric: number;
  in_usual: number;
}

export interface Replaced {
  part: string;
  below: number;
  zeros: number;
  share: number;
  least: number;
  most: number;
}

export interface Preparation {
  transform: string;
  unit: string;
  parts: string[];
  variables: string[];
  samples: number;
  left_out_samples: string[];
  left_out_parts: string[];
  zero_rule: string;
  replaced: Replaced[];
  closed_total: number | null;
  notes: string[];
}

export interface Score {
  id: string;
  group: string;
  record: string;
  values: number[];
}

export interface GroupEllipse {
  group: string;
  n: number;
  centre: [number, number];
  major: number;
  minor: number;
  angle_degrees: number;
}

export interface GroupMember {
  id: string;
  distance2: number;
  distance2_left_out: number;
  t2: number;
  f: number;
  probability: number;
}

export interface Outsider {
  id: string;
  distance2: number;
  t2: number;
  f: number;
  probability: number;
}

export interface GroupMembership {
  group: string;
  n: number;
  p: number;
  members: GroupMember[];
  outsiders: Outsider[];
}

export interface RefusedGroup {
  group: string;
  n: number;
  needed: number;
  reason: string;
  way_out: string;
}

export interface Candidate {
  group: string;
  probability: number;
  share: number;
}

export interface SampleMembership {
  id: string;
  record: string;
  group: string;
  candidates: Candidate[];
  verdict: string;
  words: string;
}

export interface GroupPair {
  a: string;
  b: string;
  distance2: number;
  t2: number;
  f: number;
  df1: number;
  df2: number;
  p: number;
}

export interface MeansTest {
  value: number;
  f: number;
  df1: number;
  df2: number;
  p: number;
}

export interface Assigned {
  id: string;
  record: string;
  group: string;
  left_out: string;
  posterior: number;
  scores: number[];
}

export interface OneVariable {
  variable: string;
  f: number;
  df1: number;
  df2: number;
  p: number;
  within_sd: number;
}

export interface VariationOf {
  group: string;
  n: number;
  total: number;
  tau: number[][];
  tau_by_part: Record<string, number>;
  share_by_part: Record<string, number>;
  order: string[];
  information: number;
  evenness: number;
  reading: string;
}

export interface OddCell {
  id: string;
  record: string;
  group: string;
  part: string;
  value: number;
  expected: [number, number];
  scale: string;
  t: number;
  df: number;
  p: number;
  p_adjusted: number;
  words: string;
}

export interface OddSample {
  id: string;
  record: string;
  group: string;
  distance2_left_out: number;
  p: number;
  p_adjusted: number;
}

export interface Diluted {
  id: string;
  record: string;
  group: string;
  against: string;
  factor: number;
  misfit_before: number;
  misfit_after: number;
  words: string;
}

export interface OriginPlace {
  group: string;
  name: string;
  east: number | null;
  north: number | null;
  n: number;
}

export interface OriginOf {
  id: string;
  record: string;
  candidates: Candidate[];
  rejected: Candidate[];
  none_of_these: boolean;
  words: string;
}

export interface ChemistryResponse extends Envelope {
  how: string;
  caution: string;
  table: ComposedTable;
  calibrations: Calibration[];
  charts: ControlChart[];
  acceptance: Acceptance[];
  cells: FabricCell[];
  disagreements: Disagreement[];
  file: string;
  pictures: DrawnPicture[];
  document: GivenFile | null;
  files: string[];
  preparation: Preparation | null;
  variables?: string[];
  standardised?: boolean;
  eigenvalues?: number[];
  shares?: number[];
  means?: number[];
  sds?: number[];
  loadings?: number[][];
  scores?: Score[];
  ellipses?: GroupEllipse[];
  merges?: Merge[];
  labels?: string[];
  linkage?: string;
  linkage_note?: string;
  distance?: string;
  cophenetic?: number | null;
  cut?: Member[];
  silhouette?: number | null;
  adjusted_rand?: number | null;
  within?: number | null;
  total?: number | null;
  starts?: number | null;
  reached?: number | null;
  silhouette_by_k?: (number | null)[];
  level?: number;
  groups?: GroupMembership[];
  refused?: RefusedGroup[];
  samples?: SampleMembership[];
  pairs?: GroupPair[];
  notes?: string[];
  priors?: number[];
  coefficients?: number[][];
  trace_share?: number[];
  resubstitution?: number[][];
  left_out?: number[][];
  n?: number;
  right_resubstituted?: number;
  right_left_out?: number;
  by_chance?: number;
  pillai?: MeansTest;
  wilks?: MeansTest;
  assigned?: Assigned[];
  left_aside?: string[];
  group_means?: number[][];
  hotelling_lawley?: MeansTest;
  roy?: MeansTest;
  univariate?: OneVariable[];
  parts?: string[];
  tau?: number[][];
  tau_by_part?: Record<string, number>;
  share_by_part?: Record<string, number>;
  order?: string[];
  information?: number;
  evenness?: number;
  by_group?: VariationOf[];
  coarse?: string[];
  odd_cells?: OddCell[];
  odd_samples?: OddSample[];
  unjudged?: string[];
  diluted?: Diluted[];
  places?: OriginPlace[];
  sherds?: OriginOf[];
  none_of_these?: number;
}

export interface NotationRequest {
  /** the notation: date, mark, colour, firing, size, rounding, sorting, frequency or hardness */
  what: string;
  /** what is written, such as "L13-E14" or "10YR 5/4" */
  text: string;
  /** of a date: default, cco, object-id, ucsd, mid-30-70, quarters or edtf; of a grade: the name of its scale */
  style?: string;
  /** whose years the names of periods and reigns have in a date, such as pas */
  authority?: string;
  /** of a grade: the scale to convert to; else all that there are */
  to?: string;
}

export interface NotationAge {
  older: number;
  younger: number;
  sd: number | null;
}

export interface NotationAnswer {
  mark: string;
  reads: string;
  earliest: number | null;
  latest: number | null;
  on: string;
  dates: "vessel" | "design" | "stamp";
  nature: "limit" | "span" | "usual";
  source: string;
  known: "read" | "memory" | "calculated";
  likely: boolean;
  ruled_out: string;
}

export interface NotationColour {
  reads: string;
  x: number | null;
  y: number | null;
  Y: number | null;
  srgb: string;
  words: string;
  in_gamut: boolean;
  interpolated: boolean;
}

export interface NotationZone {
  zone: string;
  firing: string;
}

export interface NotationGrade {
  scale: string;
  version: string;
  reads: string;
  low: number | null;
  high: number | null;
  unit: string;
  exact: boolean;
  loss: string;
}

export interface NotationResponse extends Envelope {
  text: string;
  reads: string;
  earliest: number | null;
  latest: number | null;
  certainty: "sure" | "probable" | "possible";
  circa: boolean;
  style: string;
  because: string[];
  what: string;
  kind: string;
  edtf: string;
  period_authority: string;
  lab: string;
  probability: number | null;
  age: NotationAge | null;
  readings: NotationAnswer[];
  not_said: string[];
  colour: NotationColour | null;
  colour_to: NotationColour | null;
  zones: NotationZone[];
  grade: NotationGrade | null;
  phi_low: number | null;
  phi_high: number | null;
  also: NotationGrade[];
}

export interface WhenRequest {
  /** KEY=VALUE of what is seen, any number of them: ware, fabric, form, decoration, technique, edge, body, firing, mark, legend, lattice_angle, bore, print_colour, region */
  seen: string[];
  /** a store, whose own rows and marks count, too */
  in?: string;
  /** FROM:TO: consider these years only, such as 1700:1900 */
  window?: string;
  /** years by which a span may be wrong at its ends (10 unless said) */
  shoulders?: number | null;
  /** a file for the drawing of the years and the evidence */
  svg?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface WhenReason {
  evidence: string;
  earliest: number | null;
  latest: number | null;
  source: string;
  basis: "made" | "arrived" | "deposited";
  nature: "limit" | "span" | "usual";
  known: "read" | "memory" | "calculated" | null;
  weight: number;
  of_store: boolean;
  note: string;
}

export interface WhenDrop {
  evidence: string[];
  earliest: number | null;
  latest: number | null;
}

export interface WhenConflict {
  code: string;
  message: string;
  evidence: string[];
  sources: string[];
  drop: WhenDrop[];
}

export interface WhenAlternative {
  ware: string;
  earliest: number | null;
  latest: number | null;
  rests_on: string[];
}

export interface TellingAnswer {
  value: string;
  share: number;
  earliest: number | null;
  latest: number | null;
  most_likely: number[];
}

export interface Telling {
  key: string;
  bits: number;
  answers: TellingAnswer[];
}

export interface WhenNote {
  evidence: string;
  text: string;
  source: string;
}

export interface MemoryEnd {
  end: string;
  year: number | null;
  without: number | null;
  evidence: string[];
}

export interface WhenCandidate {
  key: string;
  asked: string;
  value: string;
  share: number;
  rows: number;
  lines: number;
  earliest: number | null;
  latest: number | null;
  source: string;
}

export interface WhenResponse extends Envelope {
  seen: string[];
  statement: string;
  earliest: number | null;
  latest: number | null;
  range68: number[][];
  range95: number[][];
  most_likely: number[] | null;
  because: WhenReason[];
  use_limits: WhenReason[];
  conflicts: WhenConflict[];
  alternatives: WhenAlternative[];
  next: Telling[];
  look_alikes: WhenNote[];
  notes: WhenNote[];
  rests_on_memory: MemoryEnd[];
  candidates: WhenCandidate[];
  silent: string[];
  window: number[];
  density: Bin[];
  file: string | null;
}

export interface EvidenceRequest {
  /** KEY=VALUE: rows that ask for it, such as ware=creamware; may be given again; KEY= is blank */
  where?: string[];
  /** the known values of one key, such as edge, in place of the rows */
  values?: string;
  /** the store's own rows only */
  own?: boolean;
  /** what the store has retired, in place of what holds */
  retired?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface EvidenceChange {
  change: number;
  at: string;
  who: string;
  command: string;
  column: string;
  was: string;
  now: string;
}

export interface EvidenceEntry {
  seen: Record<string, string>;
  earliest: number | null;
  latest: number | null;
  full_from: number | null;
  full_to: number | null;
  nature: "limit" | "span" | "usual";
  basis: "made" | "arrived" | "deposited";
  reference: string;
  known: "read" | "memory" | "calculated" | null;
  quality: string;
  look_alikes: string;
  notes: string;
  from: string;
  change: number | null;
  history: EvidenceChange[];
}

export interface EvidenceResponse extends Envelope {
  total: number;
  known: number;
  own: number;
  replaced: number;
  retired: number;
  values: string[];
  rows: EvidenceEntry[];
}

export interface SeriesRequest {
  /** the site, where the store holds several */
  site?: string;
}

export interface SeriesAmount {
  lines: number;
  count: number | null;
  weight_g: number | null;
}

export interface TreeRow {
  fabric: string;
  depth: number;
}

export interface WareGroup {
  ware_group: string;
  amount: SeriesAmount;
  rows: TreeRow[];
}

export interface SeriesColour {
  zone: string;
  text: string;
  words: string;
  srgb: string;
  to_srgb: string;
  in_gamut: boolean;
}

export interface SeriesGrade {
  of: string;
  text: string;
  scale: string;
  measure: string;
  source: string;
  trouble: string;
}

export interface DateEntry {
  fabric: string;
  form: string;
  decoration: string;
  region: string;
  earliest: number | null;
  latest: number | null;
  full_from: number | null;
  full_to: number | null;
  basis: "made" | "arrived" | "deposited" | null;
  reference: string;
  uid: string;
  changed: number;
}

export interface InclusionEntry {
  fabric: string;
  inclusion: string;
  frequency: string;
  size_least_mm: number | null;
  size_most_mm: number | null;
  sorting: string;
  rounding: string;
  colour: string;
  scale: string;
  notes: string;
  uid: string;
  changed: number;
}

export interface EquivalentEntry {
  fabric: string;
  series: string;
  code: string;
  relation: "same" | "broader" | "narrower" | "overlaps" | null;
  said_by: string;
  reference: string;
  uid: string;
  changed: number;
}

export interface SpecimenEntry {
  specimen: string;
  fabric: string;
  form: string;
  record: string;
  place: string;
  notes: string;
  uid: string;
  changed: number;
}

export interface PictureEntry {
  picture: string;
  title: string;
  record: string;
  context: string;
  fabric: string;
  form: string;
  file: string;
  small_file: string;
  taken_on: string;
  taken_by: string;
  notes: string;
  uid: string;
  changed: number;
}

export interface FabricEntry {
  fabric: string;
  name: string;
  ware_group: string;
  variant_of: string;
  description: string;
  source_area: string;
  earliest: number | null;
  latest: number | null;
  basis: "made" | "arrived" | "deposited" | null;
  reference: string;
  status: string;
  hardness: string;
  feel: string;
  fracture: string;
  outside: string;
  core: string;
  inside: string;
  firing: string;
  uid: string;
  changed: number;
  lines: number;
  count: number | null;
  weight_g: number | null;
  firing_words: string;
  colours: SeriesColour[];
  grades: SeriesGrade[];
  variants: string[];
  dates: DateEntry[];
  inclusions: InclusionEntry[];
  equivalents: EquivalentEntry[];
  specimens: SpecimenEntry[];
  pictures: PictureEntry[];
}

export interface FormEntry {
  form: string;
  name: string;
  vessel_class: string;
  earliest: number | null;
  latest: number | null;
  basis: "made" | "arrived" | "deposited" | null;
  reference: string;
  status: string;
  uid: string;
  changed: number;
  lines: number;
  count: number | null;
  weight_g: number | null;
  dates: DateEntry[];
  specimens: SpecimenEntry[];
  pictures: PictureEntry[];
}

export interface DecorationEntry {
  decoration: string;
  name: string;
  technique: string;
  description: string;
  earliest: number | null;
  latest: number | null;
  basis: "made" | "arrived" | "deposited" | null;
  reference: string;
  status: string;
  uid: string;
  changed: number;
  lines: number;
  count: number | null;
  weight_g: number | null;
  dates: DateEntry[];
}

export interface SeriesResponse extends Envelope {
  tree: WareGroup[];
  fabrics: FabricEntry[];
  forms: FormEntry[];
  decorations: DecorationEntry[];
}

export interface IdentifyRequest {
  /** KEY=VALUE of what is seen under the lens: hardness, feel, fracture, outside, core, inside (colours), firing, inclusion="quartz, common, 0.3-0.8 mm, well sorted, subrounded" */
  seen?: string[];
  /** nothing is in the paste but what is named */
  only?: boolean;
  /** ATTRIBUTE=WEIGHT of hardness, feel, fracture, colour, firing, amount, size, sorting or rounding; may be given again */
  weight?: string[];
  /** candidates at most (10 unless said) */
  limit?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface KeyAgreement {
  key: string;
  seen: string;
  described: string;
  likeness: number;
  weight: number;
}

export interface KeyCandidate {
  fabric: string;
  name: string;
  ware_group: string;
  fit: number | null;
  heard: number;
  share: number;
  lines: number;
  agreements: KeyAgreement[];
  silent: string[];
}

export interface KeyAnswer {
  value: string;
  share: number;
  fabric: string;
}

export interface KeyLook {
  key: string;
  bits: number;
  answers: KeyAnswer[];
}

export interface IdentifyResponse extends Envelope {
  seen: string[];
  candidates: KeyCandidate[];
  fabrics: number;
  silent: number;
  bits: number;
  next: KeyLook[];
}

export interface RenameRequest {
  /** fabrics, forms or decorations */
  kind: string;
  /** the code as it is */
  from: string;
  /** the code as it is to be; no other may have it */
  into: string;
  /** show every value that would change, and change nothing */
  dry_run?: boolean;
  /** a name of the caller's own, 32 hexadecimal digits: the same again is not done twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface HistoryValue {
  table: string;
  id: string;
  column: string;
  was: string;
  now: string;
}

export interface CodeClash {
  table: string;
  id: string;
  column: string;
  from: string;
  into: string;
}

export interface PullLine {
  box: string;
  bag: string;
  context: string;
  record: string;
  count: number | null;
  weight_g: number | null;
  form: string;
  part: string;
  decoration: string;
  small_find: string;
  drawing: string;
}

export interface CodeChangeResponse extends Envelope {
  kind: string;
  from: string[];
  into: string;
  dry_run: boolean;
  change: number | null;
  rows: number;
  tables: Record<string, number>;
  values: HistoryValue[];
  clashes: CodeClash[];
  pull: PullLine[];
}

export interface MergeCodesRequest {
  /** fabrics, forms or decorations */
  kind: string;
  /** the code that stays */
  into: string;
  /** the codes that go, any number of them */
  from: string[];
  /** take the rows of the codes that go out; they are kept as retired unless said */
  drop?: boolean;
  /** where both say something of the same thing and differ, what the code that stays says stands */
  keep?: boolean;
  /** show every value that would change, and change nothing */
  dry_run?: boolean;
  /** a name of the caller's own, 32 hexadecimal digits: the same again is not done twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface SplitRequest {
  /** fabrics, forms or decorations */
  kind: string;
  /** the code that is split */
  from: string;
  /** the code that the chosen lines get; it is added where there is none. Without it, only the list of sherds to pull is made */
  into?: string;
  /** FIELD=VALUE: the lines that get it, such as form=jar; may be given again, FIELD= is blank */
  where?: string[];
  /** a line that gets it, by its number; may be given again */
  record?: string[];
  /** the name of a code that is added */
  name?: string;
  /** a fabric that is added is a variant of the one that is split */
  variant?: boolean;
  /** show every value that would change, and change nothing */
  dry_run?: boolean;
  /** a name of the caller's own, 32 hexadecimal digits: the same again is not done twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface CallsRequest {
  /** of this line */
  record?: string;
  /** of the lines that are this fabric now, or were it once */
  fabric?: string;
  /** likewise of a form */
  form?: string;
  /** likewise of a decoration */
  decoration?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface CallGroup {
  was: string;
  now: string;
  lines: number;
  change: number;
  at: string;
  who: string;
  command: string;
}

export interface LineCall {
  record: string;
  column: string;
  was: string;
  now: string;
  change: number;
  at: string;
  who: string;
  command: string;
}

export interface CallsResponse extends Envelope {
  groups: CallGroup[];
  calls: LineCall[];
}

export interface ExportRequest {
  /** which table: sherds, fabrics, inclusions ... */
  kind: string;
  /** the CSV file to write */
  out: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ExportResponse extends Envelope {
  kind: string;
  file: string;
  rows: number;
  columns: number;
}

export interface MeanDatesRequest {
  /** the table of assemblages: first column the label, then a column of counts for each type */
  table: string;
  /** the table of types: first column the name, then earliest and latest (or median) */
  dates: string;
  /** COLUMN=TYPE: that column's type goes by this name in the dates; may be given again */
  same?: string[];
  /** count types without dates as undated; they stop a row otherwise */
  undated?: boolean;
  /** resamples for the 95 % limits (1000 unless said) */
  resamples?: number | null;
  /** the seed of the resampling (1 unless said) */
  seed?: number | null;
}

export interface MeanDatesRow {
  label: string;
  amount: number;
  year: number | null;
  sd: number | null;
  low95: number | null;
  high95: number | null;
  dated: number;
  undated: number;
  undated_kinds: string[];
  undated_share: number | null;
  unit: string;
  units: number;
}

export interface MeanDatesResponse extends Envelope {
  types: number;
  dated_types: number;
  rows: MeanDatesRow[];
}

export interface StemBoresRequest {
  /** stems by bore in 64ths of an inch: 5=12,6=30,7=8 */
  counts: string;
  /** resamples for the 95 % limits (1000 unless said) */
  resamples?: number | null;
  /** the seed of the resampling (1 unless said) */
  seed?: number | null;
}

export interface BoreFormula {
  name: string;
  formula: string;
  known: string;
  year: number | null;
  low95: number | null;
  high95: number | null;
  caution: string;
}

export interface BorePeriod {
  from: number;
  to: number;
  share: number;
  similarity: number | null;
  known: string;
}

export interface StemBores {
  stems: number;
  mean: number;
  sd: number;
  formulas: BoreFormula[];
  periods: BorePeriod[];
  outside_table: number;
  cautions: string[];
}

export interface StemBoresResponse extends Envelope {
  bores: StemBores;
}

export interface RimPoint {
  /** which of several sherds of one rim */
  sherd?: string;
  /** mm */
  x: number;
  /** mm */
  y: number;
}

export interface RimReadingRequest {
  /** mm */
  chord?: number | null;
  /** mm */
  sagitta?: number | null;
  /** along the edge */
  points?: RimPoint[];
  /** standard deviation of one reading, mm */
  error?: number | null;
  /** of the chord, mm */
  chord_error?: number | null;
  /** of the class given below 5 %, mm */
  class_width?: number | null;
}

export interface DiameterClass {
  from_mm: number;
  to_mm: number | null;
}

export interface Place {
  x: number;
  y: number;
}

export interface Ovality {
  least_mm: number;
  greatest_mm: number;
  greatest_at_deg: number;
  p: number;
}

export interface RimPart {
  sherd: string;
  centre: Place | null;
  rim_percent: number;
  alone_diameter_mm: number;
  alone_low95_mm: number | null;
  alone_high95_mm: number | null;
}

export interface CircleFit {
  method: string;
  centre: Place;
  radius_mm: number;
  rms_mm: number;
}

export interface RimResponse extends Envelope {
  method: string;
  diameter_mm: number | null;
  low95_mm: number | null;
  high95_mm: number | null;
  diameter_class: DiameterClass | null;
  centre: Place | null;
  rim_percent: number;
  percent_low95: number;
  percent_high95: number;
  eve: number;
  reading_error_mm: number;
  rms_mm: number | null;
  points: number;
  effective_points: number | null;
  ovality: Ovality | null;
  one_rim_p: number | null;
  parts: RimPart[];
  fits: CircleFit[];
  notes: string[];
}

export interface PiecesRequest {
  /** only this piece, vessel or record */
  vessel?: string;
  /** with the points of the sections */
  outlines?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface SectionMeasures {
  height_mm: number;
  rim_diameter_mm: number | null;
  base_diameter_mm: number | null;
  greatest_diameter_mm: number | null;
  least_wall_mm: number | null;
  middle_wall_mm: number | null;
  greatest_wall_mm: number | null;
  outline_mm: number;
  conjectured_share: number;
  has_rim: boolean;
  has_base: boolean;
}

export interface SectionFinding {
  severity: string;
  code: string;
  message: string;
  hint: string;
  z_mm: number | null;
}

export interface OutlineEntry {
  r_mm: number;
  z_mm: number;
  conjectured: boolean;
}

export interface SectionView {
  section: string;
  measures: SectionMeasures;
  findings: SectionFinding[];
  outer: OutlineEntry[];
  inner: OutlineEntry[];
  handle: OutlineEntry[];
  handle_section: OutlineEntry[];
}

export interface PieceEntry {
  piece: string;
  vessel: string;
  record: string;
  context: string;
  fabric: string;
  form: string;
  part: string;
  technique: string;
  stance: string;
  rim_diameter_mm: number | null;
  rim_least_mm: number | null;
  rim_most_mm: number | null;
  diameter_certainty: string;
  rim_percent: number | null;
  base_diameter_mm: number | null;
  base_percent: number | null;
  handles: number | null;
  source: string;
  scale: string;
  picture: string;
  measured_by: string;
  measured_on: string;
  reference: string;
  notes: string;
  bands: number;
  errors: number;
  warnings: number;
  sections: SectionView[];
}

export interface PiecesResponse extends Envelope {
  pieces: PieceEntry[];
}

export interface PointGiven {
  /** outer (unless said), inner, handle or handle_section */
  side?: string;
  /** which of the piece's sections */
  section?: string;
  /** from the axis */
  r_mm: number;
  /** upwards */
  z_mm: number;
  /** the stretch that ends here was not seen */
  conjectured?: boolean;
}

export interface KeepSectionRequest {
  /** the piece that it is of; a new one is added */
  piece?: string;
  /** columns of the piece, as typed */
  values?: Record<string, string>;
  /** of every side, in their order */
  points: PointGiven[];
  /** set it up at this diameter of the rim, mm */
  rim_diameter?: number | null;
  /** turn it by so many degrees about its rim */
  tilt?: number | null;
  /** measure and check it, keep nothing */
  check_only?: boolean;
  /** 32 hexadecimal digits: the same change is not made twice */
  change?: string;
  /** what is done, for the history */
  label?: string;
  /** who records */
  who?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface SectionResponse extends Envelope {
  piece: string;
  kept: boolean;
  seq: number | null;
  sections: SectionView[];
}

export interface JoinPiecesRequest {
  /** the piece with the rim */
  upper: string;
  /** the piece below it */
  lower: string;
  /** the name of the piece that the two make */
  as: string;
  /** height of the whole, mm, where the two show no part of the wall together */
  height?: string;
  /** say how the two lie on each other, keep nothing */
  dry_run?: boolean;
  /** who records */
  who?: string;
  /** 32 hexadecimal digits: the same change is not made twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface JoinPiecesResponse extends Envelope {
  piece: string;
  overlapped: boolean;
  overlap_mm: number;
  conjectured_mm: number;
  gap_rms_mm: number | null;
  kept: boolean;
  seq: number | null;
  section: SectionView;
  upper_outer: OutlineEntry[];
  upper_inner: OutlineEntry[];
  lower_outer: OutlineEntry[];
  lower_inner: OutlineEntry[];
}

export interface RemoveSectionRequest {
  /** the piece whose section it is; it stays itself */
  piece: string;
  /** which of its sections, where it has several */
  name?: string;
  /** 32 hexadecimal digits: the same change is not made twice */
  change?: string;
  /** who records */
  who?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface RemoveSectionResponse extends Envelope {
  piece: string;
  section: string;
  points: number;
  seq: number;
}

export interface ClickPoint {
  /** pixels from the left */
  x: number;
  /** pixels from the top */
  y: number;
}

export interface TraceRequest {
  /** of the picture, pixels */
  width: number;
  /** of the picture, pixels */
  height: number;
  /** grey values row by row, a byte each, in base64 */
  pixels: string;
  /** places along the outline, in their order */
  clicks: ClickPoint[];
  /** line (unless said): its middle; edge: the border of dark */
  follow?: string;
  /** two places whose distance is known */
  scale?: ClickPoint[];
  /** that distance on the vessel */
  length_mm?: number | null;
  /** of the vessel's axis, pixels */
  axis_x?: number | null;
  /** of z 0, pixels; the foot of the picture where it is not given */
  base_y?: number | null;
  /** by which the drawing leans clockwise */
  turned_deg?: number | null;
  /** of the picture before it is looked at (1.5) */
  smoothing_px?: number | null;
}

export interface TraceResponse extends Envelope {
  points: Place[];
  clicks: Place[];
  clearness: number;
  mm_per_px: number | null;
  outline: OutlineEntry[];
}

export interface PieceCapacityRequest {
  /** the piece, vessel or record */
  vessel: string;
  /** filled to so many mm above the floor, not to the rim */
  fill?: string;
  /** measures in use then, historical years */
  year?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface CapacityErrors {
  section_ml: number;
  diameter_ml: number;
  stance_ml: number;
  asymmetry_ml: number | null;
}

export interface SectionVolume {
  section: string;
  capacity_ml: number;
}

export interface MeasureEntry {
  measure: string;
  region: string;
  holds_ml: number;
  times: number;
  near: boolean;
  earliest: number | null;
  latest: number | null;
  reference: string;
  known: string;
  notes: string;
}

export interface CapacityResponse extends Envelope {
  method: string;
  capacity_ml: number;
  low95_ml: number;
  high95_ml: number;
  sd_ml: number;
  litres: number;
  height_mm: number;
  level_mm: number;
  rim_diameter_mm: number;
  to_rim: boolean;
  slices: number;
  conjectured_share: number;
  sd_by_source: CapacityErrors;
  sections: SectionVolume[];
  piece: string;
  measures: MeasureEntry[];
}

export interface PieceMatchRequest {
  /** the piece that is looked for among the others */
  vessel: string;
  /** how far it may stand wrongly, degrees */
  tilt?: string;
  /** how far its distance from the axis may be wrong, percent */
  diameter?: string;
  /** how much larger or smaller a known vessel may be drawn, percent */
  size?: string;
  /** standard deviation of the gap that is expected, mm */
  gap?: string;
  /** how many places are told */
  most?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface MatchCandidate {
  form: string;
  piece: string;
  vessel: string;
  section: string;
  distance_mm: number;
  score: number;
  from_share: number;
  to_share: number;
  tilt_deg: number;
  diameter_change_percent: number;
  size_percent: number;
  fragment_outer: OutlineEntry[];
  fragment_inner: OutlineEntry[];
  known_outer: OutlineEntry[];
  known_inner: OutlineEntry[];
}

export interface FormScore {
  form: string;
  score: number;
}

export interface MatchResponse extends Envelope {
  compared: number;
  candidates: MatchCandidate[];
  forms: FormScore[];
  file: string;
  picture: string;
}

export interface DrawingRequest {
  /** the piece, vessel or record to draw */
  vessel: string;
  /** 1:1 to 1:10, such as 1:4 (which it is unless said) */
  scale?: string;
  /** of the section: left (unless said) or right */
  side?: string;
  /** of the section: solid, hatched, open; by its technique unless said */
  fill?: string;
  /** lines of what was not seen: dotted (unless said) or broken */
  conjecture?: string;
  /** of slip, paint and glaze: dots (unless said) or flat, in their colour */
  tint?: string;
  /** width of outlines as printed (0.35 unless said, 0.25 at least) */
  outline_mm?: string;
  /** width of all other lines (0.25 unless said) */
  line_mm?: string;
  /** no lines where the profile turns sharply */
  no_edges?: boolean;
  /** straight lines from point to point of the section */
  no_curve?: boolean;
  /** no diameter and sign of survival beneath */
  no_measures?: boolean;
  /** put files into the answer, in base64, in place of pictures: svg, pdf or png */
  give?: string;
  /** of a PNG: dots per inch (600 unless said) */
  dpi?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface DrawingResponse extends Envelope {
  picture: string;
  scale: string;
  piece: string;
  number: string;
  width_mm: number;
  height_mm: number;
  left_out: string[];
  documents: GivenFile[];
}

export interface PlatesRequest {
  /** of the journal's print area (135 unless said) */
  width_mm?: string;
  /** of the print area, the caption within (205 unless said) */
  height_mm?: string;
  /** between drawings, at least (5 unless said) */
  gap_mm?: string;
  /** what stands beneath; the scale is added */
  caption?: string;
  /** number of the first figure; the others count on */
  figure?: number | null;
  /** these drawings of the register, in its order; may be given again */
  only?: string[];
  /** every piece that has a section, by its name, without the register */
  pieces?: boolean;
  /** 1:1 to 1:10, such as 1:4 (which it is unless said) */
  scale?: string;
  /** of the section: left (unless said) or right */
  side?: string;
  /** of the section: solid, hatched, open; by its technique unless said */
  fill?: string;
  /** lines of what was not seen: dotted (unless said) or broken */
  conjecture?: string;
  /** of slip, paint and glaze: dots (unless said) or flat, in their colour */
  tint?: string;
  /** width of outlines as printed (0.35 unless said, 0.25 at least) */
  outline_mm?: string;
  /** width of all other lines (0.25 unless said) */
  line_mm?: string;
  /** no lines where the profile turns sharply */
  no_edges?: boolean;
  /** straight lines from point to point of the section */
  no_curve?: boolean;
  /** no diameter and sign of survival beneath */
  no_measures?: boolean;
  /** put files into the answer, in base64, in place of pictures: svg, pdf or png */
  give?: string;
  /** of a PNG: dots per inch (600 unless said) */
  dpi?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface PlatePage {
  page: number;
  file: string;
  picture: string;
  drawings: string[];
}

export interface NotDrawn {
  drawing: string;
  because: string;
}

export interface PlateResponse extends Envelope {
  pages: PlatePage[];
  not_drawn: NotDrawn[];
  left_out: string[];
  scale: string;
  width_mm: number;
  height_mm: number;
  documents: GivenFile[];
}

export interface RimChartFileRequest {
  /** A4 (unless said), A3 or A2, each across */
  paper?: string;
  /** the least diameter (40 unless said) */
  from_mm?: string;
  /** the greatest; as the paper allows unless said */
  to_mm?: string;
  /** between arcs, of diameter (10 unless said) */
  step_mm?: string;
  /** put files into the answer, in base64, in place of pictures: svg, pdf or png */
  give?: string;
  /** of a PNG: dots per inch (600 unless said) */
  dpi?: number | null;
}

export interface RimChartResponse extends Envelope {
  file: string;
  width_mm: number;
  height_mm: number;
  from_mm: number;
  to_mm: number;
  documents: GivenFile[];
}

export interface DrawingsRequest {
  /** only these: to_draw, sent, drawn, to_correct, checked or dropped */
  status?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface DrawingRow {
  drawing: string;
  catalogue: number | null;
  status: "to_draw" | "sent" | "drawn" | "to_correct" | "checked" | "dropped" | null;
  piece: string;
  record: string;
  context: string;
  fabric: string;
  form: string;
  rim_diameter_mm: number | null;
  rim_percent: number | null;
  section: boolean;
  reason: string;
  scale: string;
  illustrator: string;
  sent_on: string;
  drawn_on: string;
  checked_by: string;
  checked_on: string;
  corrections: string;
  plate: string;
  place: string;
  caption: string;
}

export interface StatusCount {
  status: string;
  drawings: number;
}

export interface DrawingsResponse extends Envelope {
  rows: DrawingRow[];
  counts: StatusCount[];
  questions: string[];
}

export interface RenumberRequest {
  /** catalogue (unless said: as they stand, gaps closed), context, fabric, form or drawing */
  order?: string;
  /** the first number (1 unless said) */
  first?: number | null;
  /** say what would change, change nothing */
  dry_run?: boolean;
  /** the change's identity, so that the same one is not made twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface Renumbered {
  drawing: string;
  was: number | null;
  now: number | null;
}

export interface RenumberResponse extends Envelope {
  renumbered: Renumbered[];
  numbered: number;
  change: number | null;
}

export interface BriefsRequest {
  /** put into the answer, in base64: pdf (unless said) or html */
  give?: string;
  /** these drawings of the register (those to draw and to correct unless said); may be given again */
  only?: string[];
  /** 1:1 to 1:10, such as 1:4 (which it is unless said) */
  scale?: string;
  /** of the section: left (unless said) or right */
  side?: string;
  /** of the section: solid, hatched, open; by its technique unless said */
  fill?: string;
  /** lines of what was not seen: dotted (unless said) or broken */
  conjecture?: string;
  /** of slip, paint and glaze: dots (unless said) or flat, in their colour */
  tint?: string;
  /** width of outlines as printed (0.35 unless said, 0.25 at least) */
  outline_mm?: string;
  /** width of all other lines (0.25 unless said) */
  line_mm?: string;
  /** no lines where the profile turns sharply */
  no_edges?: boolean;
  /** straight lines from point to point of the section */
  no_curve?: boolean;
  /** no diameter and sign of survival beneath */
  no_measures?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface BriefResponse extends Envelope {
  file: string;
  drawings: string[];
  documents: GivenFile[];
  missing: string[];
}

export interface LoansRequest {
  /** also what is back, used up or stays where it is */
  all?: boolean;
  /** the day on which to say what is overdue, YYYY-MM-DD; today unless said */
  on?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface LoanEntry {
  loan: string;
  uid: string;
  record: string;
  context: string;
  fabric: string;
  form: string;
  bag: string;
  box: string;
  count: number | null;
  of: number | null;
  purpose: "sample" | "drawing" | "photograph" | "display" | "type_series" | "handling" | "study" | "conservation" | null;
  reference: string;
  holder: string;
  place: string;
  taken_on: string;
  taken_by: string;
  due_on: string;
  standing: "out" | "back" | "used_up" | "kept" | "lost";
  returned_on: string;
  troubles: ("no_line" | "too_many" | "no_slip" | "overdue" | "no_day")[];
  message: string;
}

export interface LoansResponse extends Envelope {
  out: number;
  back: number;
  used_up: number;
  kept: number;
  lost: number;
  without_slip: number;
  overdue: number;
  loans: LoanEntry[];
}

export interface SelectionRequest {
  /** the site, where the store holds several */
  site?: string;
}

export interface SelectionRow {
  context: string;
  found: number | null;
  recorded: number;
  kept: number;
  deselected: number;
  undecided: number;
  deselected_before: number;
  unaccounted: number | null;
  weight_g: number;
  kept_weight_g: number;
  deselected_weight_g: number;
}

export interface SelectionReason {
  reason: string;
  disposal: string;
  decisions: number;
  sherds: number;
}

export interface SelectionTrouble {
  selection: string;
  record: string;
  context: string;
  message: string;
}

export interface SelectionResponse extends Envelope {
  reconciles: boolean;
  contexts: SelectionRow[];
  total: SelectionRow;
  reasons: SelectionReason[];
  troubles: SelectionTrouble[];
}

export interface BoxesRequest {
  /** write the box list into this file: .html, which prints on A4, or .csv */
  out?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface BoxEntry {
  box: string;
  contexts: string[];
  bags: string[];
  materials: string[];
  lines: number;
  sherds: number;
  weight_g: number;
  over: boolean;
  out: number;
}

export interface BoxesResponse extends Envelope {
  limit_g: number | null;
  limit_of: string;
  boxes: BoxEntry[];
  weight_g: number;
  over: number;
  without_box: number;
  file: string;
}

export interface LabelsRequest {
  /** bags, boxes, or slips for what is out of its bag */
  of: string;
  /** the file to write: .pdf; .svg and .png hold one sheet */
  out: string;
  /** of this box only */
  box?: string;
  /** which sheet goes into a .svg or .png, from 1 */
  page?: number | null;
  /** the first place of the first sheet that is still free, from 1 */
  start?: number | null;
  /** the site, where the store holds several */
  site?: string;
}

export interface LabelsResponse extends Envelope {
  file: string;
  labels: number;
  sheets: number;
  width_mm: number;
  height_mm: number;
  rules: string;
  codes: string[];
}

export interface DepositRequest {
  /** the day on which to say what is overdue, YYYY-MM-DD; today unless said */
  on?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface DepositResponse extends Envelope {
  ready: boolean;
  error_count: number;
  warning_count: number;
  note_count: number;
  out: number;
  boxes: number;
  over: number;
  deselected: number;
  undecided: number;
  findings: Finding[];
}

export interface ArchiveRequest {
  /** the folder to make, not there or empty; a name that ends in .zip makes a zip file */
  folder: string;
  /** make it although pictures that the record names are missing */
  incomplete?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface ArchiveFile {
  path: string;
  sha256: string;
  bytes: number;
}

export interface ArchiveResponse extends Envelope {
  folder: string;
  sha256: string;
  bytes: number;
  files: ArchiveFile[];
  missing: string[];
}

export interface PickListRequest {
  /** cooking, drinking, storage, dairy, health, light, trade, making, writing, colour or mending */
  theme?: string;
  /** Roman, medieval ..., C13, or years such as 1200-1400 */
  period?: string;
  /** handling: only what may be passed round; talk (unless said): what there is most to show of */
  for?: string;
  /** these lines, whatever else is asked; may be given again */
  record?: string[];
  /** at most so many (12 unless said) */
  most?: number | null;
  /** what is left out unless asked for by its word: human-remains, away, not-kept; may be given again */
  include?: string[];
  /** a file to write, too: .html, which prints on A4, or .csv */
  out?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface PublicCaution {
  caution: string;
  text: string;
}

export interface PublicObject {
  record: string;
  context: string;
  fabric: string;
  form: string;
  part: string;
  decoration: string;
  title: string;
  what: string[];
  when: string;
  how_known: string[];
  found: string;
  periods: string[];
  earliest: number | null;
  latest: number | null;
  themes: string[];
  sturdiness: "robust" | "careful" | "fragile";
  because: string[];
  cautions: PublicCaution[];
  tray: string;
  bag: string;
  box: string;
  away: string;
  count: number | null;
  weight_g: number | null;
  piece: string;
  photo: string;
  to_check: boolean;
  worth: number;
}

export interface PickLeftOut {
  because: string;
  lines: number;
}

export interface ThemeName {
  theme: string;
  title: string;
  lines: number;
}

export interface PickListResponse extends Envelope {
  objects: PublicObject[];
  left_out: PickLeftOut[];
  themes: ThemeName[];
  fitting: number;
  file: string;
}

export interface ObjectCardsRequest {
  /** cooking, drinking, storage, dairy, health, light, trade, making, writing, colour or mending */
  theme?: string;
  /** Roman, medieval ..., C13, or years such as 1200-1400 */
  period?: string;
  /** handling: only what may be passed round; talk (unless said): what there is most to show of */
  for?: string;
  /** these lines, whatever else is asked; may be given again */
  record?: string[];
  /** at most so many (12 unless said) */
  most?: number | null;
  /** what is left out unless asked for by its word: human-remains, away, not-kept; may be given again */
  include?: string[];
  /** A6, A4 or sheet */
  size?: string;
  /** of the pages */
  title?: string;
  /** the HTML of the pages instead of cards */
  pages?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface Readability {
  sentences: number;
  words: number;
  syllables: number;
  letters: number;
  grade: number;
  ease: number;
  letter_grade: number;
  age: number;
  long_words: string[];
}

export interface CardReading {
  record: string;
  title: string;
  reading: Readability;
  too_hard: boolean;
}

export interface ObjectCardsResponse extends Envelope {
  files: string[];
  objects: PublicObject[];
  left_out: PickLeftOut[];
  reading: Readability;
  readings: CardReading[];
  shortened: string[];
  pictures: string[];
  html: string;
}

export interface ShowKeyRequest {
  /** as it would be made now, not as it was kept last */
  fresh?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface KeyEntry {
  number: number;
  fabric: string;
  name: string;
  looks: string[];
  sherds: number;
}

export interface ShowKeyResponse extends Envelope {
  files: string[];
  key: number | null;
  pictures: KeyEntry[];
  share: number;
  pages: string[];
}

export interface KeepKeyRequest {
  /** fabrics to have a picture; the twelve commonest unless said */
  fabric?: string[];
  /** the site, where the store holds several */
  site?: string;
}

export interface KeyAnswersRequest {
  /** PICTURE:PIECES, PICTURE:PIECES:PART or PICTURE:PIECES:PART:GRAMS, any number of them; picture 0 is none of them; parts R, B, F and H, or in words */
  answers?: string[];
  /** where the pieces come from */
  context?: string;
  /** who answered: initials or a name */
  by: string;
  /** the bag that they lie in */
  bag?: string;
  /** a CSV of answers: picture, pieces, and as known context, bag, part, grams, noticed */
  from_file?: string;
  /** the number at the foot of the key (the newest unless said) */
  key?: number | null;
  /** the change's identity, so that the same one is not made twice */
  change?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface GlossaryRequest {
  /** a term, or part of one; all terms unless said */
  word?: string;
}

export interface GlossaryEntry {
  term: string;
  also: string[];
  meaning: string;
  source: string;
}

export interface GlossaryResponse extends Envelope {
  terms: GlossaryEntry[];
}

export interface CostSheetRequest {
  /** lines of this quote alone; of all unless said */
  quote?: string;
  /** amounts as the record has them now: its boxes, bags, weight, sherds, lines, vessels, samples, drawings; without estimates, what is still to record and to check by the rates */
  from_record?: boolean;
  /** the pace of recording as the history of this store measures it, in place of the rates' own */
  measured?: boolean;
  /** how an amount lies between its ends: triangular (unless said) or pert */
  shape?: string;
  /** percent of the draws between low and high (80 unless said) */
  share?: number | null;
  /** 20,000 unless said */
  draws?: number | null;
  /** of the draws (1 unless said) */
  seed?: number | null;
  /** a file to write, too: .html, which prints on A4, .csv or .xlsx */
  out?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface Spread {
  least: number;
  likely: number;
  most: number;
  mean: number;
  low: number;
  middle: number;
  high: number;
}

export interface LineEstimate {
  hours: Spread;
  money: Spread;
  outside: Spread;
}

export interface CostLine {
  estimate: string;
  stage: string;
  task: string;
  grade: string;
  basis: "boxes" | "bags" | "weight" | "sherds" | "lines" | "vessels" | "samples" | "drawings" | "days" | "fixed" | null;
  amount: number;
  sherds: number | null;
  pace: number | null;
  pace_from: string;
  rate_day: number | null;
  sum: LineEstimate;
  note: string;
}

export interface CostStage {
  stage: string;
  sum: LineEstimate;
  used_hours: number;
  left_hours: number | null;
  against: string;
}

export interface MeasuredPace {
  pace_low: number;
  pace_likely: number;
  pace_high: number;
  hours: number;
  lines_hour: number;
  days: number;
  sherds: number;
  lines: number;
}

export interface CostSheetResponse extends Envelope {
  quote: string;
  currency: string;
  quotes: string[];
  lines: CostLine[];
  stages: CostStage[];
  total: CostStage;
  measured: MeasuredPace | null;
  method: string;
  file: string;
}

export interface HistoryRequest {
  /** changes after this number */
  since?: number | null;
  /** one change, with every value it altered */
  change?: number | null;
}

export interface HistoryChange {
  seq: number;
  uid: string;
  at: string;
  who: string;
  origin: string;
  command: string;
  undoes: number | null;
  rows_added: number;
  rows_changed: number;
  rows_removed: number;
  values: HistoryValue[];
}

export interface HistoryResponse extends Envelope {
  changes: HistoryChange[];
}

export interface UndoRequest {
  /** the change's number, from history */
  change: number;
  /** 32 hexadecimal digits, made by whoever asks: the same undoing is not done twice */
  uid?: string;
  /** who takes it back, where it is not the one who runs the program */
  who?: string;
  /** refuse it where the change was made by anybody else */
  only_of?: string;
}

export interface BackupRequest {
  /** the backup to write; must not exist. With --keep: the folder of the backups */
  file: string;
  /** name the backup by date and time, keep the newest KEEP that are sound, remove older ones */
  keep?: number | null;
}

export interface BackupResponse extends Envelope {
  file: string;
  kept: string[];
  removed: string[];
  damaged: string[];
}

export interface RestoreRequest {
  /** the backup, or the folder or zip file of an archive */
  file: string;
}

export interface VerifyRequest {
  /** of an archive: the checksum that was noted when it was made */
  sha256?: string;
  /** of an archive: a store, to say what was done in it since */
  against?: string;
}

export interface ArchiveFault {
  path: string;
  what: string;
}

export interface VerifyResponse extends Envelope {
  damage: string[];
  files: ArchiveFault[];
  files_read: number;
  sha256: string;
  since: string[];
}

export interface CopyRequest {
  /** the copy to make; must not exist */
  file: string;
  /** how many record numbers the copy may give, for each site; 500 */
  lease?: number | null;
  /** lease numbers for this site alone */
  site?: string;
  /** what to call the copy in lists of conflicts; the file's name */
  name?: string;
}

export interface LeasedBlock {
  site: string;
  first: number;
  last: number;
}

export interface CopyResponse extends Envelope {
  file: string;
  name: string;
  change: number;
  leased: LeasedBlock[];
}

export interface MergeRequest {
  /** the copy, made with copy */
  file: string;
  /** say what would come of it; nothing is changed */
  dry_run?: boolean;
}

export interface ConflictEntry {
  id: number;
  site: string;
  table: string;
  row: string;
  column: string;
  sort: string;
  base: string;
  here: string;
  there: string;
  here_who: string;
  here_at: string;
  there_who: string;
  there_at: string;
  copy: string;
}

export interface MergeResponse extends Envelope {
  copy: string;
  dry_run: boolean;
  changes: number;
  passed_over: number;
  rows_added: number;
  rows_changed: number;
  rows_removed: number;
  conflicts: ConflictEntry[];
}

export interface ConflictsRequest {
  /** of this site alone */
  site?: string;
}

export interface ConflictsResponse extends Envelope {
  conflicts: ConflictEntry[];
}

export interface SettleRequest {
  /** the conflict's number, from conflicts */
  id: number;
  /** here, there, or the value that is right (=here and =there for those words) */
  take: string;
  /** refuse where it is not this value here by now */
  seen?: string;
}

export interface SettleResponse extends Envelope {
  conflict: ConflictEntry;
  change: number;
  left: number;
}

export interface ServeRequest {
  /** the port (8620 unless said); 0 lets the system choose */
  port?: number | null;
  /** an address of this machine, for others on the network (127.0.0.1 unless said) */
  bind?: string;
  /** the file of accounts (see account): everybody signs in; without it the address opens one browser */
  accounts?: string;
  /** so long without a request, and one has to sign in again (30 unless said; 720 at most) */
  idle_minutes?: number | null;
  /** a PEM file: connections are encrypted */
  certificate?: string;
  /** a PEM file: the certificate's private key */
  key?: string;
  /** lets others on the network read along: on one that is trusted, or behind a server that encrypts */
  without_tls?: boolean;
  /** how browsers reach it through another server, such as https://finds.example.org */
  origin?: string;
  /** the site, where the store holds several */
  site?: string;
}

export interface ServeResponse extends Envelope {
  store: string;
}

export interface DemoRequest {
  /** the folder to make (demo unless said); one that an earlier demo made is made anew */
  folder?: string;
  /** another seed gives another site of the same story */
  seed?: number | null;
}

export interface DemoImport {
  file: string;
  kind: string;
  rows_read: number;
  rows_kept: number;
  rows_refused: number;
  problems: string[];
}

export interface DemoScore {
  termini: number;
  termini_right: number;
  spots: number;
  spots_right: number;
  mean_error_years: number | null;
  mean_lag_years: number | null;
}

export interface DemoResponse extends Envelope {
  folder: string;
  store: string;
  site: string;
  title: string;
  imports: DemoImport[];
  check_errors: number;
  check_warnings: number;
  check_notes: number;
  planted: number;
  planted_mistakes: string[];
  tally: TallyResponseRow[];
  total: TallyRow;
  lists: string[];
  report: string;
  score: DemoScore;
}

export interface ChangeNews {
  seq: number;
  uid: string;
  at: string;
  who: string;
  command: string;
  undoes: number | null;
  rows_added: number;
  rows_changed: number;
  rows_removed: number;
}

export interface JobState extends Envelope {
  id: string;
  use_case: string;
  state: "running" | "done" | "failed" | "stopped";
  fraction: number;
  text: string;
  stale: boolean;
  stale_since: ChangeNews | null;
}

export interface FileResponse extends Envelope {
  name: string;
  mime: string;
  bytes: number;
  width: number;
  height: number;
  was_there: boolean;
}

/** What the workbench may ask for as a job: the use cases that read. */
export interface UseCases {
  "site": { request: SiteRequest; response: SiteResponse };
  "lines": { request: LinesRequest; response: LinesResponse };
  "rows": { request: RowsRequest; response: RowsResponse };
  "queue": { request: QueueRequest; response: QueueResponse };
  "find": { request: FindRequest; response: FindResponse };
  "similar": { request: SimilarRequest; response: SimilarResponse };
  "links": { request: LinksRequest; response: LinksResponse };
  "scan": { request: ScanRequest; response: ScanResponse };
  "progress": { request: ProgressRequest; response: ProgressResponse };
  "receive": { request: ReceiveRequest; response: ReceiveResponse };
  "check": { request: CheckRequest; response: CheckResponse };
  "tally": { request: TallyRequest; response: TallyResponse };
  "compare": { request: CompareRequest; response: CompareResponse };
  "published": { request: PublishedRequest; response: PublishedResponse };
  "date": { request: DateRequest; response: DateResponse };
  "sensitivity": { request: SensitivityRequest; response: SensitivityResponse };
  "stratigraphy": { request: StratigraphyRequest; response: StratigraphyResponse };
  "report-check": { request: ReportCheckRequest; response: ReportCheckResponse };
  "report-file": { request: ReportFileRequest; response: ReportFileResponse };
  "report-preview": { request: ReportPreviewRequest; response: ReportPreviewResponse };
  "errata": { request: ErrataRequest; response: ErrataResponse };
  "standards": { request: StandardsRequest; response: StandardsResponse };
  "samples": { request: SamplesRequest; response: SamplesResponse };
  "chemistry": { request: ChemistryRequest; response: ChemistryResponse };
  "read": { request: NotationRequest; response: NotationResponse };
  "when": { request: WhenRequest; response: WhenResponse };
  "evidence": { request: EvidenceRequest; response: EvidenceResponse };
  "series": { request: SeriesRequest; response: SeriesResponse };
  "identify": { request: IdentifyRequest; response: IdentifyResponse };
  "calls": { request: CallsRequest; response: CallsResponse };
  "stem-bores": { request: StemBoresRequest; response: StemBoresResponse };
  "pieces": { request: PiecesRequest; response: PiecesResponse };
  "piece-capacity": { request: PieceCapacityRequest; response: CapacityResponse };
  "piece-match": { request: PieceMatchRequest; response: MatchResponse };
  "drawing": { request: DrawingRequest; response: DrawingResponse };
  "plates": { request: PlatesRequest; response: PlateResponse };
  "rim-chart-file": { request: RimChartFileRequest; response: RimChartResponse };
  "drawings": { request: DrawingsRequest; response: DrawingsResponse };
  "briefs": { request: BriefsRequest; response: BriefResponse };
  "loans": { request: LoansRequest; response: LoansResponse };
  "selection": { request: SelectionRequest; response: SelectionResponse };
  "deposit": { request: DepositRequest; response: DepositResponse };
  "pick-list": { request: PickListRequest; response: PickListResponse };
  "object-cards": { request: ObjectCardsRequest; response: ObjectCardsResponse };
  "picture-key": { request: ShowKeyRequest; response: ShowKeyResponse };
  "glossary": { request: GlossaryRequest; response: GlossaryResponse };
  "cost-sheet": { request: CostSheetRequest; response: CostSheetResponse };
  "history": { request: HistoryRequest; response: HistoryResponse };
  "verify": { request: VerifyRequest; response: VerifyResponse };
  "conflicts": { request: ConflictsRequest; response: ConflictsResponse };
}

export type UseCaseName = keyof UseCases;

/** An answer that is none: the status and what the server says of it. */
export class ApiError extends Error {
  constructor(
    readonly status: number,
    readonly errors: ErrorEntry[],
    /** The whole answer, for what a use case says beside its errors: conflicts, problems. */
    readonly document: unknown = null,
  ) {
    super(errors[0]?.message ?? `The server answered ${status}.`);
    this.name = "ApiError";
  }
}

export interface CallOptions {
  signal?: AbortSignal;
}

type Given = string | number | boolean | string[] | null | undefined;

/** A request as the query of an address: a list repeats its name; what is null or undefined is left out. */
export function queryOf(request: object): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(request) as [string, Given][]) {
    if (value === null || value === undefined) continue;
    for (const one of Array.isArray(value) ? value : [value]) query.append(name, String(one));
  }
  const text = query.toString();
  return text === "" ? "" : `?${text}`;
}

/** One call; throws ApiError where the status is not 2xx. */
export async function call<T>(method: string, path: string, body?: object, options: CallOptions = {}): Promise<T> {
  const answer = await fetch(path, {
    method,
    credentials: "same-origin",
    headers: body === undefined ? {} : { "Content-Type": "application/json" },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const document = (await answer.json().catch(() => null)) as (T & { errors?: ErrorEntry[] }) | null;
  if (!answer.ok || document === null) throw new ApiError(answer.status, document?.errors ?? [], document);
  return document;
}

/** POST /api/tables: reads a table that comes with the request. */
export function tableGiven(request: GivenTableRequest, options?: CallOptions): Promise<ImportResponse> {
  return call("POST", "/api/tables", request, options);
}

/** GET /api/site: the project sheet and what the record holds so far. */
export function site(request: SiteRequest = {}, options?: CallOptions): Promise<SiteResponse> {
  return call("GET", "/api/site" + queryOf(request), undefined, options);
}

/** GET /api/lines: lists sherd lines. */
export function lines(request: LinesRequest = {}, options?: CallOptions): Promise<LinesResponse> {
  return call("GET", "/api/lines" + queryOf(request), undefined, options);
}

/** GET /api/rows: lists the rows of any table. */
export function rows(request: RowsRequest, options?: CallOptions): Promise<RowsResponse> {
  return call("GET", "/api/rows" + queryOf(request), undefined, options);
}

/** GET /api/queue: the contexts as work: how far the recording of each has got. */
export function queue(request: QueueRequest = {}, options?: CallOptions): Promise<QueueResponse> {
  return call("GET", "/api/queue" + queryOf(request), undefined, options);
}

/** GET /api/find: where a record, context, bag, box, mark or note is. */
export function find(request: FindRequest, options?: CallOptions): Promise<FindResponse> {
  return call("GET", "/api/find" + queryOf(request), undefined, options);
}

/** GET /api/similar: lines recorded before that are like this one. */
export function similar(request: SimilarRequest = {}, options?: CallOptions): Promise<SimilarResponse> {
  return call("GET", "/api/similar" + queryOf(request), undefined, options);
}

/** GET /api/links: the lines that joins and vessels tie to one, and the vessels they come to. */
export function links(request: LinksRequest, options?: CallOptions): Promise<LinksResponse> {
  return call("GET", "/api/links" + queryOf(request), undefined, options);
}

/** GET /api/scan: what a scan said of a context and lines do not account for yet. */
export function scan(request: ScanRequest, options?: CallOptions): Promise<ScanResponse> {
  return call("GET", "/api/scan" + queryOf(request), undefined, options);
}

/** GET /api/progress: how far the recording has got, and how long the rest may take. */
export function progress(request: ProgressRequest = {}, options?: CallOptions): Promise<ProgressResponse> {
  return call("GET", "/api/progress" + queryOf(request), undefined, options);
}

/** GET /api/receive: boxes and bags against the finds list. */
export function receive(request: ReceiveRequest = {}, options?: CallOptions): Promise<ReceiveResponse> {
  return call("GET", "/api/receive" + queryOf(request), undefined, options);
}

/** POST /api/edits: makes one change of any steps: adds, alters and removes rows. */
export function edits(request: EditsRequest, options?: CallOptions): Promise<EditsResponse> {
  return call("POST", "/api/edits", request, options);
}

/** GET /api/findings: checks the consistency of the whole record. */
export function check(request: CheckRequest = {}, options?: CallOptions): Promise<CheckResponse> {
  return call("GET", "/api/findings" + queryOf(request), undefined, options);
}

/** GET /api/tally: count, weight, vessels and EVE by any fields. */
export function tally(request: TallyRequest, options?: CallOptions): Promise<TallyResponse> {
  return call("GET", "/api/tally" + queryOf(request), undefined, options);
}

/** GET /api/comparison: compares assemblages of a store or of a table of counts. */
export function compare(request: CompareRequest, options?: CallOptions): Promise<CompareResponse> {
  return call("GET", "/api/comparison" + queryOf(request), undefined, options);
}

/** GET /api/published: lists the published assemblages that the store keeps. */
export function published(request: PublishedRequest = {}, options?: CallOptions): Promise<PublishedResponse> {
  return call("GET", "/api/published" + queryOf(request), undefined, options);
}

/** POST /api/published: keeps assemblages of other sites as they were published. */
export function addPublished(request: AddPublishedRequest = {}, options?: CallOptions): Promise<AddPublishedResponse> {
  return call("POST", "/api/published", request, options);
}

/** GET /api/dates: dates every context. */
export function date(request: DateRequest = {}, options?: CallOptions): Promise<DateResponse> {
  return call("GET", "/api/dates" + queryOf(request), undefined, options);
}

/** GET /api/sensitivity: which dates move when the assumptions behind them do. */
export function sensitivity(request: SensitivityRequest = {}, options?: CallOptions): Promise<SensitivityResponse> {
  return call("GET", "/api/sensitivity" + queryOf(request), undefined, options);
}

/** GET /api/stratigraphy: the order of the ground, reduced, checked and drawn. */
export function stratigraphy(request: StratigraphyRequest = {}, options?: CallOptions): Promise<StratigraphyResponse> {
  return call("GET", "/api/stratigraphy" + queryOf(request), undefined, options);
}

/** GET /api/report: what a report should say and the record does not, and where to enter it. */
export function reportCheck(request: ReportCheckRequest = {}, options?: CallOptions): Promise<ReportCheckResponse> {
  return call("GET", "/api/report" + queryOf(request), undefined, options);
}

/** GET /api/report-file: the report as a file within the answer. */
export function reportFile(request: ReportFileRequest, options?: CallOptions): Promise<ReportFileResponse> {
  return call("GET", "/api/report-file" + queryOf(request), undefined, options);
}

/** GET /api/report-preview: a text as it would stand in the report. */
export function reportPreview(request: ReportPreviewRequest, options?: CallOptions): Promise<ReportPreviewResponse> {
  return call("GET", "/api/report-preview" + queryOf(request), undefined, options);
}

/** POST /api/report-issues: keeps the report as it stands under a name. */
export function issueReport(request: IssueReportRequest, options?: CallOptions): Promise<IssueReportResponse> {
  return call("POST", "/api/report-issues", request, options);
}

/** GET /api/errata: which figures have changed since a report went out. */
export function errata(request: ErrataRequest = {}, options?: CallOptions): Promise<ErrataResponse> {
  return call("GET", "/api/errata" + queryOf(request), undefined, options);
}

/** POST /api/bibliographies: takes works into the bibliography. */
export function bibliographies(request: BibliographyTextRequest, options?: CallOptions): Promise<BibliographyResponse> {
  return call("POST", "/api/bibliographies", request, options);
}

/** GET /api/standards: reference materials, and what speaks against their values. */
export function standards(request: StandardsRequest = {}, options?: CallOptions): Promise<StandardsResponse> {
  return call("GET", "/api/standards" + queryOf(request), undefined, options);
}

/** GET /api/samples: the register of samples, and what came of each. */
export function samples(request: SamplesRequest = {}, options?: CallOptions): Promise<SamplesResponse> {
  return call("GET", "/api/samples" + queryOf(request), undefined, options);
}

/** GET /api/chemistry: composition of the clay, of a store or of a table. */
export function chemistry(request: ChemistryRequest, options?: CallOptions): Promise<ChemistryResponse> {
  return call("GET", "/api/chemistry" + queryOf(request), undefined, options);
}

/** GET /api/read: explains what people write, such as a date. */
export function read(request: NotationRequest, options?: CallOptions): Promise<NotationResponse> {
  return call("GET", "/api/read" + queryOf(request), undefined, options);
}

/** GET /api/when: dates one piece by what is seen on it, with the reasons. */
export function when(request: WhenRequest, options?: CallOptions): Promise<WhenResponse> {
  return call("GET", "/api/when" + queryOf(request), undefined, options);
}

/** GET /api/evidence: lists what is known that dates a piece, with its sources. */
export function evidence(request: EvidenceRequest = {}, options?: CallOptions): Promise<EvidenceResponse> {
  return call("GET", "/api/evidence" + queryOf(request), undefined, options);
}

/** GET /api/series: fabrics, forms and decorations with what is known of each. */
export function series(request: SeriesRequest = {}, options?: CallOptions): Promise<SeriesResponse> {
  return call("GET", "/api/series" + queryOf(request), undefined, options);
}

/** GET /api/identify: names a fabric by what is seen under the lens. */
export function identify(request: IdentifyRequest = {}, options?: CallOptions): Promise<IdentifyResponse> {
  return call("GET", "/api/identify" + queryOf(request), undefined, options);
}

/** POST /api/renames: gives a code of the series another name. */
export function rename(request: RenameRequest, options?: CallOptions): Promise<CodeChangeResponse> {
  return call("POST", "/api/renames", request, options);
}

/** POST /api/merges-of-codes: makes codes of the series one. */
export function mergeCodes(request: MergeCodesRequest, options?: CallOptions): Promise<CodeChangeResponse> {
  return call("POST", "/api/merges-of-codes", request, options);
}

/** POST /api/splits: gives some lines of a code another one, with the list of sherds to pull. */
export function split(request: SplitRequest, options?: CallOptions): Promise<CodeChangeResponse> {
  return call("POST", "/api/splits", request, options);
}

/** GET /api/calls: what lines were called before they were called what they are. */
export function calls(request: CallsRequest = {}, options?: CallOptions): Promise<CallsResponse> {
  return call("GET", "/api/calls" + queryOf(request), undefined, options);
}

/** GET /api/stem-bores: dates a sample of clay-pipe stems by their bores. */
export function stemBores(request: StemBoresRequest, options?: CallOptions): Promise<StemBoresResponse> {
  return call("GET", "/api/stem-bores" + queryOf(request), undefined, options);
}

/** POST /api/rim-readings: diameter and EVE of a rim. */
export function rimReading(request: RimReadingRequest = {}, options?: CallOptions): Promise<RimResponse> {
  return call("POST", "/api/rim-readings", request, options);
}

/** GET /api/pieces: what was measured of vessels, and what its checks found. */
export function pieces(request: PiecesRequest = {}, options?: CallOptions): Promise<PiecesResponse> {
  return call("GET", "/api/pieces" + queryOf(request), undefined, options);
}

/** POST /api/sections: measures, checks and keeps a section. */
export function sections(request: KeepSectionRequest, options?: CallOptions): Promise<SectionResponse> {
  return call("POST", "/api/sections", request, options);
}

/** POST /api/joined-sections: makes two pieces of one vessel one section. */
export function joinSections(request: JoinPiecesRequest, options?: CallOptions): Promise<JoinPiecesResponse> {
  return call("POST", "/api/joined-sections", request, options);
}

/** POST /api/removed-sections: takes a section out of the record. */
export function removeSection(request: RemoveSectionRequest, options?: CallOptions): Promise<RemoveSectionResponse> {
  return call("POST", "/api/removed-sections", request, options);
}

/** POST /api/traces: follows an outline on a picture between clicks. */
export function trace(request: TraceRequest, options?: CallOptions): Promise<TraceResponse> {
  return call("POST", "/api/traces", request, options);
}

/** GET /api/capacity: what a vessel of the record holds. */
export function pieceCapacity(request: PieceCapacityRequest, options?: CallOptions): Promise<CapacityResponse> {
  return call("GET", "/api/capacity" + queryOf(request), undefined, options);
}

/** GET /api/matches: the forms that a piece of the record is nearest to. */
export function pieceMatch(request: PieceMatchRequest, options?: CallOptions): Promise<MatchResponse> {
  return call("GET", "/api/matches" + queryOf(request), undefined, options);
}

/** GET /api/drawing: a vessel as it is published. */
export function drawing(request: DrawingRequest, options?: CallOptions): Promise<DrawingResponse> {
  return call("GET", "/api/drawing" + queryOf(request), undefined, options);
}

/** GET /api/plates: drawings on pages of a print area. */
export function plates(request: PlatesRequest = {}, options?: CallOptions): Promise<PlateResponse> {
  return call("GET", "/api/plates" + queryOf(request), undefined, options);
}

/** GET /api/rim-chart: a rim chart at true size. */
export function rimChartFile(request: RimChartFileRequest = {}, options?: CallOptions): Promise<RimChartResponse> {
  return call("GET", "/api/rim-chart" + queryOf(request), undefined, options);
}

/** GET /api/drawings: the register of drawings, and what it wants. */
export function drawings(request: DrawingsRequest = {}, options?: CallOptions): Promise<DrawingsResponse> {
  return call("GET", "/api/drawings" + queryOf(request), undefined, options);
}

/** POST /api/renumberings: numbers the catalogue of drawings anew. */
export function renumber(request: RenumberRequest = {}, options?: CallOptions): Promise<RenumberResponse> {
  return call("POST", "/api/renumberings", request, options);
}

/** GET /api/brief: the brief for the illustrator. */
export function briefs(request: BriefsRequest = {}, options?: CallOptions): Promise<BriefResponse> {
  return call("GET", "/api/brief" + queryOf(request), undefined, options);
}

/** GET /api/loans: what is out of its bag, and what has no slip. */
export function loans(request: LoansRequest = {}, options?: CallOptions): Promise<LoansResponse> {
  return call("GET", "/api/loans" + queryOf(request), undefined, options);
}

/** GET /api/selection: what is kept and what is not, and whether the counts come out. */
export function selection(request: SelectionRequest = {}, options?: CallOptions): Promise<SelectionResponse> {
  return call("GET", "/api/selection" + queryOf(request), undefined, options);
}

/** GET /api/deposit: what stands in the way of handing the archive over. */
export function deposit(request: DepositRequest = {}, options?: CallOptions): Promise<DepositResponse> {
  return call("GET", "/api/deposit" + queryOf(request), undefined, options);
}

/** GET /api/pick-list: objects for a talk or a handling box, where each is, what to mind. */
export function pickList(request: PickListRequest = {}, options?: CallOptions): Promise<PickListResponse> {
  return call("GET", "/api/pick-list" + queryOf(request), undefined, options);
}

/** GET /api/object-cards: object cards, or the pages. */
export function objectCards(request: ObjectCardsRequest = {}, options?: CallOptions): Promise<ObjectCardsResponse> {
  return call("GET", "/api/object-cards" + queryOf(request), undefined, options);
}

/** GET /api/picture-key: the pictures by which volunteers sort. */
export function pictureKey(request: ShowKeyRequest = {}, options?: CallOptions): Promise<ShowKeyResponse> {
  return call("GET", "/api/picture-key" + queryOf(request), undefined, options);
}

/** POST /api/picture-keys: numbers and keeps the pictures by which volunteers sort. */
export function pictureKeys(request: KeepKeyRequest = {}, options?: CallOptions): Promise<ShowKeyResponse> {
  return call("POST", "/api/picture-keys", request, options);
}

/** POST /api/key-answers: answers of volunteers as lines that are to be checked. */
export function keyAnswers(request: KeyAnswersRequest, options?: CallOptions): Promise<EditsResponse> {
  return call("POST", "/api/key-answers", request, options);
}

/** GET /api/glossary: terms of the trade in plain words. */
export function glossary(request: GlossaryRequest = {}, options?: CallOptions): Promise<GlossaryResponse> {
  return call("GET", "/api/glossary" + queryOf(request), undefined, options);
}

/** GET /api/cost-sheet: hours and cost by stage, and the hours used. */
export function costSheet(request: CostSheetRequest = {}, options?: CallOptions): Promise<CostSheetResponse> {
  return call("GET", "/api/cost-sheet" + queryOf(request), undefined, options);
}

/** GET /api/changes: who changed what, and when. */
export function history(request: HistoryRequest = {}, options?: CallOptions): Promise<HistoryResponse> {
  return call("GET", "/api/changes" + queryOf(request), undefined, options);
}

/** POST /api/undo: takes one change back. */
export function undo(request: UndoRequest, options?: CallOptions): Promise<HistoryResponse> {
  return call("POST", "/api/undo", request, options);
}

/** GET /api/verify: looks for damage in the store. */
export function verify(request: VerifyRequest = {}, options?: CallOptions): Promise<VerifyResponse> {
  return call("GET", "/api/verify" + queryOf(request), undefined, options);
}

/** GET /api/conflicts: lists what merging has left open, both sides of it. */
export function conflicts(request: ConflictsRequest = {}, options?: CallOptions): Promise<ConflictsResponse> {
  return call("GET", "/api/conflicts" + queryOf(request), undefined, options);
}

/** Keeps a picture: PNG, JPEG or WebP, by its bytes. The answer names the document for a row of pictures. */
export async function keepFile(picture: Blob, options: CallOptions = {}): Promise<FileResponse> {
  const answer = await fetch("/api/files", {
    method: "POST",
    credentials: "same-origin",
    headers: { "Content-Type": "application/octet-stream" },
    body: picture,
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const document = (await answer.json().catch(() => null)) as FileResponse | null;
  if (!answer.ok || document === null) throw new ApiError(answer.status, document?.errors ?? [], document);
  return document;
}

/** The address of a picture that was kept. */
export function fileAddress(name: string): string {
  return `/api/files?name=${encodeURIComponent(name)}`;
}

/** Starts a use case beside the requests; its events tell how far it is. */
export function startJob<U extends UseCaseName>(
  useCase: U,
  request: UseCases[U]["request"],
  options?: CallOptions,
): Promise<JobState> {
  return call("POST", "/api/jobs", { use_case: useCase, request }, options);
}

export function job(id: string, options?: CallOptions): Promise<JobState> {
  return call("GET", `/api/jobs/${encodeURIComponent(id)}`, undefined, options);
}

/** The answer of a job that is done; 409 before that. */
export function jobResult<U extends UseCaseName>(
  _useCase: U,
  id: string,
  options?: CallOptions,
): Promise<UseCases[U]["response"]> {
  return call("GET", `/api/jobs/${encodeURIComponent(id)}/result`, undefined, options);
}

/** Stops a job that runs; forgets one that does not. */
export function cancelJob(id: string, options?: CallOptions): Promise<JobState> {
  return call("DELETE", `/api/jobs/${encodeURIComponent(id)}`, undefined, options);
}

/** Events of a job: `progress` any number of times, then `done` once, each with a JobState. Returns what closes them. */
export function watchJob(id: string, seen: (state: JobState) => void, lost?: () => void): () => void {
  const events = new EventSource(`/api/jobs/${encodeURIComponent(id)}/events`);
  const told = (event: MessageEvent<string>): void => seen(JSON.parse(event.data) as JobState);
  events.addEventListener("progress", told);
  events.addEventListener("done", (event) => {
    events.close();
    told(event);
  });
  events.addEventListener("error", () => {
    if (events.readyState === EventSource.CLOSED) lost?.();
  });
  return () => events.close();
}
