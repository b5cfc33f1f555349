/** The parts of the bench put together, and what follows from what. */
import { judgedFrequency } from '../../model/corner/rates.ts';
import type { AxleName } from '../../model/scenario.ts';
import type { LiveRecord } from '../../result/live.ts';
import { noteOf } from './address.ts';
import { type Bench, canBear, judge, sweptBench, withValues } from './bench.ts';
import { CONTROLS, choicesOf, holdValue, perchRange, rangeOf } from './controls.ts';
import { notesOf } from './differences.ts';
import { createDifferencesPanel } from './differencesPanel.ts';
import { createDrawingPanel } from './drawing.ts';
import { element, setText } from './element.ts';
import { type JudgedBench, judgeBench, other, quantitiesOf, verdictOf } from './findings.ts';
import { createNumbersPanel } from './numbersPanel.ts';
import { createChooser, createPicker, createRadios } from './picker.ts';
import { createSliderRow, type SliderRow } from './sliders.ts';
import { type ControlId, DIFFERENCES, FULL_LABELS, HELD_LABELS, PICK } from './words.ts';

export interface OnBench {
  readonly bench: Bench;
  readonly axle: AxleName;
}

export interface AssembledBench {
  /** To be put into the page, in this order. */
  readonly parts: readonly HTMLElement[];
  readonly put: (next: OnBench) => void;
  /** The bench as a note for the address. */
  readonly note: () => string;
}

/** How long a value must rest before a screen reader speaks it, and before the address holds it, ms. */
const SPOKEN_AFTER = 900;
const STORED_AFTER = 250;

