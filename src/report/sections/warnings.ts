/** What in the input looks like a slip of the pen, for the first screen. */
import type { Result } from '../../domain/result.ts';
import type { InputWarning } from '../../domain/scenario.ts';
import { count, PAGE } from '../numbers.ts';

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

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** What is set off by backticks in a terminal stands in quotes on a page. */
function asWords(text: string): string {
  return text.replace(/`([^`]*)`/g, '“$1”');
}
