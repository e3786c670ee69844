/** The sample that a mark of a figure stands for: "sample=t-12" is t-12; null for any other mark. */
export function sample_of(set: string | null): string | null {
  const head = 'sample=';
  return set?.startsWith(head) ? set.slice(head.length) : null;
}
