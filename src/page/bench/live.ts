/**
 * The live bench of the report: what if the stop were cut 5 mm shorter, or the car raised 8 mm? Everything is computed
 * in the page, by the model that made it.
 *
 *   a control moves -> values -> both corners judged -> drawing, verdict, figures, sliders at once
 *                                                    \-> ranges, address, spoken verdict a little later
 */
import { camelKey, mapKeys } from '../../model/keys.ts';
import type { LiveRecord } from '../../result/live.ts';
import { noteIn, readNote, withNote } from './address.ts';
import { LiveBench } from './assembly.ts';
import { type OnBench, sweptBench } from './bench.ts';

const section = document.getElementById('live');
const data = document.getElementById('springsift-live')?.textContent;
if (section && data) open(section, mapKeys(JSON.parse(data), camelKey) as LiveRecord);

/** A section that never was opened stays hidden, so that a page without scripts is whole without it. */
function open(place: HTMLElement, record: LiveRecord): void {
  const bench = place.querySelector<HTMLElement>('#bench');
  const first = readNote(record, noteIn(location.hash)) ?? firstOf(record);
  if (first === null || bench === null) return;
  const shown = new LiveBench(bench, document.querySelector('h1')?.textContent ?? '', first, remember);
  for (const waiting of document.querySelectorAll<HTMLElement>('[data-live]')) waiting.hidden = false;
  place.hidden = false;
  addEventListener('hashchange', () => {
    const noted = readNote(record, noteIn(location.hash));
    // A link inside the page names no values: those on the bench stay, and go back into the address.
    if (noted === null) remember(shown.note());
    else if (noteIn(location.hash) !== shown.note()) shown.put(noted);
  });
}

function firstOf(record: LiveRecord): OnBench | null {
  const setup = record.setups.find(({ starts }) => starts.length > 0);
  const start = setup?.starts[0];
  return setup && start ? { bench: sweptBench(record, setup, start), axle: 'front' } : null;
}

/** Into the address, without a step in the reader's history and without touching what else stands there. */
function remember(note: string): void {
  const fragment = withNote(location.hash, note);
  if (fragment === location.hash) return;
  try {
    history.replaceState(null, '', fragment || location.pathname + location.search);
  } catch {
    // Some previews have no address of their own: then nothing is remembered.
  }
}
