/** Every sentence about reports that are opened again. */
import type { Difference } from '../../model/differences.ts';
import type { EmbedFault } from '../../report/embed.ts';
import { visible } from '../../report/text/escape.ts';
import type { InputFile, Result } from '../../result/result.ts';
import { whole } from './messages.ts';

/** One problem as three lines, the first of which an editor's terminal can jump to. */
function problem(path: string, place: string, found: string, expected: string, advice: string): string {
  return `${visible(path)}${place}: found ${found}\n  expected: ${expected}\n  advice: ${advice}`;
}

const REPORT = 'a report.html that springsift wrote';
export const noReport = (path: string, found: string) => problem(path, '', found, REPORT, 'check the path');

export function noResult(path: string, fault: EmbedFault, thisVersion: string): string {
  const at = fault.kind === 'no result' ? '1:1' : `${fault.place.line}:${fault.place.column}`;
  return problem(path, `:${at}`, ...faultInWords(fault, thisVersion));
}

const ANOTHER = 'take another copy of the report, or sweep its scenario again';
const AS_WRITTEN = 'the result as it was written';
const CHANGED = `the report was changed after it was written, so do not trust its numbers: ${ANOTHER}`;

function faultInWords(
  fault: EmbedFault,
  thisVersion: string,
): readonly [found: string, expected: string, advice: string] {
  switch (fault.kind) {
    case 'no result':
      return [
        'a page without a result of springsift',
        REPORT,
        'name a report.html of springsift; a comparison, or a page that a browser saved anew, carries none',
      ];
    case 'cut off':
      return ['the end of the file within the result', 'the whole report', ANOTHER];
    case 'no JSON':
      return ['a result that stops being JSON here', AS_WRITTEN, ANOTHER];
    case 'damaged':
      return [`a result that is damaged at ${visible(fault.where)}: ${visible(fault.what)}`, AS_WRITTEN, ANOTHER];
    case 'newer': {
      const advice = `open it with the springsift that wrote it or a later one; this is ${thisVersion}`;
      return [`version ${fault.version} of the ${fault.what}`, `version ${fault.known}`, advice];
    }
    case 'input changed':
      return [
        `an input ${visible(fault.path)} whose text does not match its sha256`,
        'the input as it was swept',
        CHANGED,
      ];
    case 'result changed':
      return ['a result that does not match its sha256', AS_WRITTEN, CHANGED];
  }
}

export const unsafePath = (path: string, input: string) =>
  `${visible(path)}: its input '${visible(input)}' would not lie inside the folder. Nothing was written; its text stands in results.json (--take json).`;
export const takeNeedsOut = () => '--take says what to write: say where with --out DIR.';

export function opened({ tool, version, upgraded_from: from, inputs }: Result, thisVersion: string): string {
  const other = tool.version === thisVersion ? '' : ` (this is ${thisVersion})`;
  const written = `written by springsift ${tool.version}${other}, result version ${from ?? version}`;
  const read = from === undefined ? '' : `, read as version ${version}: what version ${from} did not tell is left out`;
  return [`${written}${read}`, ...inputs.map(inputLine)].join('\n');
}

function inputLine({ path, bytes, sha256 }: InputFile): string {
  return `  input ${visible(path)}: ${whole(bytes)} bytes, sha256 ${sha256}, as it was swept`;
}

export const otherTool = (before: string, now: string) =>
  `The report was written by springsift ${before}, this is ${now}.`;
export const stoppedReport = ({ judged, of }: { readonly judged: number; readonly of: number }) =>
  `The report is of a sweep that was stopped after ${whole(judged)} of ${whole(of)} combinations: there is no whole result to compare with. Write its inputs with --take inputs --out DIR and sweep those.`;
export const inputsNoLongerRead = (count: number) =>
  `${count} ${count === 1 ? 'problem' : 'problems'} in the inputs that the report carries: this springsift does not read them as the one that wrote it did. Nothing was swept.`;
export const sameAgain = () => 'The same: the inputs give the result of the report, to the last digit.';

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
