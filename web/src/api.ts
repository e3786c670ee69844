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
  /** what its rows are: contexts, relations, phases, fabrics, forms, dates, sherds, rims or joins */
  as: string;
  /** a mapping file (JSON) that says which heading is which column */
  columns?: string;
  /** let the good rows in although others are refused */
  keep_good?: boolean;
  /** add contexts, fabrics and forms that the store does not know, as provisional */
  new_codes?: boolean;
  /** match rows by their key and apply every difference */
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
  problems: Problem[];
  unknown: Record<string, Record<string, number>>;
  totals: ImportTotals;
  differences: ImportDifference[];
  mapping: string;
  change: number | null;
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
}

export interface LinesResponse extends Envelope {
  total: number;
  lines: RecordLine[];
}

export interface CheckRequest {
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
  /** the fields to count by, with commas: fabric,context.phase; also fabric.ware_group, extra.COLUMN */
  by: string[];
  /** FIELD=VALUE: count these lines only; may be given again */
  where?: string[];
  /** 95 % intervals from this many resamples */
  intervals?: number | null;
  /** the seed of the resampling (1 unless said) */
  seed?: number | null;
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

export interface TallyResponse extends Envelope {
  by: string[];
  rows: TallyResponseRow[];
  total: TallyRow;
  intervals: IntervalNote | null;
}

export interface DateRequest {
  /** the conventional dates: terminus post quem, spot range, mean date, apportioned curve */
  only_spot?: boolean;
  /** years a bin of the apportioned curves (25 unless said) */
  bin?: number | null;
  /** the seed of the mean date's resampling (1 unless said) */
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
}

export interface Bin {
  from: number;
  to: number;
  value: number;
}

export interface Residual {
  count: number | null;
  weight_g: number | null;
  vessels: number | null;
  count_share: number | null;
  weight_share: number | null;
  vessels_share: number | null;
  records: string[];
}

export interface ContextDate {
  context: string;
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
  flags: string[];
  residual: Residual;
}

export interface PhaseDate {
  phase: string;
  title: string;
  area: string;
  earliest: number | null;
  latest: number | null;
  contexts: number;
  latest_terminus: number | null;
}

export interface Stopped {
  context: string;
  year: number | null;
  from: string;
  record: string;
  reason: string;
}

export interface DateResponse extends Envelope {
  measure: string;
  bin: number;
  contexts: ContextDate[];
  phases: PhaseDate[];
  stopped: Stopped[];
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
  /** the kind of report: 2, an appraisal */
  type: number;
  /** the file to write: .html, which prints on A4 */
  out: string;
  /** number it and keep it in the store */
  issue?: boolean;
  /** the site, where the store holds several */
  site?: string;
}

export interface ReportResponse extends Envelope {
  file: string;
  issue: number | null;
  missing: string[];
}

export interface NotationRequest {
  /** the notation: date */
  what: string;
  /** what is written, such as "L13-E14" */
  text: string;
  /** the date style: default, cco, object-id, ucsd or mid-30-70 */
  style?: string;
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
}

export interface HistoryRequest {
  /** changes after this number */
  since?: number | null;
  /** one change, with every value it altered */
  change?: number | null;
}

export interface HistoryValue {
  table: string;
  id: string;
  column: string;
  was: string;
  now: string;
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
}

export interface BackupRequest {
  /** the backup to write; must not exist */
  file: string;
}

export interface BackupResponse extends Envelope {
  file: string;
}

export interface RestoreRequest {
  /** the backup */
  file: string;
}

export interface ServeRequest {
  /** the port (8620 unless said); 0 lets the system choose */
  port?: number | null;
  /** an address of this machine, for others on the network (127.0.0.1 unless said); they read along unencrypted */
  bind?: string;
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

export interface Score {
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
  score: Score;
}

export interface JobState extends Envelope {
  id: string;
  use_case: string;
  state: "running" | "done" | "failed" | "stopped";
  fraction: number;
  text: string;
}

/** What the workbench may ask for: the use cases that read. What writes is done by its command. */
export interface UseCases {
  "site": { request: SiteRequest; response: SiteResponse };
  "lines": { request: LinesRequest; response: LinesResponse };
  "check": { request: CheckRequest; response: CheckResponse };
  "tally": { request: TallyRequest; response: TallyResponse };
  "date": { request: DateRequest; response: DateResponse };
  "read": { request: NotationRequest; response: NotationResponse };
  "history": { request: HistoryRequest; response: HistoryResponse };
}

export type UseCaseName = keyof UseCases;

/** An answer that is none: the status and what the server says of it. */
export class ApiError extends Error {
  constructor(
    readonly status: number,
    readonly errors: ErrorEntry[],
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
  if (!answer.ok || document === null) throw new ApiError(answer.status, document?.errors ?? []);
  return document;
}

/** GET /api/site: the project sheet and what the record holds so far. */
export function site(request: SiteRequest = {}, options?: CallOptions): Promise<SiteResponse> {
  return call("GET", "/api/site" + queryOf(request), undefined, options);
}

/** GET /api/lines: lists sherd lines. */
export function lines(request: LinesRequest = {}, options?: CallOptions): Promise<LinesResponse> {
  return call("GET", "/api/lines" + queryOf(request), undefined, options);
}

/** GET /api/findings: checks the consistency of the whole record. */
export function check(request: CheckRequest = {}, options?: CallOptions): Promise<CheckResponse> {
  return call("GET", "/api/findings" + queryOf(request), undefined, options);
}

/** GET /api/tally: count, weight, vessels and EVE by any fields. */
export function tally(request: TallyRequest, options?: CallOptions): Promise<TallyResponse> {
  return call("GET", "/api/tally" + queryOf(request), undefined, options);
}

/** GET /api/dates: dates every context. */
export function date(request: DateRequest = {}, options?: CallOptions): Promise<DateResponse> {
  return call("GET", "/api/dates" + queryOf(request), undefined, options);
}

/** GET /api/read: explains what people write, such as a date. */
export function read(request: NotationRequest, options?: CallOptions): Promise<NotationResponse> {
  return call("GET", "/api/read" + queryOf(request), undefined, options);
}

/** GET /api/changes: who changed what, and when. */
export function history(request: HistoryRequest = {}, options?: CallOptions): Promise<HistoryResponse> {
  return call("GET", "/api/changes" + queryOf(request), undefined, options);
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
