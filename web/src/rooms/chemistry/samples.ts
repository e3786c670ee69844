export interface MarkedSample {
  sample: string;
  record: string;
}

/** The sample that a mark of a figure stands for: "sample=t-12&record=10357", percent-encoded; null for any other mark. */
export function sample_of(set: string | null): MarkedSample | null {
  const parts = new URLSearchParams(set ?? '');
  const sample = parts.get('sample');
  return sample ? { sample, record: parts.get('record') ?? '' } : null;
}
