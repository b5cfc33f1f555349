/** Sentences about files as a whole and about YAML itself. */
import { state } from './problems.ts';
import { either, harmless, plainNumber, quote, shown, type Wanted } from './value.ts';

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

// Sentences about spring catalogues (CSV).

export const CATALOGUE = 'a CSV file of springs, its first row the column names';
export const badPath = (value: unknown) =>
  state(shown(value), 'the path of a CSV file', 'write the path relative to the scenario, like `springs.csv`');

/** What keeps a column as text, whatever its name means. */
const asNote = (name: string) => quote(`note ${name}`);

export const doubtfulColumn = (name: string, nearest: string, known: readonly string[]) =>
  state(
    `the unknown column ${shown(name)}`,
    `columns among ${known.map(quote).join(', ')}; others whose names are not like these are kept as text`,
    `did you mean ${quote(nearest)}? If it is text to keep, call it ${asNote(name)}`,
  );
export const columnWithoutUnit = (name: string, choices: readonly string[]) =>
  state(
    `the column ${shown(name)} without a unit`,
    `${either(choices.map(quote))}, or a unit in each cell`,
    'put the unit of the numbers into the column name',
  );
export const columnWithWrongUnit = (name: string, unit: string, choices: readonly string[]) =>
  state(
    `the column ${shown(name)}, whose unit ${shown(unit)} does not fit`,
    either(choices.map(quote)),
    `use ${choices.length === 1 ? 'this name' : 'one of these names and numbers in its unit'}; if it is text to keep, call it ${asNote(name)}`,
  );
export const repeatedColumn = (name: string, other: string) =>
  state(
    name === other ? `the column ${shown(name)} twice` : `the columns ${shown(other)} and ${shown(name)}`,
    'each quantity in one column',
    'remove one of the two',
  );
export const missingColumn = (choices: readonly string[], kept: readonly string[]) =>
  state(
    `no column ${either(choices.map(quote))}`,
    'columns for free length and bore, and for rate or else for wire and coils',
    `add the column ${quote(choices[0] ?? '')} (or one with another unit)${kept.length === 0 ? '' : `, or rename the one that holds it: ${either(kept.map(quote))}`}`,
  );
export const headerOnly = () =>
  state('a header without rows', 'at least one spring', 'add rows, or remove the catalogue from the scenario');
export const wrongCellCount = (cells: number, columns: number, separator: string) =>
  state(
    `a row of ${cells} cells`,
    `${columns} cells, as in the header`,
    separator === ','
      ? 'check for a missing or extra comma; a number with a decimal comma stands in quotes, like `"17,5"`'
      : `check for a missing or extra ${separator === ';' ? 'semicolon' : 'tab'}`,
  );

export const cellNotANumber = (text: string, column: string, wanted: Wanted) =>
  state(shown(text), `a number for ${quote(column)}`, `write a number, like \`17.5\`${unitAdvice(wanted)}`);
const unitAdvice = ({ units }: Wanted) =>
  units.length === 0 ? ', without a unit' : `, with a unit in the column name or behind it (${either(units)})`;

/** @param tail the unit behind the number, with a space in front, or '' */
export const twoMeanings = (text: string, decimal: string, thousands: string, tail: string) =>
  state(
    `${shown(text)}, which can be read in two ways`,
    'a number that can be read in one way only',
    `write ${quote(decimal + tail)} if the ${/,/.test(text) ? 'comma' : 'point'} is a decimal sign, ${quote(thousands + tail)} if it stands between thousands`,
  );
export const cellInOtherUnit = (text: string, column: string, converted: string, bare: string) =>
  state(
    `${shown(text)} in the column ${quote(column)}`,
    "numbers in the unit of the column's name",
    `write ${quote(converted)} if the unit in the cell is right, ${quote(bare)} if that of the column is`,
  );

export const cellMissing = (column: string) =>
  state('an empty cell', `a number for ${quote(column)}`, 'fill the cell in, or remove the row');
export const rateMissing = () =>
  state(
    'a row without rate and without wire and coils',
    'the rate, or wire diameter and coils to compute it from',
    'fill in the rate, or both wire and coils',
  );
export const cellOutside = (text: string, limits: string, column: string) =>
  state(shown(text), `${quote(column)} ${limits}`, "check the number, and the unit in the column's name");
export const repeatedRow = (firstLine: number) =>
  state(
    `the same spring as in line ${firstLine}`,
    'each spring once',
    'remove one of the two rows: it would be tried and listed twice',
  );

const CSV_FAULTS: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: 'a quote that is never closed',
  CSV_MAX_RECORD_SIZE: 'a row of tens of thousands of characters, perhaps behind a quote that is never closed',
};
export const csvError = (code: string) =>
  state(
    CSV_FAULTS[code] ?? `CSV that cannot be read (${code})`,
    'a table as CSV; a cell that holds a separator or a quote stands in quotes, quotes in it doubled',
    'check the quotes in this row; inches are written `in`',
  );
export const nothingLeft = (rows: number) =>
  state(
    `none of the ${rows} springs of the catalogue inside \`only\``,
    'at least one spring',
    'widen the ranges in `only`',
  );
export const tooManyRows = (most: number) =>
  state(
    `more than ${plainNumber(most)} springs`,
    `at most ${plainNumber(most)} rows`,
    'leave out springs that cannot fit; rows from here on were not read',
  );
