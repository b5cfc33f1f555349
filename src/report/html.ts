/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> views of the sections (charts drawn) --templates--> page
 */
import { createHash } from 'node:crypto';
import type { Result, SetupResult } from '../domain/result.ts';
import { jsonInScript, mapStrings, visibleInPage } from './escape.ts';
import { count, PAGE } from './numbers.ts';
import { answerView } from './sections/answer.ts';
import { buildView } from './sections/build.ts';
import { drawingsView } from './sections/drawing.ts';
import { forcesView } from './sections/forces.ts';
import { funnelView } from './sections/funnel.ts';
import { givenView } from './sections/given.ts';
import { mapsView } from './sections/maps.ts';
import { planView } from './sections/plan.ts';
import { provenanceView } from './sections/provenance.ts';
import { planOrderView, purchaseView } from './sections/purchase.ts';
import { shortlistView } from './sections/shortlist.ts';
import { surenessView } from './sections/sureness.ts';
import { tasteView } from './sections/taste.ts';
import { whyNotView } from './sections/whyNot.ts';
import { windowsView } from './sections/windows.ts';
import { loadTemplates } from './templates.ts';
import { themeCss } from './theme.ts';

export async function reportHtml(result: Result): Promise<string> {
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}`);
  return templates.page({
    ...(await sectionViews(mapStrings(result, visibleInPage))),
    css,
    policy: contentPolicy(css),
    embedded: jsonInScript(result),
  });
}

async function sectionViews(result: Result) {
  const { mode, scenario, setups } = result;
  const isBuild = mode === 'build';
  const found = setups.filter((setup) => setup.shortlist.length > 0);
  const windows = [];
  for (const setup of found) windows.push(await windowsView(result, setup));
  const { drawings, forces, maps } = await pictures(result, found);
  return {
    title: scenario.name,
    description: scenario.description,
    incomplete: incompleteView(result),
    notes: result.notes ?? [],
    isBuild,
    answers: setups.map((setup) => answerView(result, setup)),
    plan: planView(result),
    shortlists: isBuild ? [] : found.map(shortlistView),
    drawings,
    forces,
    windows,
    maps,
    sureness: found.flatMap((setup) => setup.shortlist.slice(0, 1).map((best) => surenessView(setup, best))),
    purchases: isBuild ? [] : given(found.map((setup) => purchaseView(result, setup))),
    planOrder: planOrderView(result),
    tastes: isBuild ? [] : given(found.map(tasteView)),
    whyNots: given(setups.map(whyNotView)),
    funnels: isBuild ? [] : setups.map(funnelView),
    builds: isBuild ? found.flatMap((setup) => setup.shortlist.map((c) => buildView(setup, c))) : [],
    given: givenView(result),
    provenance: provenanceView(result),
  };
}

/** Views of the setups that have one. */
function given<View>(views: readonly (View | null)[]): View[] {
  return views.filter((view) => view !== null);
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
    forces.push(await forcesView(result, setup));
    maps.push(await mapsView(result, setup));
  }
  return {
    drawings: setups.map((setup) => drawingsView(result, setup)).filter((view) => view !== null),
    forces: forces.filter((view) => view !== null),
    maps: maps.filter((view) => view !== null),
  };
}

/** Nothing may be loaded, run or sent; the one style sheet is known by its digest, and style attributes are refused. */
export function contentPolicy(css: string): string {
  const digest = createHash('sha256').update(css).digest('base64');
  return `default-src 'none'; style-src 'sha256-${digest}'; img-src data:; base-uri 'none'; form-action 'none'`;
}

/** Comments and indentation are for whoever edits the styles. */
export function minified(css: string): string {
  return css
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s*\n\s*/g, '\n')
    .trim();
}
