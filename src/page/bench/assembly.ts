/** The parts of the bench put together, and what follows from what. */
import { html, nothing, render, type TemplateResult } from 'lit-html';
import type { Finding } from '../../model/corner/findings.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import { debounce, inTurn } from '../parts/later.ts';
import { linesView, radiosView } from '../parts/views.ts';
import { noteOf } from './address.ts';
import { type Bench, canBear, judge, type OnBench, sweptBench, withValues } from './bench.ts';
import { CONTROLS, type Control, choicesOf, holdValue, perchRange, rangeOf } from './controls.ts';
import { differencesOf, notesOf } from './differences.ts';
import { actionsView, type Copied, copy, noteView } from './differencesPanel.ts';
import { pictureView } from './drawing.ts';
import { judgeBench, other, quantitiesOf, verdictOf } from './findings.ts';
import { clearancesView, quantitiesView, verdictView } from './numbersPanel.ts';
import { chooserView, picksView } from './picker.ts';
import type { WorkableRange } from './ranges.ts';
import { sliderView } from './sliders.ts';
import { ACTIONS, type ControlId, DIFFERENCES, FULL_LABELS, HELD_LABELS, NOTE, PICK } from './words.ts';

/** How long a value must rest before a screen reader speaks it, and before the address holds it, ms. */
const SPOKEN_AFTER = 900;
const STORED_AFTER = 250;
/** Where the setup judges the closed stop and a reader asks for a load. */
const FIRST_BUMP_LOAD = 2.5;

const PARTS = ['spring', 'helper'] as const;

