/** Sentences about files as a whole and about YAML itself. */
import { state } from './problems.ts';
import { harmless, shown } from './value.ts';

export const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
export const fileNotFound = (what: string) =>
  state('no such file', what, 'check the path and its spelling, capitals included');
export const fileUnreadable = (what: string, code: string) =>
  state(`a file that cannot be read (${code})`, what, UNREADABLE[code] ?? 'check that it is a file and may be read');
const UNREADABLE: Readonly<Record<string, string>> = {
  ENAMETOOLONG: 'the path is too long: use shorter names, or folders that lie less deep',
  EMFILE: 'too many files are open at once: allow more with ulimit -n 1024',
};
export const fileNotRegular = (what: string, kind: string) =>
  state(`${kind}, not a file`, what, 'name a file on the disk; save there first what a pipe or another program gives');
export const fileTooLarge = (bytes: number, most: number) =>
  state(
    `a file of ${megabytes(bytes)}`,
    `at most ${megabytes(most)}`,
    'move spring lists into catalogue files, or split the catalogue',
  );
export const fileNotText = () =>
  state('bytes that are not UTF-8 text', 'a plain text file in UTF-8', 'save the file as text with UTF-8 encoding');
export const fileEmpty = (what: string) => state('an empty file', what, 'fill in the file, or name another one');
export const outsideFolder = (path: string) =>
  state(
    `${shown(path)}, which lies outside the scenario's folder`,
    "a file in the scenario's folder or below it, by a relative path",
    'copy the file beside the scenario, or say --allow-outside if you trust whoever wrote the scenario',
  );
export const repeatedKey = () =>
  state(
    'a field that stands in this mapping already',
    'each field once',
    'remove or rename one of the two: only one value can count',
  );
export const furtherProblems = (count: number, where: 'a scenario' | 'a catalogue') =>
  state(
    `${count} further problems in this file`,
    `${where} without problems`,
    'correct those above first: many often have one cause',
  );
const YAML_ADVICE: Readonly<Record<string, string>> = {
  BAD_INDENT: 'line the fields of one mapping up in the same column; close a bracket before the next field',
  BAD_SCALAR_START: 'put the text in quotes',
  BLOCK_AS_IMPLICIT_KEY: 'write each field in a line of its own, all in the same column; text with a colon in quotes',
  BLOCK_IN_FLOW: 'put a comma between the fields inside the brackets',
  MISSING_CHAR: 'close the quote or bracket, or put a colon and a space behind the name of the field',
  MULTILINE_IMPLICIT_KEY: 'put a colon and a space behind the name of the field',
  MULTIPLE_DOCS: 'keep one document per file: remove the line `---` in the middle',
  TAG_RESOLVE_FAILED: 'remove the tag: plain values are enough',
  UNEXPECTED_TOKEN: 'remove what stands behind the end of the value: a bracket too many, or text behind a quote',
};
const TAB = state('a tab in front of a field', 'spaces in front of fields', 'put spaces in place of the tab');
export const yamlError = (message: string, code: string) =>
  code === 'TAB_AS_INDENT'
    ? TAB
    : state(
        `YAML that cannot be read: ${harmless(message)}`,
        'valid YAML 1.2',
        YAML_ADVICE[code] ?? 'check indentation, colons, quotes and brackets here and on the line before',
      );
export const unresolvedAlias = (name: string) =>
  state(
    `the alias ${shown(`*${name}`)} without an anchor before it`,
    'an alias that repeats an anchor written earlier',
    `write ${shown(`&${name}`)} at the value to repeat, above this line`,
  );
export const notMergeable = (value: unknown) =>
  state(
    `${shown(value)} behind \`<<\``,
    'an alias of a mapping, a mapping, or a list of these',
    'write `<<: *name` with the name of an anchor at a mapping, or remove the line',
  );
export const tooManyAliases = () =>
  state(
    'aliases that multiply beyond reason',
    'a scenario of moderate size once its aliases are filled in',
    'do not nest aliases of aliases; use ranges to describe many alternatives',
  );
export const circularAlias = () =>
  state('an alias that contains itself', 'finite data', 'move the anchor to the inner value');
export const tooDeep = () =>
  state('brackets or indentation nested too deeply', 'a scenario file', 'check for unclosed brackets');
export const notAMapping = (value: unknown) =>
  state(shown(value), 'a scenario: a mapping that starts with `springsift: 1`', 'check that this is the scenario file');
