export interface MarkedSample {
  of: 'sample' | 'reading' | 'standard';
  sample: string;
  record: string;
}

/** What a mark of a figure stands for: "sample=t-12&record=10357", "reading=31", "standard=B2", percent-encoded; null for any other mark. */
export function sample_of(set: string | null): MarkedSample | null {
  const parts = new URLSearchParams(set ?? '');
  for (const of of ['sample', 'reading', 'standard'] as const) {
    const sample = parts.get(of);
    if (sample) return { of, sample, record: parts.get('record') ?? '' };
  }
  return null;
}
