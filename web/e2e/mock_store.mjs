// A record in memory for the tests: rows of every kind, edits, undo, the feed. It reads what hands type as far as the tests go.
import { randomBytes } from 'node:crypto';

const kAmounts = { count: 0, weight_g: 3, vessels: 0, rims: 0, rim_percent: 1, rim_diameter_mm: 2, base_percent: 1, base_diameter_mm: 2, wall_mm: 2, class_width_mm: 2 };
const kUnits = { weight_g: { g: 1, kg: 1000 }, rim_diameter_mm: { mm: 1, cm: 10 }, base_diameter_mm: { mm: 1, cm: 10 }, wall_mm: { mm: 1, cm: 10 } };
const kYears = new Set(['earliest', 'latest', 'my_earliest', 'my_latest']);
const kDoubted = { fabric: 'fabric_certainty', form: 'form_certainty', decoration: 'decoration_certainty' };
const kRefers = { fabric: ['fabrics', 'fabric'], form: ['forms', 'form'], context: ['contexts', 'context'], record_b: ['sherds', 'record'] };

const uid = () => randomBytes(16).toString('hex');

function amount(column, text) {
  const units = kUnits[column] ?? {};
  let sum = 0;
  for (const part of text.split('+')) {
    const match = /^\s*(\d+(?:[.,]\d+)?)\s*([a-z%]*)\s*$/.exec(part);
    const times = match && (match[2] === '' || match[2] === '%' ? 1 : units[match[2]]);
    if (!match || !times) return null;
    sum += Number(match[1].replace(',', '.')) * times;
  }
  const tens = 10 ** kAmounts[column];
  return String(Math.round(sum * tens) / tens);
}

/** The cell's values: the column's own, and how sure one is. null where it is not read. */
function read(column, text, kind) {
  const doubts = kind === 'sherds' ? kDoubted : {};
  if (text === '') return doubts[column] ? { [column]: '', [doubts[column]]: '' } : { [column]: '' };
  if (column in kAmounts) {
    const value = amount(column, text);
    return value === null ? null : { [column]: value };
  }
  if (kYears.has(column)) return /^-?\d+$/.test(text) ? { [column]: text } : null;
  const doubted = doubts[column];
  if (!doubted) return { [column]: text };
  const marks = /\?*$/.exec(text)[0].length;
  return { [column]: text.replace(/\?+$/, '').trim(), [doubted]: ['sure', 'probable', 'possible'][Math.min(2, marks)] };
}

export class Store {
  rows = new Map();
  changes = [];
  told = new Set();
  #answers = new Map();
  #record = 20000;

