/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> views of the sections (charts drawn) --templates--> page
 */
import { createHash } from 'node:crypto';
import type { Result, SetupResult } from '../domain/result.ts';
import { type Answer, answerOf, answersOf, isInFull } from './answers.ts';
import { cautionViews } from './cautions.ts';
import { embeddedJson, liveJson } from './embed.ts';
import { mapStrings, visibleInPage } from './escape.ts';
import { leanPage } from './lean.ts';
import { untoleranced } from './measure/untoleranced.ts';
import { count, PAGE } from './numbers.ts';
import { pageScript } from './pageScripts.ts';
import { aloneView, answerView } from './sections/answer.ts';
import { bandsViews } from './sections/bands.ts';
import { buildView } from './sections/build.ts';
import { buildSheetViews } from './sections/buildSheet.ts';
import { drawingsView } from './sections/drawing.ts';
import { forcesView } from './sections/forces.ts';
import { funnelView } from './sections/funnel.ts';
import { givenView } from './sections/given.ts';
import { loadCasesView } from './sections/loadCases.ts';
import { mapsView } from './sections/maps.ts';
import { paperNotes, screenOnly } from './sections/paper.ts';
import { planView } from './sections/plan.ts';
import { provenanceView } from './sections/provenance.ts';
import { planOrderView, purchaseView } from './sections/purchase.ts';
import { shortlistView } from './sections/shortlist.ts';
import { surenessView } from './sections/sureness.ts';
import { tasteView } from './sections/taste.ts';
import { warningsView } from './sections/warnings.ts';
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
  const answers = answersOf(result);
  const windows = [];
  for (const answer of answers) windows.push(await windowsView(result, answer, answer === answers[0]));
  const { drawings, forces, maps } = await pictures(result, answers);
  const sureness = await surenessViews(answers);
  const shortlists = isBuild
    ? []
    : found.map((setup) => shortlistView(setup, isPrinted(result, setup), found.length === 1));
  const isPlanned = answers.some(({ plan }) => plan !== null);
  const views = {
    title: scenario.name,
    description: scenario.description,
    incomplete: incompleteView(result),
    notes: result.notes ?? [],
    warnings: warningsView(result),
    isBuild,
    answers: setups.map((setup) => answerView(result, setup)),
    paperNotes: paperNotes(answers),
    isPlanned,
    plan: planView(result),
    alone: given(setups.map((setup) => aloneView(result, setup))),
    shortlists,
    filtersTight: shortlists.some(({ anyTight, allTight }) => anyTight && !allTight),
    printsShortlist: found.some((setup) => isPrinted(result, setup)),
    drawings,
    forces,
    windows,
    loadCases: given(found.map(loadCasesView)),
    maps,
    sureness,
    untoleranced: untoleranced(),
    purchases: isBuild ? [] : given(found.map((setup) => purchaseView(result, setup))),
    planOrder: planOrderView(result),
    tastes: isBuild ? [] : given(found.map(tasteView)),
    whyNots: given(setups.map(whyNotView)),
    funnels: isBuild ? [] : setups.map(funnelView),
    builds: isBuild ? found.flatMap((setup) => setup.shortlist.map((c) => buildView(setup, c))) : [],
    buildSheets: buildSheetViews(result),
    workshop: workshopView(result),
    cautions: cautionViews(),
    given: givenView(result),
    provenance: provenanceView(result),
  };
  const long = { ...views, plans: views.plan ? [views.plan] : [] };
  return { ...views, screenOnly: screenOnly(leftToScreen(long)) };
}

/** In the order of the page. */
function leftToScreen(views: Record<LongPart, readonly unknown[]>): (readonly [string, boolean])[] {
  return LONG_PARTS.map(([part, name, least]) => [name, views[part].length >= least] as const);
}

/** Parts of the page that print leaves out, from how many of them on. */
const LONG_PARTS = [
  ['plans', 'further plans and what a set of springs for each setup would gain', 1],
  ['alone', 'what each setup would choose by itself', 1],
  ['shortlists', 'the rest of the shortlist and how the scores come about', 1],
  ['purchases', 'the purchases compared', 1],
  ['tastes', 'other weights', 1],
  ['drawings', 'drawings and charts of the further setups', 2],
  ['loadCases', 'load cases', 1],
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

/** How sure what is bought is, in words, figures and pictures. */
async function surenessViews(answers: readonly Answer[]) {
  const views = [];
  for (const { setup, combination } of answers.filter(isInFull)) {
    views.push({ ...surenessView(setup, combination), pictures: await bandsViews(combination) });
  }
  return views;
}

/** Paper shows one build: of a setup that a plan serves, only the plan’s. */
function isPrinted(result: Result, setup: SetupResult): boolean {
  return !answerOf(result, setup)?.plan;
}

/** Said at the top of a page whose sweep was stopped. */
function incompleteView({ incomplete }: Result) {
  return incomplete ? { judged: count(incomplete.judged, PAGE), of: count(incomplete.of, PAGE) } : null;
}

/** Drawings and charts of each setup that has them; one after the other, since drawing counts its definitions. */
async function pictures(result: Result, answers: readonly Answer[]) {
  const forces = [];
  const maps = [];
  for (const answer of answers) {
    // Print shows the pictures of the first setup.
    forces.push(await forcesView(result, answer, answer === answers[0]));
    maps.push(await mapsView(result, answer));
  }
  return {
    drawings: given(answers.map((answer) => drawingsView(result, answer))),
    forces: given(forces),
    maps: given(maps),
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
