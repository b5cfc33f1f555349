/** Sentences about values that are read without a problem but are not usual: most of them are slips of the pen. */
import { either, harmless, quote } from '../problems/value.ts';
import { COMMON_PRACTICE } from '../schema/leaves.ts';

/** `beside`: the neighbour that makes it unusual; empty where the field's own band does. */
export function unusual(name: string, written: string, more: number, band: string, beside: string, slips: string[]) {
  const others = more === 0 ? '' : `, and ${more} more of its values`;
  return {
    found: `${quote(name)} of ${quote(written)}${others}`,
    expected: `${band}${beside === '' ? '' : ` beside ${harmless(beside)}`} (${COMMON_PRACTICE})`,
    advice: slips.length === 0 ? CHECK : `${either(slips)}? ${AS_IT_IS}`,
  };
}

const AS_IT_IS = 'A figure that is right may stay';
const CHECK = `check the figure. ${AS_IT_IS}`;
export const factorOfTen = (meant: string) => `a factor of ten, ${quote(meant)}`;

/** `inches meant as mm`: the number is one of the first unit and was given the second. */
export const otherUnit = (meant: string, written: string, value: string) =>
  `${UNIT_WORDS[meant] ?? meant} meant as ${UNIT_WORDS[written] ?? written}, ${quote(value)}`;

const UNIT_WORDS: Readonly<Record<string, string>> = { in: 'inches', ft: 'feet' };

const UNDER_PRESSURE =
  'the piston of a single tube runs on the inside of the body’s wall, gas pressure behind it: such a body is never grooved or welded';
export const chargeSuggestsSingleTube = (body: string) => ({
  found: `gas given as a charge pressure beside ${quote(`body: ${body}`)}`,
  expected: `${quote('body: single_tube')}: most dampers charged to a pressure are single tubes (${COMMON_PRACTICE})`,
  advice: `find out which it is and write ${quote('body')}: ${UNDER_PRESSURE}`,
});
