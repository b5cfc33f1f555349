/** The sections of the report, in the order of the page. */
import { glossaryDrawing } from './drawing/glossary.ts';
import { type Page, type Section, type ShownSection, section } from './frame/section.ts';
import { alone, answer } from './sections/answer.ts';
import { buildSheet } from './sections/buildSheet.ts';
import { drawing } from './sections/drawing.ts';
import { forces } from './sections/forces.ts';
import { funnel } from './sections/funnel.ts';
import { given } from './sections/given.ts';
import { loadCases } from './sections/loadCases.ts';
import { maps } from './sections/maps.ts';
import { nothing } from './sections/nothing.ts';
import { numbers } from './sections/numbers.ts';
import { plan } from './sections/plan.ts';
import { provenance } from './sections/provenance.ts';
import { purchase } from './sections/purchase.ts';
import { shortlist } from './sections/shortlist.ts';
import { sureness } from './sections/sureness.ts';
import { taste } from './sections/taste.ts';
import { whyNot } from './sections/whyNot.ts';
import { windows } from './sections/windows.ts';
import { workshop } from './sections/workshop.ts';
import { wouldWork } from './sections/wouldWork.ts';
import { cautionViews } from './text/cautions.ts';
import { glossaryViews } from './text/glossary.ts';

/** The place of the bench, which the page's script fills from the numbers that the page carries. */
export const live = section({
  id: 'live',
  link: 'Bench',
  title: 'What if: the bench',
  view: ({ result }) => (result.live ? {} : null),
  prints: true,
  leaves: null,
  waits: true,
});

/** The trade's words in a picture, for somebody who meets them for the first time. */
export const words = section({
  id: 'words',
  link: 'Words',
  title: 'The words',
  view: () => ({ picture: glossaryDrawing(), words: glossaryViews() }),
  prints: false,
  leaves: 'the words',
});

/** Where the work can hurt someone. */
export const cautions = section({
  id: 'cautions',
  link: 'Cautions',
  title: 'Cautions',
  view: () => ({ cautions: cautionViews() }),
  prints: true,
  leaves: null,
});

export const SECTIONS: readonly Section[] = [
  ...[answer, nothing, wouldWork, plan, alone, shortlist, purchase, taste],
  ...[drawing, forces, windows, loadCases, live, maps, sureness],
  ...[funnel, whyNot, numbers],
  ...[buildSheet, workshop, given, words, cautions, provenance],
];

/** Those that stand. One after the other: a section may read those above it. */
export async function showSections(page: Page): Promise<ShownSection[]> {
  const shown: ShownSection[] = [];
  for (const { show } of SECTIONS) shown.push(...[await show(page, shown)].filter((one) => one !== null));
  return shown;
}
