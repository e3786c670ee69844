import { condition } from './query';
import type { Finding } from '../api';

/** Where the rows behind a finding lie: conditions on sherd lines, or a context. null where there is nothing to open. */
export type Target = { context: string } | { where: string[]; column: string } | null;

const kGroups = new Set(['bag', 'box', 'vessel', 'sample']);
/** Columns in which a finding without an id is about the lines that leave them blank. */
const kBlank = new Set(['checked_by']);

export function target_of(finding: Finding): Target {
  const { table, id, column } = finding.where;
  switch (table) {
    case 'contexts':
    case 'relations':
      return id ? { context: id } : null;
    case 'sherds':
    case 'rims':
      if (!id) return kBlank.has(column) ? { where: [condition(column, null)], column } : null;
      return { where: [condition(table === 'sherds' && kGroups.has(column) ? column : 'record', id)], column };
    case 'fabrics':
      return id ? { where: [condition('fabric', id)], column: 'fabric' } : null;
    case 'forms':
      return id ? { where: [condition('form', id)], column: 'form' } : null;
    case 'phases':
      return id ? { where: [condition('context.phase', id)], column: 'context' } : null;
    default:
      return null;
  }
}

/** True where the finding is about this context: by its place, or because its sentence names the context. */
export function about_context(finding: Finding, context: string): boolean {
  const { table, id } = finding.where;
  if (table === 'contexts') return id === context;
  return finding.message.split(/[^\w.-]+/).includes(context) && /context/.test(finding.message);
}
