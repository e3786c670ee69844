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

const kHow = ['breakage', 'sample-size', 'similarity', 'ordination', 'order', 'clusters', 'difference', 'diversity', 'key-groups', 'residuality', 'joins'];
const kCrossed = ['similarity', 'ordination', 'order', 'clusters', 'difference', 'diversity'];

/** A comparison as the page asks for it unless more is said. */
export function comparison(how, more = {}) {
  const columns = kCrossed.includes(how) || how === 'sample-size' ? { columns: 'fabric.ware_group' } : {};
  const measure = kCrossed.includes(how) ? { measure: 'count' } : {};
  const rows = how === 'sample-size' ? {} : { rows: 'context.phase' };
  return { how, ...rows, ...columns, ...measure, picture: true, width: 120, ...more };
}
/** The comparisons that the tests ask for. */
export const kComparisons = [
  ...kHow.map((how) => comparison(how)),
  ...['ordination', 'order', 'difference', 'key-groups'].map((how) => comparison(how, { width: 84 })),
  comparison('ordination', { doubtful: 'out' }),
  comparison('ordination', { doubtful: 'out', unchecked: 'out' }),
  comparison('ordination', { rows: 'fabric.ware_group', columns: 'context.phase' }),
  comparison('clusters', { linkage: 'ward' }),
  comparison('clusters', { linkage: 'ward', cut: 3 }),
  comparison('difference', { measure: 'weight_g' }),
  comparison('difference', { measure: 'eve' }),
  comparison('difference', { merge: ['early medieval+factory-made'] }),
  comparison('order', { where: ['context.phase=nowhere'] }),
  comparison('key-groups', { weights: ['size=2'] }),
  { ...comparison('ordination', { give: 'csv' }), picture: undefined, width: undefined },
  { ...comparison('ordination', { give: 'svg', figure: 'map' }), picture: undefined, width: undefined },
];

/** The same for the same request, whatever the order of its keys. */
export function comparison_key(request) {
  return JSON.stringify(Object.entries(request).filter(([, value]) => value !== undefined && value !== null).sort(([a], [b]) => (a < b ? -1 : 1)));
}

const when = (...seen) => ['/api/when', { seen }];
const read = (what, text, style) => ['/api/read', style ? { what, text, style } : { what, text }];

/** What the tests of the Series room ask: path and query. */
export const kSeries = [
  ['/api/evidence', {}],
  ...[
    'ware',
    'fabric',
    'form',
    'body',
    'firing',
    'decoration',
    'technique',
    'print_colour',
    'edge',
    'lattice_angle',
    'mark',
    'legend',
    'bore',
    'region',
  ].map((values) => ['/api/evidence', { values }]),
  when('ware=creamware'),
  when('ware=creamware', 'edge=feather edge'),
  ['/api/when', { seen: ['ware=creamware', 'edge=feather edge'], window: '1770:1800' }],
  ['/api/when', { seen: ['ware=creamware', 'edge=feather edge'], shoulders: '0' }],
  when('edge=feather edge'),
  when('ware=creamware', 'edge=feather edge', 'technique=engine turning'),
  when('ware=pearlware'),
  when('ware=pearlwre'),
  when('ware=pearlware', 'technique=transfer printed'),
  when('ware=pearlware', 'technique=transfer printed', 'print_colour=brown'),
  when('ware=pearlware', 'technique=transfer printed', 'mark=England'),
  when('mark=England'),
  when('mark=Rd No 821265'),
  when('legend=P*WELL*', 'mark=England'),
  when('mark=England', 'legend=powell & bishop'),
  when('ware=BB1', 'lattice_angle=110'),
  when('ware=Iron Age scored ware'),
  when('ware=white granite', 'mark=none'),
  when('firing=reduced'),
  read('date', 'L13-E14'),
  read('date', 'c. 1120-35'),
  read('date', 'c. 1120-35', 'cco'),
  read('date', '13th c. or sommat'),
  read('mark', 'Rd No 821265'),
  read('mark', 'diamond top=O left=G right=18 bottom=5'),
  read('colour', '10YR 5/4'),
  read('colour', '10YR 5/4-6/6'),
  read('firing', 'O/R/O'),
  read('size', 'medium sand'),
  read('frequency', 'sparse'),
  read('frequency', 'sparse', 'pcrg'),
];

/** The same for the same question, whatever the order of its keys; blank ones ask for nothing. */
export function series_key(path, query) {
  const pairs = query instanceof URLSearchParams ? [...query] : Object.entries(query);
  const all = pairs.flatMap(([name, value]) => (Array.isArray(value) ? value.map((one) => [name, one]) : [[name, value]]));
  return JSON.stringify([path, ...all.filter(([, value]) => value !== '').sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))]);
}

/** What the Vessels room asks while its tests run. */
export const kVessels = [
  ['/api/drawing', { vessel: 'P1', scale: '1:4' }],
  ['/api/drawing', { vessel: 'P21', scale: '1:4' }],
  ['/api/drawing', { vessel: 'P21', scale: '1:2' }],
  ...['pdf', 'svg', 'png'].map((give) => ['/api/drawing', { vessel: 'P30', scale: '1:4', give }]),
  ['/api/drawing', { vessel: 'P30', scale: '1:4' }],
  ['/api/drawing', { vessel: 'P5', scale: '1:4' }],
  ['/api/drawing', { vessel: 'P3', scale: '1:4' }],
  ['/api/plates', { scale: '1:4', width_mm: '135', height_mm: '205', give: 'pdf' }],
  ['/api/rim-chart', { paper: 'A4', give: 'svg' }],
  ['/api/brief', { give: 'pdf' }],
  ['/api/pieces', { vessel: 'P30', outlines: 'true' }],
  ['/api/capacity', { vessel: 'P21' }],
  ['/api/matches', { vessel: 'P21', most: '8' }],
  ['/api/plates', { scale: '1:4', width_mm: '135', height_mm: '205' }],
];

const point = (side, r_mm, z_mm) => ({ side, r_mm, z_mm, conjectured: false });
const typed = (points, check_only, part = 'rim') => ['/api/sections', { piece: 'T1', points, values: { source: 'points', part }, check_only }];
const upper = [point('outer', 70, 0), point('outer', 62, 50)];
/** A rim whose inner side strays outside, and the same put right: what the tests type. */
export const kTyped = {
  crossed: [...upper, point('inner', 64, 0), point('inner', 72, 25), point('inner', 62, 50)],
  sound: [...upper, point('inner', 64, 0), point('inner', 61, 25), point('inner', 62, 50)],
};

/** What the Vessels room writes or has checked while its tests run, in this order. */
export const kVesselWrites = [
  typed(kTyped.crossed, true),
  typed(kTyped.sound, true),
  typed(kTyped.sound, false),
  ['/api/joined-sections', { upper: 'P1', lower: 'P2', as: 'P1+P2', dry_run: true }],
  ['/api/joined-sections', { upper: 'P3', lower: 'P6', as: 'P3+P6', dry_run: true }],
  ['/api/joined-sections', { upper: 'P1', lower: 'P2', as: 'J1' }],
  ['/api/removed-sections', { piece: 'P5', name: '' }],
  ['/api/rim-readings', { chord: 60, sagitta: 4 }],
  ['/api/rim-readings', { points: [[0, 0], [10, 10], [20, 20]].map(([x, y]) => ({ x, y })) }],
];

/** The same for the same wish, whoever has it and by whatever name. */
export function write_key(path, { change: _, who: __, label: ___, ...body }) {
  return JSON.stringify([path, ...Object.entries(body).sort(([a], [b]) => (a < b ? -1 : 1))]);
}