export class LiveBench {
  readonly #place: HTMLElement;
  readonly #title: string;
  #on: OnBench;
  #shown: ReturnType<typeof followFrom>;
  #share = 1;
  #ranges: Partial<Record<ControlId, WorkableRange | null>> = {};
  #failing: Partial<Record<(typeof PARTS)[number], readonly (Finding | null)[]>> = {};
  #copied: Copied | null = null;
  #spoken = '';
  readonly #speak: () => void;
  readonly #store: () => void;
  readonly #later = inTurn([
    ...CONTROLS.filter(({ id }) => id !== 'perch').map((control) => () => this.#findRange(control)),
    ...PARTS.map((part) => () => {
      const { bench, axle } = this.#on;
      this.#failing[part] = choicesOf(part, bench, axle, this.#otherFrequency());
      this.#render();
    }),
  ]);

  constructor(place: HTMLElement, title: string, first: OnBench, remember: (note: string) => void) {
    this.#place = place;
    this.#title = title;
    this.#on = first;
    this.#shown = followFrom(first);
    this.#speak = debounce(SPOKEN_AFTER, () => {
      const { summary, lines, aside } = this.#shown.verdict;
      this.#spoken = [summary, ...lines, aside].join(' ').trim();
      this.#render();
    });
    this.#store = debounce(STORED_AFTER, () => remember(this.note()));
    this.#show();
  }

  /** The bench as a note for the address. */
  note(): string {
    const { bench, axle } = this.#on;
    return noteOf(bench, sweptOf(bench), axle);
  }

  put(next: OnBench): void {
    this.#on = next;
    this.#failing = {};
    this.#shown = followFrom(next);
    this.#show();
    this.#changed();
  }

  #change(bench: Bench): void {
    const { lines, found } = this.#shown;
    const { axle } = this.#on;
    // The other axle is judged anew only where it is touched: by what the whole setup shares.
    const same = bench.bumpLoad === this.#on.bench.bumpLoad ? found.judged[other(axle)] : undefined;
    this.#on = { bench, axle };
    this.#shown = followFrom(this.#on, same);
    if (lines.join() !== this.#shown.lines.join()) this.#copied = null;
    this.#show();
    this.#changed();
  }

  #show(): void {
    this.#render();
    this.#later.start();
  }

  /** What a reader changed is spoken and goes into the address; what the page opened with does neither. */
  #changed(): void {
    this.#speak();
    this.#store();
  }

  #otherFrequency(): number {
    return judgedFrequency(this.#shown.found.judged[other(this.#on.axle)].state);
  }

  #findRange(control: Control): void {
    const { bench, axle } = this.#on;
    const { judged } = this.#shown.state;
    const range = rangeOf(control, bench, axle, judged, this.#otherFrequency());
    this.#ranges[control.id] = range;
    // Height and perch are one freedom: one search serves both.
    if (control.id === 'height') this.#ranges.perch = perchRange(range, judged);
    this.#render();
  }

  #offer(make: (bench: Bench, swept: Bench, title: string) => string): void {
    const { bench } = this.#on;
    this.#copied = { text: make(bench, sweptOf(bench), this.#title), status: '' };
    this.#render();
    const text = this.#place.querySelector('textarea');
    if (text) void copy(text).then((done) => this.#tellCopied(done ? ACTIONS.copied : ACTIONS.select));
  }

  #tellCopied(status: string): void {
    if (this.#copied) this.#copied = { ...this.#copied, status };
    this.#render();
  }

  #render(): void {
    const { state, verdict, lines, notes, quantities, swept } = this.#shown;
    const { axle, bench } = this.#on;
    const travel = (share: number) => {
      this.#share = share;
      this.#render();
    };
    const reset = () => this.put({ bench: sweptOf(bench), axle });
    render(
      html`${picksView(this.#on, (next) => this.put(next))}${noteView(lines)}
<div class="bench-work">${pictureView(axle, state.judged, verdict, this.#share, travel)}<div class="bench-set">${this.#controlsView()}</div></div>
<div class="bench-results">${verdictView(verdict)}${quantitiesView(quantities, swept)}${clearancesView(state.judged, this.#share)}<ul class="notes">${linesView(notes)}</ul></div>
${actionsView(lines.length === 0, this.#copied, (make) => this.#offer(make), reset)}
<p role="status" class="vh">${this.#spoken}</p>`,
      this.#place,
    );
  }

  #controlsView(): TemplateResult {
    const { bench, axle } = this.#on;
    const { options } = bench.record.axles[axle];
    const values = bench.axles[axle];
    const names = {
      spring: options.spring.map(PICK.spring),
      helper: options.helper.map((one) => one?.name ?? DIFFERENCES.none),
    };
    const hold = (held: 'height' | 'perch') => this.#change(holdValue(bench, axle, held, this.#shown.state.judged));
    const full = (by: 'closed' | 'load') =>
      this.#change({ ...bench, bumpLoad: by === 'closed' ? null : (sweptOf(bench).bumpLoad ?? FIRST_BUMP_LOAD) });
    const choosers = PARTS.map((part) =>
      chooserView(`bench-${part}`, DIFFERENCES[part], names[part], this.#failing[part] ?? [], values[part], (place) =>
        this.#change(withValues(bench, axle, { [part]: place })),
      ),
    );
    const sliders = CONTROLS.map((control) => this.#sliderView(control));
    const bump = sliders.pop() ?? nothing;
    return html`${choosers}${radiosView('bench-held', PICK.held, HELD_LABELS, values.held, hold)}${sliders}${canBear(bench.record) ? html`${radiosView('bench-full', PICK.full, FULL_LABELS, bench.bumpLoad === null ? 'closed' : 'load', full)}${bump}` : html`<p class="range">${PICK.closedOnly}</p>`}`;
  }

  #sliderView(control: Control): TemplateResult | typeof nothing {
    return sliderView(control, this.#shown.state, this.#ranges[control.id], (value) => {
      const { bench, axle } = this.#on;
      this.#change(control.set(bench, axle, value));
      return control.get(this.#on.bench, this.#shown.state.judged);
    });
  }
}

function sweptOf({ record, setup, start }: Bench): Bench {
  return sweptBench(record, setup, start);
}

/** Everything that is said of a bench. */
function followFrom({ bench, axle }: OnBench, otherJudged = judge(bench, other(axle))) {
  const was = sweptOf(bench);
  const found = judgeBench(bench, axle, otherJudged);
  const foundAsSwept = judgeBench(was, axle);
  return {
    found,
    state: { bench, swept: was, axle, judged: found.judged[axle], judgedSwept: foundAsSwept.judged[axle] },
    verdict: verdictOf(axle, found),
    lines: differencesOf(bench, was).map(NOTE.one),
    notes: notesOf(found.judged[axle].state),
    quantities: quantitiesOf(bench, axle, found),
    swept: quantitiesOf(was, axle, foundAsSwept),
  };
}
