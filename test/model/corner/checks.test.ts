import { expect, test } from 'vitest';
import { FAILING_LABELS, FAILINGS } from '../../../src/model/corner/checkRecord.ts';
import { CHECK, CHECKS, CORNER_CHECKS, worstFailing } from '../../../src/model/corner/checks.ts';
import { CONTACT, CONTACTS } from '../../../src/model/corner/contacts.ts';
import { FITS } from '../../../src/model/corner/fit.ts';
import type { CriterionName } from '../../../src/model/criteria.ts';
import { FAMILIES } from '../../../src/model/scenario.ts';
import { CONTACT_QUANTITIES, FIT } from '../../../src/result/quantities/contacts.ts';
import { STANDING } from '../../../src/result/quantities/corner.ts';
import { GIVEN } from '../../../src/result/quantities/given.ts';
import { RATES } from '../../../src/result/quantities/rates.ts';
import { readFiles } from '../../setup/source-tree.ts';

test('a corner alone is held to every check but the balance of the pair, in the same order', () => {
  expect(CORNER_CHECKS).not.toContain('balance');
  expect([...CORNER_CHECKS, 'balance'].sort()).toEqual([...CHECKS].sort());
  const places = CORNER_CHECKS.map((name) => CHECKS.indexOf(name));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('every check has a name of its own', () => {
  const labels = CHECKS.map((name) => CHECK[name].label);
  expect(new Set(labels).size).toBe(CHECKS.length);
});

test.each([
  ['coil_bind', 'coil_bind', -0.1, 'metal'],
  ['coil_bind', 'coil_bind', 0, 'margin'],
  ['damper_bottoms', 'damper', -2, 'metal'],
  ['sleeve_metal', 'sleeve_isolator', 3.9, 'margin'],
  ['body_metal', 'body_flange', -4, 'metal'],
  ['tyre_on_arch', 'tyre_arch', 7, 'margin'],
  ['fit', 'sleeve_over_body', -0.1, 'metal'],
  ['fit', 'spring_over_sleeve', 0.8, 'margin'],
  ['overstressed', 'full bump', 900, 'margin'],
  ['spring_loose', 'spigot engagement', 9, 'seat'],
  ['spring_loose', 'allowed slack', 3, 'wish'],
  ['unloaded_spring', 'standing', -20, 'seat'],
  ['bump_travel', 'design load', -4, 'wish'],
  ['droop_travel', 'two up', 20, 'wish'],
  ['perch_low', 'lowest', 140, 'wish'],
  ['perch_high', 'highest', 240, 'wish'],
  ['frequency', 'lowest', 1.1, 'wish'],
  ['balance', 'highest', 1.3, 'wish'],
] as const)('%s (%s) found at %d is a failing of the kind: %4$s', (check, detail, found, failing) => {
  expect(worstFailing([{ check, detail, found }])).toBe(failing);
});

test('every check has its kind of failing, and every kind a label', () => {
  for (const check of CHECKS) expect(FAILINGS).toContain(worstFailing([{ check, detail: '', found: 1 }]));
  expect(Object.keys(FAILING_LABELS)).toEqual([...FAILINGS]);
});

test('a build is counted by the worst it fails, whatever comes first, and by nothing where it works', () => {
  const missed = { check: 'frequency', detail: 'lowest', found: 1.1 } as const;
  const eaten = { check: 'tyre_on_arch', detail: 'tyre_arch', found: 2 } as const;
  const loose = { check: 'spring_loose', detail: 'spigot engagement', found: 9 } as const;
  const bound = { check: 'coil_bind', detail: 'coil_bind', found: -1 } as const;
  expect(worstFailing([missed, eaten])).toBe('margin');
  expect(worstFailing([loose, eaten, missed])).toBe('seat');
  expect(worstFailing([missed, loose, bound])).toBe('metal');
  expect(worstFailing([])).toBeNull();
});

/**
 * The name of a check, contact or fit stands in its record. Elsewhere only where the words below say so: the kernel
 * repeats the comparisons on columns and calls its verdicts by name; the input calls its fields as scenarios do; a word that
 * another table has too (a quantity, criterion, family, dimension or group) is another thing unless a check stands beside it.
 */

const RECORDS = ['src/model/corner/checks.ts', 'src/model/corner/contacts.ts', 'src/model/corner/fit.ts'];
const NAMES = [...new Set<string>([...CHECKS, ...CONTACTS, ...FITS])];

const others = readFiles(['src'], '.ts').filter(
  ({ path }) => !RECORDS.includes(path) && !path.startsWith('src/sweep/'),
);
const QUANTITIES = [...GIVEN, ...STANDING, ...RATES, ...FIT, ...CONTACT_QUANTITIES];
const CRITERIA: readonly CriterionName[] = ['bump_travel', 'balance'];
const ELSEWHERE = new Set<string>([
  ...QUANTITIES.flatMap(({ id, dimension, group }) => [id, dimension, group]),
  ...FAMILIES,
  ...CRITERIA,
]);

/** Lines that name one of the record's entries, quoted or as a key, comments left out. */
function copiesIn(path: string, text: string): string[] {
  return text.split('\n').flatMap((line, k) => {
    const code = line.replace(/^\s*(?:\*|\/\*\*|\/\/).*|\/\/ .*/, '');
    const quoted = (name: string) => new RegExp(`(['"\`])${name}\\1`).test(code);
    const asKey = (name: string) => new RegExp(`(?:^\\s*|[{,] )${name}: `).test(code);
    const copies = NAMES.filter((name) =>
      ELSEWHERE.has(name) ? quoted(name) && /\b(?:check|finding|contact)/i.test(code) : quoted(name) || asKey(name),
    );
    return copies.map((name) => `${path}:${k + 1}: ${name}`);
  });
}

test('the name of a check, contact or fit stands in its record alone, the kernel and scenario fields apart', () => {
  const inputs = others.filter(({ path }) => path.startsWith('src/input/'));
  const rest = others.filter((file) => !inputs.includes(file));
  expect(rest.length).toBeGreaterThan(200);
  expect(rest.flatMap(({ path, text }) => copiesIn(path, text))).toEqual([]);
  // As scenarios write them: names of fields, and no check.
  expect(inputs.filter(({ text }) => /domain\/checks|corner\/(?:contacts|fit)\.ts/.test(text))).toEqual([]);
});

test('a copy of a name would be found, quoted or as a key', () => {
  for (const line of ["  if (name === 'coil_bind') return 1;", "  coil_bind: 'C',", 'const x = { thread_end: 1 };']) {
    expect(copiesIn('src/one.ts', line)).toHaveLength(1);
  }
  expect(copiesIn('src/one.ts', "  if (check === 'frequency') return 3;")).toHaveLength(1);
  expect(copiesIn('src/one.ts', "  one('frequency', 'positive', 'lowest accepted frequency'),")).toEqual([]);
});

test('what a person calls a check or a contact is written in its record alone', () => {
  const labels = [...CHECKS.map((name) => CHECK[name].label), ...CONTACTS.map((name) => CONTACT[name].label)];
  const copies = readFiles(['src'], '.ts').flatMap(({ path, text }) =>
    RECORDS.includes(path)
      ? []
      : labels.filter((label) => text.includes(`'${label}'`)).map((label) => `${path}: ${label}`),
  );
  expect(copies).toEqual([]);
  const records = readFiles(['src'], '.ts').filter(({ path }) => RECORDS.includes(path));
  const text = records.map((file) => file.text).join('\n');
  for (const label of new Set<string>(labels)) expect(text.split(`label: '${label}'`).length - 1, label).toBe(1);
});

test('every check has a label and a letter of its own', () => {
  for (const of of ['label', 'letter'] as const) {
    expect(new Set(CHECKS.map((name) => CHECK[name][of])).size).toBe(CHECKS.length);
  }
});
