/** Sentences about files as a whole and about YAML itself. */
import type { Complaint } from '../problems.ts';
import { harmless, shown } from './words.ts';

const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;

export function fileNotFound(what: string): Complaint {
  return { found: 'no such file', expected: what, advice: 'check the path and its spelling, capitals included' };
}

export function fileUnreadable(what: string, code: string): Complaint {
  return {
    found: `a file that cannot be read (${code})`,
    expected: what,
    advice: 'check that it is a file and may be read',
  };
}

export function fileTooLarge(bytes: number, most: number): Complaint {
  return {
    found: `a file of ${megabytes(bytes)}`,
    expected: `at most ${megabytes(most)}`,
    advice: 'move spring lists into catalogue files, or split the catalogue',
  };
}

export function fileNotText(): Complaint {
  return {
    found: 'bytes that are not UTF-8 text',
    expected: 'a plain text file in UTF-8',
    advice: 'save the file as text with UTF-8 encoding',
  };
}

export function fileEmpty(what: string): Complaint {
  return { found: 'an empty file', expected: what, advice: 'fill in the file, or name another one' };
}

export function outsideFolder(path: string): Complaint {
  return {
    found: `${shown(path)}, which lies outside the scenario's folder`,
    expected: "a file in the scenario's folder or below it, by a relative path",
    advice: 'copy the file beside the scenario, or say --allow-outside if you trust whoever wrote the scenario',
  };
}

export function repeatedKey(): Complaint {
  return {
    found: 'a field that stands in this mapping already',
    expected: 'each field once',
    advice: 'remove or rename one of the two: only one value can count',
  };
}

export function furtherProblems(count: number): Complaint {
  return {
    found: `${count} further problems in this file`,
    expected: 'a scenario without problems',
    advice: 'correct those above first: many often have one cause',
  };
}

export function yamlError(message: string, code: string): Complaint {
  return {
    found: `YAML that cannot be read: ${harmless(message)}`,
    expected: 'valid YAML 1.2',
    advice: yamlAdvice(code),
  };
}

function yamlAdvice(code: string): string {
  switch (code) {
    case 'TAB_AS_INDENT':
      return 'indent with spaces, not tabs';
    case 'BAD_INDENT':
      return 'line the fields of one mapping up in the same column';
    case 'MULTIPLE_DOCS':
      return 'keep one document per file: remove the line `---` in the middle';
    case 'TAG_RESOLVE_FAILED':
      return 'remove the tag: plain values are enough';
    default:
      return 'check indentation, colons, quotes and brackets here and on the line before';
  }
}

export function unresolvedAlias(name: string): Complaint {
  return {
    found: `the alias ${shown(`*${name}`)} without an anchor before it`,
    expected: 'an alias that repeats an anchor written earlier',
    advice: `write ${shown(`&${name}`)} at the value to repeat, above this line`,
  };
}

export function tooManyAliases(): Complaint {
  return {
    found: 'aliases that multiply beyond reason',
    expected: 'a scenario of moderate size once its aliases are filled in',
    advice: 'do not nest aliases of aliases; use ranges to describe many alternatives',
  };
}

export function circularAlias(): Complaint {
  return {
    found: 'an alias that contains itself',
    expected: 'finite data',
    advice: 'move the anchor to the inner value',
  };
}

export function tooDeep(): Complaint {
  return {
    found: 'brackets or indentation nested too deeply',
    expected: 'a scenario file',
    advice: 'check for unclosed brackets',
  };
}

export function notAMapping(value: unknown): Complaint {
  return {
    found: shown(value),
    expected: 'a scenario: a mapping that starts with `springsift: 1`',
    advice: 'check that this is the scenario file',
  };
}
