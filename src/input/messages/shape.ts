/** Sentences about the shape of a scenario: keys, lists, words to choose from. */
import type { Complaint } from '../problems.ts';
import { either, harmless, shown } from './words.ts';

const quoted = (word: string): string => `\`${harmless(word)}\``;

export function unknownKey(key: string, nearest: string | null, known: readonly string[]): Complaint {
  return {
    found: `the unknown field ${shown(key)}`,
    expected: known.length === 0 ? 'no further field' : `one of ${known.map(quoted).join(', ')}`,
    advice: nearest === null ? 'remove it, or use one of the known fields' : `did you mean ${quoted(nearest)}?`,
  };
}

export function missingField(name: string, description: string): Complaint {
  return {
    found: `no field ${quoted(name)}`,
    expected: description === '' ? quoted(name) : `${quoted(name)}: ${description}`,
    advice: `add ${quoted(name)} here`,
  };
}

export function wrongType(value: unknown, expected: string): Complaint {
  return { found: shown(value), expected, advice: adviceForType(expected) };
}

function adviceForType(expected: string): string {
  if (expected.startsWith('a list'))
    return 'start each entry with `- ` on its own line, or put the entries in brackets [ ]';
  if (expected === 'text') return 'put the text in quotes';
  if (expected.startsWith('a mapping')) return 'write `field: value` lines, indented below the name';
  return `write ${expected}`;
}

export function emptyEntries(): Complaint {
  return { found: 'an empty list', expected: 'at least one entry', advice: 'list at least one alternative' };
}

export function tooMany(count: number, most: number): Complaint {
  return { found: `${count} entries`, expected: `at most ${most}`, advice: 'shorten the list' };
}

export function notOneOf(value: unknown, choices: readonly string[], nearest: string | null): Complaint {
  const words = choices.map(quoted);
  return {
    found: shown(value),
    expected: either(words),
    advice: nearest === null ? `choose ${either(words)}` : `did you mean ${quoted(nearest)}?`,
  };
}

export function badName(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'text of 1 to 80 characters on one line',
    advice: 'give a short name; put it in quotes when it looks like a number',
  };
}

export function badSetupName(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'a setup name of 1 to 12 small letters, digits or underscores, like `low` or `track_day`',
    advice: 'shorten or respell the name; it becomes part of every combination id',
  };
}

export function badText(value: unknown): Complaint {
  return { found: shown(value), expected: 'text of at most 2000 characters', advice: 'shorten the text' };
}

export function badVersion(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'the format version `1`',
    advice: 'start the file with `springsift: 1`; a higher number needs a newer version of the program',
  };
}
