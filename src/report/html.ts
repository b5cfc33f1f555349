/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> views of the sections (charts drawn) --templates--> page
 */
import { createHash } from 'node:crypto';
import type { Result, SetupResult } from '../domain/result.ts';
import { embeddedJson, liveJson } from './embed.ts';
import { mapStrings, visibleInPage } from './escape.ts';
import { leanPage } from './lean.ts';
import { count, PAGE } from './numbers.ts';
import { pageScript } from './pageScripts.ts';
import { answerView } from './sections/answer.ts';
import { bandsViews } from './sections/bands.ts';
import { buildView } from './sections/build.ts';
import { buildSheetViews } from './sections/buildSheet.ts';
import { drawingsView } from './sections/drawing.ts';
import { forcesView } from './sections/forces.ts';
import { funnelView } from './sections/funnel.ts';
import { givenView } from './sections/given.ts';
import { mapsView } from './sections/maps.ts';
import { paperNotes, screenOnly } from './sections/paper.ts';
import { planView } from './sections/plan.ts';
import { provenanceView } from './sections/provenance.ts';
import { planOrderView, purchaseView } from './sections/purchase.ts';
import { shortlistView } from './sections/shortlist.ts';
import { surenessView } from './sections/sureness.ts';
import { tasteView } from './sections/taste.ts';
import { whyNotView } from './sections/whyNot.ts';
import { windowsView } from './sections/windows.ts';
import { workshopView } from './sections/workshop.ts';
import { loadTemplates } from './templates.ts';
import { themeCss } from './theme.ts';

/** The page’s own scripts, in the order in which they run; the bench only where it has numbers to start from. */
const scriptsOf = ({ live }: Result) => ['page', ...(live ? ['bench'] : [])];

export async function reportHtml(result: Result): Promise<string> {
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}`);
  const scripts = await Promise.all(scriptsOf(result).map(pageScript));
  const page = templates.page({
    ...(await sectionViews(mapStrings(result, visibleInPage))),
    css,
    scripts,
    policy: contentPolicy(css, scripts),
    embedded: embeddedJson(result),
    live: liveJson(result),
  });
  return leanPage(page);
}

/** Draws what a result has so far and keeps its charts, so that the page of the whole result is drawn sooner. */
export async function sketch(result: Result): Promise<void> {
  await sectionViews(mapStrings(result, visibleInPage));
}

async function sectionViews(result: Result) {
  const { mode, scenario, setups } = result;
  const isBuild = mode === 'build';
  const found = setups.filter((setup) => setup.shortlist.length > 0);
  const windows = [];
  for (const setup of found) windows.push(await windowsView(result, setup, setup === found[0]));
  const { drawings, forces, maps } = await pictures(result, found);
  const sureness = await surenessViews(found);
  const views = {
    title: scenario.name,
    description: scenario.description,
    incomplete: incompleteView(result),
    notes: result.notes ?? [],
    isBuild,
    answers: setups.map((setup) => answerView(result, setup)),
    paperNotes: paperNotes(setups),
    plan: planView(result),
    shortlists: isBuild ? [] : found.map((setup) => shortlistView(setup, found.length === 1)),
    drawings,
    forces,
    windows,
    maps,
    sureness,
    purchases: isBuild ? [] : given(found.map((setup) => purchaseView(result, setup))),
    planOrder: planOrderView(result),
    tastes: isBuild ? [] : given(found.map(tasteView)),
    whyNots: given(setups.map(whyNotView)),
    funnels: isBuild ? [] : setups.map(funnelView),
    builds: isBuild ? found.flatMap((setup) => setup.shortlist.map((c) => buildView(setup, c))) : [],
    buildSheets: buildSheetViews(result),
    workshop: workshopView(result),
    given: givenView(result),
    provenance: provenanceView(result),
  };
  return { ...views, screenOnly: screenOnly(leftToScreen(views)) };
}

/** In the order of the page. */
function leftToScreen(views: Record<LongPart, readonly unknown[]>): (readonly [string, boolean])[] {
  return LONG_PARTS.map(([part, name, least]) => [name, views[part].length >= least] as const);
}

/** Parts of the page that print leaves out, from how many of them on. */
const LONG_PARTS = [
  ['shortlists', 'the rest of the shortlist and how the scores come about', 1],
  ['purchases', 'the purchases compared', 1],
  ['tastes', 'other weights', 1],
  ['drawings', 'drawings and charts of the further setups', 2],
  ['maps', 'maps', 1],
  ['sureness', 'tolerances of every number', 1],
  ['funnels', 'why the rest fail', 1],
  ['whyNots', 'cures', 1],
  ['builds', 'every number with its formula', 1],
] as const;
type LongPart = (typeof LONG_PARTS)[number][0];

/** Views of the setups that have one. */
function given<View>(views: readonly (View | null)[]): View[] {
  return views.filter((view) => view !== null);
}

/** How sure the best of each setup is, in words, figures and pictures. */
async function surenessViews(setups: readonly SetupResult[]) {
  const views = [];
  for (const setup of setups) {
    const [best] = setup.shortlist;
    if (best) views.push({ ...surenessView(setup, best), pictures: await bandsViews(best) });
  }
  return views;
}

/** Said at the top of a page whose sweep was stopped. */
function incompleteView({ incomplete }: Result) {
  return incomplete ? { judged: count(incomplete.judged, PAGE), of: count(incomplete.of, PAGE) } : null;
}

/** Drawings and charts of each setup that has them; one after the other, since drawing counts its definitions. */
async function pictures(result: Result, setups: readonly SetupResult[]) {
  const forces = [];
  const maps = [];
  for (const setup of setups) {
    // Print shows the pictures of the first setup.
    forces.push(await forcesView(result, setup, setup === setups[0]));
    maps.push(await mapsView(result, setup));
  }
  return {
    drawings: setups.map((setup) => drawingsView(result, setup)).filter((view) => view !== null),
    forces: forces.filter((view) => view !== null),
    maps: maps.filter((view) => view !== null),
  };
}

/**
 * Nothing may be loaded or sent. The one style sheet and the page's own scripts are known by their digests: style
 * attributes, handlers in attributes and any other script are refused.
 */
export function contentPolicy(css: string, scripts: readonly string[] = []): string {
  const allowed = scripts.length > 0 ? scripts.map(digestOf).join(' ') : "'none'";
  return `default-src 'none'; style-src ${digestOf(css)}; script-src ${allowed}; img-src data:; base-uri 'none'; form-action 'none'`;
}

function digestOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}

/** Comments, indentation and blanks are for whoever edits the styles; what stands in quotes is for the reader. */
export function minified(css: string): string {
  const pieces = css.replace(/\/\*[\s\S]*?\*\//g, '').split(/("[^"\n]*"|'[^'\n]*')/);
  return pieces
    .map((piece, k) => (k % 2 === 1 ? piece : withoutBlanks(piece)))
    .join('')
    .trim();
}

function withoutBlanks(css: string): string {
  return css
    .replace(/\s*\n\s*/g, '\n')
    .replace(/\s*([{};])\s*/g, '$1')
    .replace(/,\s+/g, ',')
    .replace(/(?<=[{;][\w-]+):\s+/g, ':')
    .replace(/;}/g, '}')
    .replace(/(?<=[\s:(,])0\.(?=\d)/g, '.');
}
