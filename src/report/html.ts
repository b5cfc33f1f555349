/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> sections (charts drawn) --templates--> page
 */
import type { Result } from '../result/result.ts';
import { embeddedJson, liveJson } from './embed.ts';
import { pageScript } from './frame/scripts.ts';
import { pageOf, type ShownSection } from './frame/section.ts';
import { renderPage } from './frame/templates.ts';
import { mastheadView } from './masthead.ts';
import { showSections } from './sections.ts';
import { mapStrings, visibleInPage } from './text/escape.ts';

/** The page’s own scripts, in the order in which they run; the bench only where it has numbers to start from. */
const scriptsOf = ({ live }: Result) => ['page', ...(live ? ['bench'] : [])];

export async function reportHtml(result: Result): Promise<string> {
  const scripts = await Promise.all(scriptsOf(result).map(pageScript));
  const view = {
    ...(await pageView(mapStrings(result, visibleInPage))),
    embedded: embeddedJson(result),
    live: liveJson(result),
  };
  return renderPage('page', view, scripts);
}

/** Draws what a result has so far: with its charts kept and templates compiled, the page of the whole comes sooner. */
export async function sketch(result: Result): Promise<void> {
  await renderPage('page', { ...(await pageView(mapStrings(result, visibleInPage))), embedded: '', live: null });
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
