/** Names of the page's own for parts of the generated types in api.ts. */
import type { Finding, Shares } from '../api';

export type Measure = keyof Shares;
export type Severity = Finding['severity'];
export type Interval = [number, number];
