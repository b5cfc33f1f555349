/**
 * The manual kept true: every command line in README.md is run and every output shown there compared, and the table of
 * commands is that of their records. With UPDATE_README=1 the outputs and the table are written anew:
 *
 *   UPDATE_README=1 npx vitest run --config test/vitest.config.ts test/reference/readme
 */

import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { fieldSections } from '../../src/input/schema/fieldReference.ts';
import {
  anchorsOf,
  argsOf,
  commandsOf,
  commandTable,
  cutOut,
  exampleFieldsOf,
  filesOf,
  linksOf,
  type ManualCommand,
  pathsIn,
  withCommandTable,
  withId,
  withShown,
} from '../setup/manual.ts';
import { ENVIRONMENT, PROGRAM } from '../setup/run.ts';
import { ROOT } from '../setup/source-tree.ts';
import { TRAP } from '../setup/trap.ts';

const REFRESH = 'UPDATE_README=1 npx vitest run --config test/vitest.config.ts test/reference/readme';
const UPDATE = process.env.UPDATE_README === '1';
const PAGES = ['README.md', 'DEVELOPERS.md'] as const;
const LONGEST_RUN = 240_000;

const readmePath = join(ROOT, 'README.md');
const readme = readFileSync(readmePath, 'utf8');
const commands = commandsOf(readme);
/** The combination that the manual explains: the best one of the demo, which is swept first. */
const explained = commands.find(({ args }) => args[0] === 'explain')?.args[2] ?? '';
let best: string | undefined;
const refreshed = new Map<ManualCommand, readonly string[]>();
let folder = '';
let outside = '';

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'springsift-manual-')));
  outside = mkdtempSync(join(tmpdir(), 'springsift-trap-'));
  writeFileSync(join(outside, 'trap.mjs'), TRAP);
  cpSync(join(ROOT, 'scenarios'), join(folder, 'scenarios'), { recursive: true });
  for (const { path, text } of filesOf(readme)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
});

afterAll(() => {
  for (const made of [folder, outside]) rmSync(made, { recursive: true, force: true });
  if (!UPDATE) return;
  // From the last command to the first, so that the lines of those still to come stay where they are.
  const shown = [...refreshed].reverse().reduce((text, [command, fresh]) => withShown(text, command, fresh), readme);
  writeFileSync(readmePath, withCommandTable(withId(shown, explained, best ?? explained), COMMANDS));
});

function run(args: readonly string[]) {
  const TRAPPED = join(outside, 'trapped.txt');
  const NODE_OPTIONS = `--import ${pathToFileURL(join(outside, 'trap.mjs')).href}`;
  const how = { cwd: folder, env: { ...ENVIRONMENT, TRAPPED, NODE_OPTIONS }, encoding: 'utf8' } as const;
  const { status, stdout, stderr } = spawnSync(process.execPath, [...PROGRAM, ...args], how);
  expect(existsSync(TRAPPED), 'asks the network').toBe(false);
  // Progress goes to stderr; what a failure says, too. The folder it was run in differs from reader to reader.
  const said = status === 1 || status === 2 ? `${stdout}${stderr}` : stdout;
  // So does what starts the program there.
  const own = said.replace(/\bnode .*\bmain\.[jt]s"?(?= (?:check|sweep|audit) )/g, 'springsift');
  return { status, lines: own.replaceAll(`${folder}/`, '…/').trimEnd().split('\n') };
}

describe('a command line of the manual ends as stated, prints what is shown and does not use the network', () => {
  test.each(
    commands.map((command) => [`springsift ${command.args.join(' ')} (line ${command.line})`, command] as const),
  )(
    '%s',
    (_, command) => {
      // What is explained follows the demo when the demo's parts or the ranking change.
      const { status, lines } = run(
        command.args.map((arg) => (UPDATE && arg === explained ? (best ?? explained) : arg)),
      );
      best ??= lines.map((line) => /^ {2}(?:best|plan) {2,}(\S+),/.exec(line)?.[1]).find(Boolean);
      expect(status, lines.join('\n')).toBe(command.exitCode);
      if (command.shown.length === 0) return;
      const fresh = cutOut(command.shown, lines);
      expect(fresh, `a line that begins a cut-out is not printed any more:\n${lines.join('\n')}`).not.toBeNull();
      if (UPDATE && fresh !== null) refreshed.set(command, fresh);
      else expect(command.shown, `refresh: ${REFRESH}`).toEqual(fresh);
    },
    LONGEST_RUN,
  );
});

test('the manual has commands to run and files to run them on', () => {
  expect(commands.length).toBeGreaterThan(5);
  expect(filesOf(readme).length).toBeGreaterThan(0);
});

test('the fields of the examples exist', () => {
  const known = new Set(fieldSections().flatMap(({ rows }) => rows.map(({ field }) => field)));
  const unknown = exampleFieldsOf(readme).filter((name) => name !== 'step' && !known.has(name));
  expect(unknown).toEqual([]);
});

test('the table of commands is made from their records, and the manual runs the example of each', () => {
  if (!UPDATE) expect(readme, `refresh: ${REFRESH}`).toContain(commandTable(COMMANDS));
  // The id that is explained follows the demo's parts.
  const shape = (args: readonly string[]) => args.map((arg) => (/-F\w+-R\w+-\w\w$/.test(arg) ? 'ID' : arg)).join(' ');
  const run = commands.map(({ args }) => shape(args));
  expect(COMMANDS.map(({ example }) => shape(argsOf(example))).filter((example) => !run.includes(example))).toEqual([]);
});

test('every command is run here, stands in the table of commands, and says its options itself', () => {
  const names = [
    ...run(['--help'])
      .lines.join('\n')
      .replace(/\nWords:[\s\S]*/, '')
      .matchAll(/^ {2}([a-z]+)(?: |$)/gm),
  ]
    .map((match) => match[1] ?? '')
    .filter((name) => name !== 'help');
  expect(names.length).toBeGreaterThan(8);
  expect(names.filter((name) => !readme.includes(`\n| \`${name}\` |`))).toEqual([]);
  const tried = new Set(commands.map(({ args }) => args[0]));
  expect(names.filter((name) => !tried.has(name))).toEqual([]);
});

test('the manual and the tour stay short', () => {
  const bytes = PAGES.map((page) => Buffer.byteLength(readFileSync(join(ROOT, page))));
  expect(bytes[0], 'README.md').toBeLessThanOrEqual(25_000);
  expect(bytes[1], 'DEVELOPERS.md').toBeLessThanOrEqual(15_000);
});

describe.each(PAGES)('%s', (page) => {
  const text = readFileSync(join(ROOT, page), 'utf8');

  test('links lead to a file of the project or to a heading', () => {
    const anchors = new Set(anchorsOf(text));
    const leads = (link: string) => (link.startsWith('#') ? anchors.has(link) : existsSync(join(ROOT, link)));
    expect(linksOf(text).filter((link) => !leads(link))).toEqual([]);
  });

  test('paths that are named exist', () => {
    expect(pathsIn(text).filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });
});