  constructor(fixture) {
    for (const [kind, rows] of Object.entries(fixture)) {
      for (const row of rows) this.rows.set(row.uid, { kind, uid: row.uid, values: { ...row.values }, removed: false });
    }
  }
  list(kind, where = []) {
    const conditions = where.map((one) => [one.slice(0, one.indexOf('=')), one.slice(one.indexOf('=') + 1)]);
    return [...this.rows.values()].filter((row) => row.kind === kind && !row.removed && conditions.every(([column, value]) => (row.values[column] ?? '') === value));
  }
  #shown(row) {
    const values = Object.fromEntries(Object.entries(row.values).filter(([, value]) => value !== ''));
    return { kind: row.kind, uid: row.uid, removed: row.removed, changed: null, values };
  }
  page(kind, where, limit, offset) {
    const all = this.list(kind, where);
    return { kind, columns: [], total: all.length, rows: all.slice(offset, offset + limit).map((row) => this.#shown(row)) };
  }
  #problem(step, column, text, message, hint) {
    return { step, column, text, code: 'edit_refused', message, hint };
  }
  #check(step, at, column, text, made, problems) {
    const values = read(column, text, step.kind);
    if (!values) {
      problems.push(this.#problem(at, column, text, `"${text}" is not read as a value of ${column}`, 'a number such as 12.5, a sum such as 12+7'));
      return {};
    }
    const refers = kRefers[column];
    const value = values[column];
    if (refers && value && step.kind !== refers[0] && !made.has(value) && this.list(refers[0], [`${refers[1]}=${value}`]).length === 0) {
      problems.push(this.#problem(at, column, text, `the record has no ${column} "${value}"`, 'choose one of the series, or make it'));
    }
    return values;
  }

  /** [status, document] */
  edit(body, who) {
    const before = this.#answers.get(body.change);
    if (before) return before;
    const problems = [];
    const conflicts = [];
    const writes = [];
    const made = new Set(body.steps.filter((step) => step.do === 'add' && step.kind !== 'sherds').flatMap((step) => Object.values(step.values ?? {})));
    body.steps.forEach((step, at) => {
      const row = step.do === 'add' ? null : this.rows.get(step.row);
      if (step.do !== 'add' && (!row || row.removed)) problems.push(this.#problem(at, step.column ?? '', '', 'the row is not there any more', ''));
      else if (step.do === 'add') {
        const values = {};
        for (const [column, text] of Object.entries(step.values)) Object.assign(values, this.#check(step, at, column, text, made, problems));
        if (step.kind === 'sherds' && !values.count && !values.weight_g) problems.push(this.#problem(at, 'count', '', 'a line needs a count or a weight', 'type one of them'));
        writes.push({ add: true, kind: step.kind, values });
      } else if (step.do === 'set') {
        const now = row.values[step.column] ?? '';
        if (step.seen !== undefined && step.seen !== now) {
          conflicts.push({ step: at, kind: row.kind, row: row.uid, id: row.values.record ?? '', column: step.column, seen: step.seen, now, value: step.value, who: row.who ?? 'recorder', at: '2026-03-02T09:00:00Z' });
        }
        writes.push({ row, values: this.#check(step, at, step.column, step.value, made, problems) });
      } else writes.push({ row, remove: true });
    });
    const envelope = { ok: problems.length + conflicts.length === 0, errors: [], warnings: [], provenance: { version: '', inputs: [], settings: {}, seed: null } };
    if (problems.length) return [400, { ...envelope, seq: null, change: body.change, rows: [], notes: [], conflicts: [], problems }];
    if (conflicts.length) return [409, { ...envelope, seq: null, change: body.change, rows: [], notes: [], conflicts, problems: [] }];
    const touched = this.#write(writes, body, who);
    const answer = [200, { ...envelope, seq: this.changes.length, change: body.change, rows: touched.map((row) => this.#shown(row)), notes: [], conflicts: [], problems: [] }];
    this.#answers.set(body.change, answer);
    return answer;
  }
  #write(writes, body, who) {
    const touched = new Set();
    const before = [];
    for (const write of writes) {
      const row = write.add ? { kind: write.kind, uid: uid(), values: {}, removed: true } : write.row;
      if (!touched.has(row)) before.push({ row, values: { ...row.values }, removed: row.removed });
      if (write.add) {
        row.removed = false;
        if (row.kind === 'sherds') row.values.record = String((this.#record += 1));
        this.rows.set(row.uid, row);
      }
      if (write.remove) row.removed = true;
      Object.assign(row.values, write.values ?? {});
      row.who = body.who || who;
      touched.add(row);
    }
    this.#log(body.change, body.label, body.who || who, [...touched], before, null);
    return [...touched];
  }
  #log(change, label, who, rows, before, undoes) {
    const seq = this.changes.length + 1;
    const contexts = [...new Set(rows.map((row) => row.values.context).filter(Boolean))];
    const news = { seq, uid: change, change, at: '2026-03-02T09:00:00Z', who, command: label, label, undoes, rows_added: 0, rows_changed: rows.length, rows_removed: 0, kinds: [...new Set(rows.map((row) => row.kind))], contexts };
    this.changes.push({ news, before });
    for (const response of this.told) response.write(`id: ${seq}\ndata: ${JSON.stringify(news)}\n\n`);
    return news;
  }
  undo(seq, who) {
    const change = this.changes[seq - 1];
    if (!change || change.undone) return [409, { ok: false, errors: [{ code: 'undone', message: `change ${seq} was taken back already`, where: {}, hint: '' }], warnings: [] }];
    change.undone = true;
    const before = change.before.map(({ row }) => ({ row, values: { ...row.values }, removed: row.removed }));
    for (const { row, values, removed } of change.before) {
      row.values = { ...values };
      row.removed = removed;
    }
    const news = this.#log(uid(), `undo ${seq}`, who, change.before.map((one) => one.row), before, seq);
    return [200, { ok: true, errors: [], warnings: [], changes: [{ ...news, origin: '', values: [] }] }];
  }

  /** A change that touches no row here; its number. */
  done(body, who) {
    return this.#log(body.change, body.label ?? 'change', who, [], [], null).seq;
  }
  /** Numbers of the catalogue without gaps, those that were dropped without one. */
  renumber(body, who) {
    const number = (row) => Number(row.values.catalogue || Infinity);
    let next = 0;
    const steps = this.list('drawings')
      .sort((a, b) => number(a) - number(b))
      .map((row) => ({ row, value: row.values.status === 'dropped' ? '' : String((next += 1)) }))
      .filter(({ row, value }) => (row.values.catalogue ?? '') !== value);
    const renumbered = steps.map(({ row, value }) => ({ drawing: row.values.drawing, was: Number(row.values.catalogue) || null, now: Number(value) || null }));
    const edits = steps.map(({ row, value }) => ({ do: 'set', kind: 'drawings', row: row.uid, column: 'catalogue', value }));
    const [status, done] = this.edit({ change: body.change, label: 'renumber drawings', steps: edits }, who);
    return [status, { ok: true, errors: [], warnings: [], provenance: done.provenance, renumbered, numbered: next, change: done.seq }];
  }

  queue() {
    const scans = new Map(this.list('scans').map((row) => [row.values.context, row.values]));
    const contexts = this.list('contexts').map((row) => {
      const lines = this.list('sherds', [`context=${row.values.context}`]);
      const sum = (column) => Math.round(1000 * lines.reduce((all, line) => all + (Number(line.values[column]) || 0), 0)) / 1000;
      const scan = scans.get(row.values.context);
      return {
        ...{ context: row.values.context, uid: row.uid, stage: row.values.stage || (lines.length > 0 ? 'begun' : 'to_do'), type: row.values.type ?? '', area: row.values.area ?? '' },
        ...{ phase: row.values.phase ?? '', lines: lines.length, count: sum('count'), weight_g: sum('weight_g') },
        to_check: lines.filter((line) => !line.values.checked_by).length,
        scan: scan ? { wares: scan.wares ?? '', amount: scan.amount ?? null, count: Number(scan.count) || null, weight_g: null, count_left: scan.count ? Math.max(0, Number(scan.count) - sum('count')) : null, weight_left_g: null } : null,
        who: '',
        at: '',
        flags: [],
      };
    });
    return { ok: true, errors: [], warnings: [], contexts };
  }
  find(text) {
    const low = text.toLowerCase();
    const group = (name, rows, column = name) => ({ group: name, total: rows.length, hits: rows.slice(0, 8).map(({ kind, uid, values }) => ({ kind, uid, id: values.record ?? values.context ?? '', context: values.context ?? '', column, value: values[column] ?? '' })) });
    const by = (column) => this.list('sherds').filter((row) => (row.values[column] ?? '').toLowerCase().startsWith(low));
    const groups = [group('record', by('record')), group('contexts', this.list('contexts').filter((row) => row.values.context.startsWith(low)), 'context'), group('bag', by('bag')), group('mark', by('mark')), group('notes', by('notes'))];
    return { ok: true, errors: [], warnings: [], groups: groups.filter((one) => one.total > 0) };
  }
  similar(record) {
    const line = this.list('sherds', [`record=${record}`])[0];
    const like = this.list('sherds').filter((row) => line && row !== line && row.values.fabric === line.values.fabric && (row.values.form ?? '') === (line.values.form ?? ''));
const number = (text) => (text === undefined || text === '' ? null : Number(text));
    const lines = like.slice(0, 12).map(({ uid, values }) => ({ uid, alike: ['form'], line: { form: '', part: '', decoration: '', ...values, count: number(values.count), weight_g: number(values.weight_g) } }));
    const contexts = new Set(like.map((row) => row.values.context)).size;
    return { ok: true, errors: [], warnings: [], of_fabric: like.length + 1, contexts, alike_in_all: 0, usual_weight_g: 12.5, lines };
  }
  /** The lines tied to one by links, step by step. */
  links(record) {
    const links = this.list('joins').map((row) => ({ uid: row.uid, record_a: row.values.record_a, record_b: row.values.record_b, kind: row.values.kind ?? 'same_vessel' }));
    const steps = new Map([[record, 0]]);
    for (const from of steps.keys()) {
      for (const link of links) {
        for (const [a, b] of [[link.record_a, link.record_b], [link.record_b, link.record_a]]) if (a === from && !steps.has(b)) steps.set(b, steps.get(from) + 1);
      }
    }
    const lines = [...steps].flatMap(([one, far]) => this.list('sherds', [`record=${one}`]).map(({ uid, values }) => ({ uid, record: one, context: values.context, fabric: values.fabric, vessels: values.vessels ? Number(values.vessels) : null, steps: far })));
    const counted = lines.reduce((sum, line) => sum + (line.vessels ?? 0), 0);
    const vessels = lines.length > 1 ? [{ records: lines.map((line) => line.record), contexts: [], names: [], count: null, weight_g: null, counted }] : [];
    return { ok: true, errors: [], warnings: [], record, lines, links: links.filter((one) => steps.has(one.record_a)), vessels, fewest_vessels: 1, cut_off: false };
  }
}
