/** Sentences about one value: a quantity, a number, a word, a range. */
import type { Complaint } from '../problems.ts';
import { either, plainNumber, quantityInWords, shown } from './words.ts';

/** What a value must be, in words: `a length with its unit (mm, cm, m, in or ft)`. */
export interface Wanted {
  readonly noun: string;
  /** Symbols of the units that fit, the program's own first; empty for a bare number. */
  readonly units: readonly string[];
}

export function wantedInWords({ noun, units }: Wanted): string {
  return units.length === 0 ? `${noun} without a unit` : `${noun} with its unit (${either(units)})`;
}

export function missing(wanted: Wanted): Complaint {
  return {
    found: 'nothing',
    expected: wantedInWords(wanted),
    advice:
      wanted.units.length === 0 ? 'write a number' : `write a number and its unit, like \`10 ${wanted.units[0]}\``,
  };
}

export function bareNumber(value: unknown, wanted: Wanted): Complaint {
  const [first = '', ...others] = wanted.units.map((unit) => `\`${String(value).trim()} ${unit}\``);
  const also = others.length > 0 ? ` (or ${either(others)})` : '';
  return {
    found: `${shown(value)} without a unit`,
    expected: wantedInWords(wanted),
    advice: `write ${first}${also}, whichever was measured`,
  };
}

export function wrongUnit(text: string, unit: string, wanted: Wanted): Complaint {
  return {
    found: `${shown(text)}, whose unit ${shown(unit)} does not fit here`,
    expected: wantedInWords(wanted),
    advice: `give the value in ${either(wanted.units)}`,
  };
}

export function decimalComma(text: string, rewritten: string, wanted: Wanted): Complaint {
  return {
    found: `${shown(text)} with a comma`,
    expected: `${wantedInWords(wanted)} and a point as decimal sign`,
    advice: `write \`${rewritten}\` if the comma is a decimal sign; thousands are written without a separator`,
  };
}

export function fraction(text: string, rewritten: string, wanted: Wanted): Complaint {
  return { found: `the fraction ${shown(text)}`, expected: wantedInWords(wanted), advice: `write \`${rewritten}\`` };
}

export function notAQuantity(value: unknown, wanted: Wanted): Complaint {
  const example = wanted.units.length === 0 ? '1.5' : `10 ${wanted.units[0]}`;
  return { found: shown(value), expected: wantedInWords(wanted), advice: `write it like \`${example}\`` };
}

export function notFinite(value: unknown, wanted: Wanted): Complaint {
  return {
    found: `${shown(value)}, which is not a finite number`,
    expected: wantedInWords(wanted),
    advice: 'write the measured number, or leave an optional field out',
  };
}

export function unitNotWanted(text: string, number: string, wanted: Wanted): Complaint {
  return {
    found: shown(text),
    expected: wantedInWords(wanted),
    advice: `write it as a bare number, like \`${number}\`, without unit or quotes`,
  };
}

export function outsideRange(value: unknown, limits: string, wanted: Wanted): Complaint {
  return {
    found: shown(value),
    expected: `${wanted.noun} ${limits}`,
    advice: 'check the number, its sign and its unit',
  };
}

export function emptyList(): Complaint {
  return { found: 'an empty list', expected: 'at least one value', advice: 'list the values to try' };
}

export function repeatedValue(value: number, unit: string): Complaint {
  return {
    found: `${quantityInWords(value, unit)} a second time`,
    expected: 'values that differ',
    advice: 'remove the repeated value: it would be tried twice',
  };
}

export function stepNotPositive(value: unknown): Complaint {
  return {
    found: `the step ${shown(value)}`,
    expected: 'a step above 0',
    advice: 'count upwards: `from` is the least value',
  };
}

export function rangeReversed(from: number, to: number, unit: string): Complaint {
  return {
    found: `a range from ${quantityInWords(from, unit)} to ${quantityInWords(to, unit)}`,
    expected: '`to` not below `from`',
    advice: 'exchange the two values',
  };
}

export function rangeTooLong(count: number, most: number): Complaint {
  return {
    found: `a range of ${plainNumber(count)} values`,
    expected: `at most ${most} values`,
    advice: 'use a larger step or a shorter range',
  };
}

export function notARange(): Complaint {
  return {
    found: 'a mapping',
    expected: 'one value, a list of values, or a range `{ from: ..., to: ..., step: ... }`',
    advice: 'write all of `from`, `to` and `step`, and nothing else',
  };
}

export function notTwoValues(value: unknown, wanted: Wanted): Complaint {
  return {
    found: shown(value),
    expected: `two values \`[from, to]\`, each ${wantedInWords(wanted)}`,
    advice: 'write the lower and the upper end, like `[315 mm, 345 mm]`',
  };
}
