/** Sentences about spring catalogues (CSV). */
import { type Complaint, state } from './problems.ts';
import { either, plainNumber, quote, shown, suggest } from './value.ts';

export const CATALOGUE = 'a CSV file of springs, its first row the column names';
export const badPath = (value: unknown) =>
  state(shown(value), 'the path of a CSV file', 'write the path relative to the scenario, like `springs.csv`');

export const otherSeparator = (separator: string) =>
  state(
    `columns separated by ${separator === ';' ? 'semicolons' : 'tabs'}`,
    'columns separated by commas, numbers with a decimal point',
    'export the table again as comma-separated values with decimal points',
  );

export const unknownColumn = (name: string, nearest: string | null, known: readonly string[]) =>
  state(
    `the unknown column ${shown(name)}`,
    `columns among ${known.map(quote).join(', ')}`,
    suggest(nearest, 'rename or remove the column'),
  );
export const columnWithoutUnit = (name: string, choices: readonly string[]) =>
  state(
    `the column ${shown(name)} without a unit`,
    either(choices.map(quote)),
    'put the unit of the numbers into the column name',
  );
export const columnWithWrongUnit = (name: string, unit: string, choices: readonly string[]) =>
  state(
    `the column ${shown(name)}, whose unit ${shown(unit)} does not fit`,
    either(choices.map(quote)),
    'use one of these column names and numbers in its unit',
  );
export const repeatedColumn = (name: string, other: string) =>
  state(
    name === other ? `the column ${shown(name)} twice` : `the columns ${shown(other)} and ${shown(name)}`,
    'each quantity in one column',
    'remove one of the two',
  );
export const missingColumn = (choices: readonly string[]) =>
  state(
    `no column ${either(choices.map(quote))}`,
    'columns for free length and bore, and for rate or else for wire and coils',
    `add the column ${quote(choices[0] ?? '')} (or one with another unit)`,
  );
export const headerOnly = () =>
  state('a header without rows', 'at least one spring', 'add rows, or remove the catalogue from the scenario');
export const wrongCellCount = (cells: number, columns: number) =>
  state(
    `a row of ${cells} cells`,
    `${columns} cells, as in the header`,
    'check for a missing or extra comma; a number with a decimal comma counts as two cells',
  );

export function cellNotANumber(text: string, column: string): Complaint {
  const example = /^\s*[+-]?\d+,\d+\s*$/.test(text) ? text.trim().replace(',', '.') : '17.5';
  const advice = /^\s*[+-]?[\d.]+\s*[a-z"/]/i.test(text)
    ? 'write the number alone: its unit stands in the column name'
    : `write a number with a decimal point, like \`${example}\``;
  return state(shown(text), `a number for ${quote(column)}`, advice);
}

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
    'comma-separated values; a cell that holds a comma or a quote stands in quotes, quotes in it doubled',
    'check the quotes in this row',
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
