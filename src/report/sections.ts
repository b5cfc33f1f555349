/** The sections of the report, in the order of the page. */
import type { Page, Section, ShownSection } from './frame/section.ts';
import { alone, answer } from './sections/answer.ts';
import { buildSheet } from './sections/buildSheet.ts';
import { cautions } from './sections/cautions.ts';
import { drawing } from './sections/drawing.ts';
import { forces } from './sections/forces.ts';
import { funnel } from './sections/funnel.ts';
import { given } from './sections/given.ts';
import { live } from './sections/live.ts';
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
import { words } from './sections/words.ts';
import { workshop } from './sections/workshop.ts';
import { wouldWork } from './sections/wouldWork.ts';

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
