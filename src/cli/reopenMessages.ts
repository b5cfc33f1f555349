/** Every sentence about reports that are opened again. */
import type { Difference } from '../domain/differences.ts';
import type { InputFile, Result } from '../domain/result.ts';
import type { EmbedFault } from '../report/embed.ts';
import { visible } from '../report/escape.ts';
import { whole } from './messages.ts';

/** One problem as three lines, the first of which an editor's terminal can jump to. */
function problem(path: string, place: string, found: string, expected: string, advice: string): string {
  return `${path}${place}: found ${found}\n  expected: ${expected}\n  advice: ${advice}`;
}

const REPORT = 'a report.html that springsift wrote';
const ANOTHER = 'take another copy of the report, or sweep its scenario again';

export function noReport(path: string, found: string): string {
  return problem(path, '', found, REPORT, 'check the path');
}

export function noResult(path: string, fault: EmbedFault, thisVersion: string): string {
  if (fault.kind === 'no result') {
    const advice = 'name a report.html of springsift; a comparison, or a page that a browser saved anew, carries none';
    return problem(path, ':1:1', 'a page without a result of springsift', REPORT, advice);
  }
  const place = `:${fault.place.line}:${fault.place.column}`;
  switch (fault.kind) {
    case 'cut off':
      return problem(path, place, 'the end of the file within the result', 'the whole report', ANOTHER);
    case 'no JSON':
      return problem(path, place, 'a result that stops being JSON here', 'the result as it was written', ANOTHER);
    case 'damaged':
      return problem(
        path,
        place,
        `a result that is damaged at ${visible(fault.where)}: ${visible(fault.what)}`,
        'the result as it was written',
        ANOTHER,
      );
    case 'newer':
      return problem(
        path,
        place,
        `version ${fault.version} of the ${fault.what}`,
        'version 1',
        `open it with the springsift that wrote it or a later one; this is ${thisVersion}`,
      );
    case 'input changed':
      return problem(
        path,
        place,
        `an input ${visible(fault.path)} whose text does not match its sha256`,
        'the input as it was swept',
        `the report was changed after it was written, so do not trust its numbers: ${ANOTHER}`,
      );
    case 'result changed':
      return problem(
        path,
        place,
        'a result that does not match its sha256',
        'the result as it was written',
        `the report was changed after it was written, so do not trust its numbers: ${ANOTHER}`,
      );
  }
}

export function unsafePath(path: string, input: string): string {
  return `${path}: its input '${visible(input)}' would not lie inside the folder. Nothing was written; its text stands in results.json (--take json).`;
}

export function takeNeedsOut(): string {
  return '--take says what to write: say where with --out DIR.';
}

export function opened({ tool, version, upgraded_from: from, inputs }: Result, thisVersion: string): string {
  const other = tool.version === thisVersion ? '' : ` (this is ${thisVersion})`;
  const written = `written by springsift ${tool.version}${other}, result version ${from ?? version}`;
  const read = from === undefined ? '' : `, read as version ${version}: what version ${from} did not tell is left out`;
  return [`${written}${read}`, ...inputs.map(inputLine)].join('\n');
}

function inputLine({ path, bytes, sha256 }: InputFile): string {
  return `  input ${visible(path)}: ${whole(bytes)} bytes, sha256 ${sha256}, as it was swept`;
}

export function otherTool(before: string, now: string): string {
  return `The report was written by springsift ${before}, this is ${now}.`;
}

export function stoppedReport({ judged, of }: { readonly judged: number; readonly of: number }): string {
  return `The report is of a sweep that was stopped after ${whole(judged)} of ${whole(of)} combinations: there is no whole result to compare with. Write its inputs with --take inputs --out DIR and sweep those.`;
}

export function inputsNoLongerRead(count: number): string {
  return `${count} ${count === 1 ? 'problem' : 'problems'} in the inputs that the report carries: this springsift does not read them as the one that wrote it did. Nothing was swept.`;
}

export function sameAgain(): string {
  return 'The same: the inputs give the result of the report, to the last digit.';
}

const MOST_SHOWN = 20;

export function differsAgain(differences: readonly Difference[]): string {
  const shown = differences.slice(0, MOST_SHOWN).map(({ path, before, after }) => {
    return `  ${visible(path)}: ${short(before)} in the report, ${short(after)} now`;
  });
  const rest = differences.length - shown.length;
  const more = rest > 0 ? [`  and ${whole(rest)} more`] : [];
  const count = differences.length === 1 ? '1 value' : `${whole(differences.length)} values`;
  return [`Different: ${count}.`, ...shown, ...more].join('\n');
}

function short(json: string | null): string {
  if (json === null) return 'nothing';
  const text = visible(json);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}
