/** The head of the page: name, what is not whole, and what in the input looks like a slip of the pen. */
import type { InputWarning } from '../model/scenario.ts';
import type { Result } from '../result/result.ts';
import { answersOf } from './text/answers.ts';
import { count, PAGE } from './text/numbers.ts';
import { restsInShort } from './text/settling.ts';
import { capital } from './text/working.ts';

/** More than these would push the answer off the first screen. */
const MOST_SHOWN = 6;

export interface WarningsView {
  /** `2 figures are not usual`, for a sentence. */
  readonly count: string;
  readonly shown: readonly WarningView[];
  /** `and 3 more`; empty where all are shown. */
  readonly more: string;
}

export interface WarningView {
  /** `scenario.yaml, line 12, column 20` */
  readonly place: string;
  readonly found: string;
  readonly usual: string;
  readonly advice: string;
}

export function mastheadView(result: Result) {
  const { scenario, incomplete, notes = [] } = result;
  return {
    title: scenario.name,
    description: scenario.description,
    incomplete: incomplete ? { judged: count(incomplete.judged, PAGE), of: count(incomplete.of, PAGE) } : null,
    notes,
    warnings: warningsView(result),
    rests: restsInShort(answersOf(result)),
  };
}

/** Null where nothing looks like a slip. */
export function warningsView({ warnings = [] }: Result): WarningsView | null {
  const n = warnings.length;
  if (n === 0) return null;
  const rest = n - MOST_SHOWN;
  return {
    count: n === 1 ? 'One figure is not usual' : `${count(n, PAGE)} figures are not usual`,
    shown: warnings.slice(0, MOST_SHOWN).map(warningView),
    more: rest > 0 ? `And ${count(rest, PAGE)} more` : '',
  };
}

function warningView({ file, line, column, found, usual, advice }: InputWarning): WarningView {
  return {
    place: `${file}, line ${line}, column ${column}`,
    found: asWords(found),
    usual: asWords(usual),
    advice: capital(asWords(advice)),
  };
}

/** What is set off by backticks in a terminal stands in quotes on a page. */
function asWords(text: string): string {
  return text.replace(/`([^`]*)`/g, '“$1”');
}