export function assembleBench(
  record: LiveRecord,
  first: OnBench,
  title: string,
  remember: (note: string) => void,
): AssembledBench {
  let { bench, axle } = first;
  let swept = sweptOf(bench);
  let share = 1;
  let now: JudgedBench = judgeBench(bench, axle);
  let spoken = '';

  const pick = createPicker(record, {
    setup: (name) => {
      const setup = record.setups.find((one) => one.name === name);
      const start = setup?.starts[0];
      if (setup && start) put({ bench: sweptBench(record, setup, start), axle });
    },
    start: (id) => {
      const start = bench.setup.starts.find((one) => one.id === id);
      if (start) put({ bench: sweptBench(record, bench.setup, start), axle });
    },
    axle: (name) => put({ bench, axle: name }),
  });
  const held = createRadios('bench-held', PICK.held, ['height', 'perch'] as const, hold, HELD_LABELS);
  const full = createRadios('bench-full', PICK.full, ['closed', 'load'] as const, fullBump, FULL_LABELS);
  const spring = createChooser('bench-spring', DIFFERENCES.spring, (k) =>
    change(withValues(bench, axle, { spring: k })),
  );
  const helper = createChooser('bench-helper', DIFFERENCES.helper, (k) =>
    change(withValues(bench, axle, { helper: k })),
  );
  const rows = CONTROLS.map((control) => createSliderRow(control, (value) => change(control.set(bench, axle, value))));
  const drawing = createDrawingPanel((moved) => {
    share = moved;
    numbersPanel.showContacts(now.judged[axle], share);
  });
  const numbersPanel = createNumbersPanel();
  const differences = createDifferencesPanel(title, () => put({ bench: sweptOf(bench), axle }));
  const status = element('p', { role: 'status', class: 'vh' });

  const ranges = inTurn([
    ...rows.filter(({ control }) => control.id !== 'perch').map((row) => () => showRange(row)),
    () => spring.showFailing(choicesOf('spring', bench, axle, otherFrequency())),
    () => helper.showFailing(choicesOf('helper', bench, axle, otherFrequency())),
  ]);
  const speak = debounce(SPOKEN_AFTER, () => setText(status, spoken));
  const storeNote = debounce(STORED_AFTER, () => remember(note()));

  show();
  return { parts: layOut(), put, note };

  function put(next: OnBench): void {
    ({ bench, axle } = next);
    swept = sweptOf(bench);
    show();
    changed();
  }

  function change(next: Bench): void {
    // The other axle is judged anew only where it is touched: by what the whole setup shares.
    const isSame = next.bumpLoad === bench.bumpLoad;
    bench = next;
    show(isSame ? now.judged[other(axle)] : undefined);
    changed();
  }

  function hold(value: 'height' | 'perch'): void {
    change(holdValue(bench, axle, value, now.judged[axle]));
  }

  function fullBump(value: 'closed' | 'load'): void {
    change({ ...bench, bumpLoad: value === 'closed' ? null : (swept.bumpLoad ?? FIRST_BUMP_LOAD) });
  }

  function show(otherJudged = judge(bench, other(axle))): void {
    now = judgeBench(bench, axle, otherJudged);
    const judged = now.judged[axle];
    const judgedSwept = judge(swept, axle);
    const verdict = verdictOf(axle, now);
    spoken = [verdict.summary, ...verdict.lines, verdict.aside].join(' ').trim();
    pick.show(bench, axle);
    held.show(bench.axles[axle].held);
    full.show(bench.bumpLoad === null ? 'closed' : 'load');
    showParts();
    for (const row of rows) row.show({ bench, swept, axle, judged, judgedSwept });
    drawing.show(axle, judged, verdict);
    numbersPanel.show(verdict, quantitiesOf(bench, axle, now), quantitiesOf(swept, axle, judgeBench(swept, axle)));
    numbersPanel.showContacts(judged, share);
    numbersPanel.showNotes(notesOf(judged.state));
    differences.show(bench, swept);
    ranges.start();
  }

  /** What a reader changed is spoken and goes into the address; what the page opened with does neither. */
  function changed(): void {
    speak();
    storeNote();
  }

  function showParts(): void {
    const { options } = record.axles[axle];
    const values = bench.axles[axle];
    spring.show(String(values.spring), options.spring.map(PICK.spring));
    helper.show(
      String(values.helper),
      options.helper.map((one) => one?.name ?? DIFFERENCES.none),
    );
  }

  function showRange(row: SliderRow): void {
    const judged = now.judged[axle];
    const range = rangeOf(row.control, bench, axle, judged, otherFrequency());
    row.showRange(range);
    // Height and perch are one freedom: one search serves both.
    if (row.control.id === 'height') rowOf('perch')?.showRange(perchRange(range, judged));
  }

  function rowOf(id: ControlId): SliderRow | undefined {
    return rows.find(({ control }) => control.id === id);
  }

  function otherFrequency(): number {
    return judgedFrequency(now.judged[other(axle)].state);
  }

  function note(): string {
    return noteOf(bench, swept, axle);
  }

  function layOut(): HTMLElement[] {
    const bumpRow = rowOf('bump')?.element;
    const others = rows.map((row) => row.element).filter((one) => one !== bumpRow);
    const controls = element('div', { class: 'bench-set' }, spring.element, helper.element, held.element, ...others);
    const closedOnly = element('p', { class: 'range' }, PICK.closedOnly);
    controls.append(...(canBear(record) ? [full.element, ...(bumpRow ? [bumpRow] : [])] : [closedOnly]));
    const { verdict, figures, clearances, notes } = numbersPanel;
    const numbersPart = element('div', { class: 'bench-results' }, verdict, figures, clearances, notes);
    const work = element('div', { class: 'bench-work' }, drawing.element, controls);
    return [pick.element, differences.note, work, numbersPart, differences.element, status];
  }
}

/** Where the setup judges the closed stop and a reader asks for a load. */
const FIRST_BUMP_LOAD = 2.5;

function sweptOf({ record, setup, start }: Bench): Bench {
  return sweptBench(record, setup, start);
}

// Work that may wait: what hurries is shown first, the rest in the pauses between two movements of a slider.

/** Jobs done one a pause, in turn; when the work starts anew it goes on with the next, so that each gets its turn. */
export function inTurn(jobs: readonly (() => void)[]): { readonly start: () => void } {
  let next = 0;
  let left = 0;
  const step = () => {
    const job = jobs[next];
    next = (next + 1) % jobs.length;
    left -= 1;
    job?.();
    if (left > 0) setTimeout(step, 0);
  };
  return {
    start: () => {
      const isIdle = left === 0;
      left = jobs.length;
      if (isIdle) setTimeout(step, 0);
    },
  };
}

/** Once nothing has asked for it for a while. */
export function debounce(wait: number, work: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(work, wait);
  };
}
