// node e2e/check_package.mjs FOLDER: reads the archive in FOLDER as a Tabular Data Package with a library of others: the
// description against the published profile, every cell against its field, keys and references across the tables.
import { join } from 'node:path';
import pkg from 'datapackage';

const { Package } = pkg;
const folder = process.argv[2];
const faults = [];
const datapackage = await Package.load(join(folder, 'datapackage.json'), { basePath: folder, strict: false });
for (const error of datapackage.errors) faults.push(`datapackage.json: ${error.message}`);
let rows = 0;
for (const resource of datapackage.valid ? datapackage.resources : []) {
  try {
    const read = await resource.read({ keyed: true, relations: true });
    rows += read.length;
    if (read.length !== resource.descriptor.rows) faults.push(`${resource.name}: ${read.length} rows, not ${resource.descriptor.rows}`);
  } catch (error) {
    const each = error.multiple ? error.errors : [error];
    for (const one of each.slice(0, 5)) faults.push(`${resource.name}: ${one.message}`);
  }
}
for (const fault of faults) console.error(fault);
console.log(`${datapackage.resources.length} tables, ${rows} rows: ${faults.length === 0 ? 'a valid data package' : `${faults.length} faults`}`);
process.exit(faults.length === 0 && rows > 0 ? 0 : 1);
