/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> sections (charts drawn) --templates--> page
 */

import { capital } from '../model/corner/messages.ts';
import type { InputWarning } from '../model/scenario.ts';
import type { Result } from '../result/result.ts';
import { embeddedJson, liveJson } from './embed.ts';
import { pageOf, type ShownSection } from './frame/section.ts';
import { pageScript, renderPage } from './frame/templates.ts';
import { showSections } from './sections.ts';
import { answersOf } from './text/answers.ts';
import { mapStrings, visibleInPage } from './text/escape.ts';
import { count, PAGE } from './text/numbers.ts';
import { restsInShort } from './text/settling.ts';

/** The page’s own scripts, in the order in which they run; the bench only where it has numbers to start from. */
const scriptsOf = ({ live }: Result) => ['page', ...(live ? ['bench'] : [])];

export async function reportHtml(result: Result): Promise<string> {
  const [embedded, view, ...scripts] = await Promise.all([
    embeddedJson(result),
    pageView(mapStrings(result, visibleInPage)),
    ...scriptsOf(result).map(pageScript),
  ]);
  return renderPage('page', { ...view, embedded, live: liveJson(result) }, scripts);
}

let isCompiled = false;

/** Draws a part of a result: with its charts kept and templates compiled, the page of the whole comes sooner. */
export async function sketch(result: Result): Promise<void> {
  const view = await pageView(mapStrings(result, visibleInPage));
  if (!isCompiled) await renderPage('page', { ...view, embedded: '', live: null });
  isCompiled = true;
}

async function pageView(result: Result) {
  const sections = await showSections(pageOf(result));
  return { ...mastheadView(result), sections, boxes: boxesOf(sections) };
}

interface Box {
  /** Null around a section that stands by itself. */
  readonly name: string | null;
  readonly sections: ShownSection[];
}

function boxesOf(sections: readonly ShownSection[]): Box[] {
  const boxes: Box[] = [];
  for (const section of sections) {
    const last = boxes.at(-1);
    if (last && last.name !== null && last.name === section.beside) last.sections.push(section);
    else boxes.push({ name: section.beside, sections: [section] });
  }
  return boxes;
}

// The head of the page: name, what is not whole, and what in the input looks like a slip of the pen.

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
