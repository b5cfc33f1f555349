/**
 * The report: one HTML file that asks for nothing, is complete without JavaScript, and carries its own result.
 *
 *   result --made visible--> views of the sections (charts drawn) --templates--> page
 */
import { createHash } from 'node:crypto';
import type { Result } from '../domain/result.ts';
import { jsonInScript, mapStrings, visibleInPage } from './escape.ts';
import { answerView } from './sections/answer.ts';
import { buildView } from './sections/build.ts';
import { funnelView } from './sections/funnel.ts';
import { givenView } from './sections/given.ts';
import { provenanceView } from './sections/provenance.ts';
import { shortlistView } from './sections/shortlist.ts';
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
  return {
    title: scenario.name,
    description: scenario.description,
    isBuild,
    answers: setups.map((setup) => answerView(result, setup)),
    shortlists: isBuild ? [] : found.map(shortlistView),
    windows,
    funnels: isBuild ? [] : setups.map(funnelView),
    builds: isBuild ? found.flatMap((setup) => setup.shortlist.map((c) => buildView(setup, c))) : [],
    given: givenView(result),
    provenance: provenanceView(result),
  };
}

/** Nothing may be loaded, run or sent; the one style sheet is known by its digest, and style attributes are refused. */
function contentPolicy(css: string): string {
  const digest = createHash('sha256').update(css).digest('base64');
  return `default-src 'none'; style-src 'sha256-${digest}'; img-src data:; base-uri 'none'; form-action 'none'`;
}

/** Comments and indentation are for whoever edits the styles. */
function minified(css: string): string {
  return css
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s*\n\s*/g, '\n')
    .trim();
}
