// The bill of materials against SPDX 2.3 and against the program itself: node e2e/check_sbom.mjs FILE.spdx.json PATH/TO/sherdwright
// 1. members and closed lists of the format; 2. each licence an expression of the SPDX list, by a parser that is not ours; 3. every identity
// once, every relation between two that are there, nothing that is not tied to the program; 4. each library that ldd names, by its Debian
// package, and each npm package in the built pages, is listed.
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, realpathSync } from 'node:fs';
import { resolve } from 'node:path';
import Ajv from 'ajv';
import parse from 'spdx-expression-parse';

const [file, program] = [process.argv[2], resolve(process.argv[3])];
const bill = JSON.parse(readFileSync(file, 'utf8'));
const wrong = [];
const expect = (good, text) => good || wrong.push(text);

for (const schema of [new URL('spdx-2.3.schema.json', import.meta.url), process.env.SPDX_SCHEMA].filter(Boolean)) {
  const ajv = new Ajv({ allErrors: true, strict: false });
  const check = ajv.compile(JSON.parse(readFileSync(schema, 'utf8')));
  expect(check(bill), `${schema}: ${ajv.errorsText(check.errors)}`);
  // A bill with a member that the format does not know is refused.
  expect(!check({ ...bill, parts: [] }), `${schema}: takes anything`);
}

const known = new Set((bill.hasExtractedLicensingInfos ?? []).map((one) => one.licenseId));
for (const one of bill.packages) {
  try {
    parse(one.licenseDeclared);
  } catch (error) {
    wrong.push(`${one.name}: ${one.licenseDeclared} is no licence expression: ${error.message}`);
  }
  for (const [name] of one.licenseDeclared.matchAll(/LicenseRef-[\w.-]+/g)) expect(known.has(name), `${name} has no text`);
}

const ids = bill.packages.map((one) => one.SPDXID);
expect(new Set(ids).size === ids.length, 'an identity stands twice');
const ties = new Set(bill.relationships.flatMap((one) => [one.spdxElementId, one.relatedSpdxElement]));
for (const id of ids) expect(ties.has(id), `${id} is tied to nothing`);
for (const id of ties) expect(id === 'SPDXRef-DOCUMENT' || ids.includes(id), `a relation names ${id}, which is not listed`);

const names = new Set(bill.packages.map((one) => one.name));
const libraries = [...execFileSync('ldd', [program], { encoding: 'utf8' }).matchAll(/=> (\/\S+)/g)].map((match) => match[1]);
expect(libraries.length > 20, 'ldd names hardly any library');
// dpkg knows a file of /usr/lib by that name or by /lib's, which is the same folder.
const named = (library) => [realpathSync(library), library].flatMap((path) => [path, path.replace(/^\/usr/, '')]);
const owners = new Map(
  spawnSync('dpkg', ['-S', ...libraries.flatMap(named)], { encoding: 'utf8' }).stdout.trim().split('\n').map((line) => {
    const [packages, path] = line.split(': ');
    return [path, packages.split(/[:,]/)[0]];
  }),
);
for (const library of libraries) {
  const owner = named(library).map((path) => owners.get(path)).find(Boolean);
  expect(names.has(owner), `${library} (${owner}) is not listed`);
}
const pages = JSON.parse(readFileSync(new URL('../dist/licences/packages.json', import.meta.url), 'utf8'));
expect(pages.some((one) => one.name === 'svelte'), 'the pages hold no framework');
for (const one of pages) {
  expect(bill.packages.some((its) => its.name === one.name && its.versionInfo === one.version), `${one.name} ${one.version} is not listed`);
}

console.log(wrong.join('\n') || `${bill.spdxVersion}: ${ids.length} packages, ${libraries.length} libraries and ${pages.length} packages of the pages among them`);
process.exit(wrong.length ? 1 : 0);
