/** The parts of the bench put together, and what follows from what. */
import { judgedFrequency } from '../domain/corner/findings.ts';
import type { LiveRecord } from '../domain/live.ts';
import type { AxleName } from '../domain/scenario.ts';
import { noteOf } from './address.ts';
import { type Bench, canBear, judge, sweptBench, withValues } from './bench.ts';
import { board } from './board.ts';
import { CONTROLS, choicesOf, holding, perchRange, rangeOf } from './controls.ts';
import { element, setText } from './element.ts';
import { keep } from './keep.ts';
import { inTurn, settled } from './later.ts';
import { look } from './look.ts';
import { notesOf } from './notes.ts';
import { chooser, picker, radios } from './picker.ts';
import type { WorkableRange } from './ranges.ts';
import { type SliderRow, sliderRow } from './sliders.ts';
import { type Figure, figuresOf, other, type Told, tell } from './told.ts';
import { verdictOf } from './verdict.ts';
import { DIFFERENCES, FULL_LABELS, HELD_LABELS, PICK } from './words.ts';

export interface OnBench {
  readonly bench: Bench;
  readonly axle: AxleName;
}

export interface Stage {
  /** To be put into the page, in this order. */
  readonly parts: readonly HTMLElement[];
  readonly put: (next: OnBench) => void;
  /** The bench as a note for the address. */
  readonly note: () => string;
}

/** How long a value must rest before it is told to those who hear the page, and kept in the address, ms. */
const SPOKEN_AFTER = 900;
const KEPT_AFTER = 250;

export function stage(record: LiveRecord, first: OnBench, title: string, remember: (note: string) => void): Stage {
  let { bench, axle } = first;
  let swept = sweptOf(bench);
  let share = 1;
  let told: Told = tell(bench, axle);
  let spoken = '';

  const pick = picker(record, {
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
  const held = radios('bench-held', PICK.held, ['height', 'perch'] as const, hold, HELD_LABELS);
  const full = radios('bench-full', PICK.full, ['closed', 'load'] as const, fullBump, FULL_LABELS);
  const spring = chooser('bench-spring', DIFFERENCES.spring, (k) => change(withValues(bench, axle, { spring: k })));
  const helper = chooser('bench-helper', DIFFERENCES.helper, (k) => change(withValues(bench, axle, { helper: k })));
  const rows = CONTROLS.map((control) => sliderRow(control, (value) => change(control.set(bench, axle, value))));
  const seen = look((moved) => {
    share = moved;
    numbers.showContacts(told.judged[axle], share);
  });
  const numbers = board();
  const kept = keep(title, () => put({ bench: sweptOf(bench), axle }));
  const status = element('p', { role: 'status', class: 'vh' });

  const ranges = inTurn([
    ...rows.filter(({ control }) => control.id !== 'perch').map((row) => () => showRange(row)),
    () => spring.showFailing(choicesOf('spring', bench, axle, otherFrequency())),
    () => helper.showFailing(choicesOf('helper', bench, axle, otherFrequency())),
  ]);
  const speak = settled(SPOKEN_AFTER, () => setText(status, spoken));
  const keepNote = settled(KEPT_AFTER, () => remember(note()));

  show();
  return { parts: laidOut(), put, note };

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
    show(isSame ? told.judged[other(axle)] : undefined);
    changed();
  }

  function hold(value: 'height' | 'perch'): void {
    change(holding(bench, axle, value, told.judged[axle]));
  }

  function fullBump(value: 'closed' | 'load'): void {
    change({ ...bench, bumpLoad: value === 'closed' ? null : (swept.bumpLoad ?? FIRST_BUMP_LOAD) });
  }

  function show(otherJudged = judge(bench, other(axle))): void {
    told = tell(bench, axle, otherJudged);
    const judged = told.judged[axle];
    const judgedSwept = judge(swept, axle);
    const verdict = verdictOf(axle, told);
    spoken = [verdict.head, ...verdict.lines, verdict.aside].join(' ').trim();
    pick.show(bench, axle);
    held.show(bench.axles[axle].held);
    full.show(bench.bumpLoad === null ? 'closed' : 'load');
    showParts();
    for (const row of rows) row.show({ bench, swept, axle, judged, judgedSwept });
    seen.show(axle, judged, verdict);
    numbers.show(verdict, figuresOf(bench, axle, told), sweptFigures());
    numbers.showContacts(judged, share);
    numbers.showNotes(notesOf(judged.state));
    kept.show(bench, swept);
    ranges.start();
  }

  /** What a reader changed is told and kept; what the page opened with is neither. */
  function changed(): void {
    speak();
    keepNote();
  }

  function sweptFigures(): Figure[] {
    return figuresOf(swept, axle, tell(swept, axle));
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
    const judged = told.judged[axle];
    const range = rangeOf(row.control, bench, axle, judged, otherFrequency());
    row.showRange(range);
    if (row.control.id === 'height') showPerchRange(range);
  }

  /** Height and perch are one freedom: the range is looked for once. */
  function showPerchRange(range: WorkableRange | null): void {
    const row = rows.find(({ control }) => control.id === 'perch');
    row?.showRange(perchRange(range, told.judged[axle]));
  }

  function otherFrequency(): number {
    return judgedFrequency(told.judged[other(axle)].state);
  }

  function note(): string {
    return noteOf(bench, swept, axle);
  }

  function laidOut(): HTMLElement[] {
    const bumpRow = rows.find(({ control }) => control.id === 'bump')?.element;
    const others = rows.map((row) => row.element).filter((one) => one !== bumpRow);
    const controls = element('div', { class: 'bench-set' }, spring.element, helper.element, held.element, ...others);
    const closedOnly = element('p', { class: 'range' }, PICK.closedOnly);
    controls.append(...(canBear(record) ? [full.element, ...(bumpRow ? [bumpRow] : [])] : [closedOnly]));
    const numbersPart = element('div', { class: 'bench-told' }, numbers.verdict, numbers.figures, numbers.clearances);
    numbersPart.append(numbers.notes);
    const work = element('div', { class: 'bench-work' }, seen.element, controls);
    return [pick.element, kept.note, work, numbersPart, kept.element, status];
  }
}

/** Where the setup judges the closed stop and a reader asks for a load. */
const FIRST_BUMP_LOAD = 2.5;

function sweptOf({ record, setup, start }: Bench): Bench {
  return sweptBench(record, setup, start);
}
