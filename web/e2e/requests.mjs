/** The tallies that the tests ask for. */
export const kTallies = [
  { by: 'fabric' },
  { by: 'fabric', intervals: 400 },
  { by: 'fabric.ware_group' },
  { by: 'fabric.ware_group', intervals: 400 },
  { by: 'context.phase' },
  { by: 'fabric,context.phase' },
  { by: 'fabric.ware_group,context.phase' },
  { by: 'part' },
  { by: 'fabric', where: ['context.phase=A1'] },
  { by: 'fabric', where: ['context.phase=nowhere'] },
];

export function tally_key(request) {
  return JSON.stringify([request.by, request.where ?? [], Number(request.intervals ?? 0)]);
}
