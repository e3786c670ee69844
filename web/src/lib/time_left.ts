/**
 * "about 40 s left", "about 3 min left": what remains of work of which `fraction` took so many milliseconds, if it goes
 * on as it went. '' in the first three seconds, before a fiftieth is done, and for the last two seconds.
 */
export function time_left(fraction: number, took_ms: number): string {
  if (took_ms < 3000 || !(fraction >= 0.02) || fraction >= 1) return '';
  const left = ((took_ms / 1000) * (1 - fraction)) / fraction;
  if (left < 2) return '';
  if (left < 55) return `about ${5 * Math.ceil(left / 5)} s left`;
  const minutes = Math.ceil(left / 60 - 0.25);
  return minutes < 60 ? `about ${minutes} min left` : `about ${Math.ceil(minutes / 60)} h left`;
}
