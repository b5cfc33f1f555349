/** Sentences about spring catalogues (CSV). */
import type { Complaint } from '../problems.ts';
import { either, harmless, plainNumber, shown } from './words.ts';

const quoted = (word: string): string => `\`${harmless(word)}\``;

export const CATALOGUE = 'a CSV file of springs, its first row the column names';

export function badPath(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'the path of a CSV file',
    advice: 'write the path relative to the scenario, like `springs.csv`',
  };
}

export function otherSeparator(separator: string): Complaint {
  const name = separator === ';' ? 'semicolons' : 'tabs';
  return {
    found: `columns separated by ${name}`,
    expected: 'columns separated by commas, numbers with a decimal point',
    advice: 'export the table again as comma-separated values with decimal points',
  };
}

export function unknownColumn(name: string, nearest: string | null, known: readonly string[]): Complaint {
  return {
    found: `the unknown column ${shown(name)}`,
    expected: `columns among ${known.map(quoted).join(', ')}`,
    advice: nearest === null ? 'rename or remove the column' : `did you mean ${quoted(nearest)}?`,
  };
}

export function columnWithoutUnit(name: string, choices: readonly string[]): Complaint {
  return {
    found: `the column ${shown(name)} without a unit`,
    expected: either(choices.map(quoted)),
    advice: 'put the unit of the numbers into the column name',
  };
}

export function columnWithWrongUnit(name: string, unit: string, choices: readonly string[]): Complaint {
  return {
    found: `the column ${shown(name)}, whose unit ${shown(unit)} does not fit`,
    expected: either(choices.map(quoted)),
    advice: 'use one of these column names and numbers in its unit',
  };
}

export function repeatedColumn(name: string, other: string): Complaint {
  return {
    found: name === other ? `the column ${shown(name)} twice` : `the columns ${shown(other)} and ${shown(name)}`,
    expected: 'each quantity in one column',
    advice: 'remove one of the two',
  };
}

export function missingColumn(choices: readonly string[]): Complaint {
  return {
    found: `no column ${either(choices.map(quoted))}`,
    expected: 'columns for free length and bore, and for rate or else for wire and coils',
    advice: `add the column ${quoted(choices[0] ?? '')} (or one with another unit)`,
  };
}

export function headerOnly(): Complaint {
  return {
    found: 'a header without rows',
    expected: 'at least one spring',
    advice: 'add rows, or remove the catalogue from the scenario',
  };
}

export function wrongCellCount(cells: number, columns: number): Complaint {
  return {
    found: `a row of ${cells} cells`,
    expected: `${columns} cells, as in the header`,
    advice: 'check for a missing or extra comma; a number with a decimal comma counts as two cells',
  };
}

export function cellNotANumber(text: string, column: string): Complaint {
  const comma = /^\s*[+-]?\d+,\d+\s*$/.test(text);
  const withUnit = /^\s*[+-]?[\d.]+\s*[a-z"/]/i.test(text);
  const usual = `write a number with a decimal point, like \`${comma ? text.trim().replace(',', '.') : '17.5'}\``;
  return {
    found: shown(text),
    expected: `a number for ${quoted(column)}`,
    advice: withUnit ? 'write the number alone: its unit stands in the column name' : usual,
  };
}

export function cellMissing(column: string): Complaint {
  return {
    found: 'an empty cell',
    expected: `a number for ${quoted(column)}`,
    advice: 'fill the cell in, or remove the row',
  };
}

export function rateMissing(): Complaint {
  return {
    found: 'a row without rate and without wire and coils',
    expected: 'the rate, or wire diameter and coils to compute it from',
    advice: 'fill in the rate, or both wire and coils',
  };
}

export function cellOutside(text: string, limits: string, column: string): Complaint {
  return {
    found: shown(text),
    expected: `${quoted(column)} ${limits}`,
    advice: "check the number, and the unit in the column's name",
  };
}

export function repeatedRow(firstLine: number): Complaint {
  return {
    found: `the same spring as in line ${firstLine}`,
    expected: 'each spring once',
    advice: 'remove one of the two rows: it would be tried and listed twice',
  };
}

const CSV_FAULTS: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: 'a quote that is never closed',
  CSV_MAX_RECORD_SIZE: 'a row of tens of thousands of characters, perhaps behind a quote that is never closed',
};

export function csvError(code: string): Complaint {
  return {
    found: CSV_FAULTS[code] ?? `CSV that cannot be read (${code})`,
    expected: 'comma-separated values; a cell that holds a comma or a quote stands in quotes, quotes in it doubled',
    advice: 'check the quotes in this row',
  };
}

export function nothingLeft(rows: number): Complaint {
  return {
    found: `none of the ${rows} springs of the catalogue inside \`only\``,
    expected: 'at least one spring',
    advice: 'widen the ranges in `only`',
  };
}

export function tooManyRows(most: number): Complaint {
  return {
    found: `more than ${plainNumber(most)} springs`,
    expected: `at most ${plainNumber(most)} rows`,
    advice: 'leave out springs that cannot fit; rows from here on were not read',
  };
}

export function furtherProblems(count: number): Complaint {
  return {
    found: `${plainNumber(count)} further problems in this file`,
    expected: 'a catalogue without problems',
    advice: 'correct those above first: many often have one cause',
  };
}
