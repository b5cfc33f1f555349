/** Sentences about spring catalogues (CSV). */
import { state } from './problems.ts';
import { either, plainNumber, quote, shown, type Wanted } from './value.ts';

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
