/** One row a control: its name, the number to type, the slider, and between which values everything passes. */
import { html, nothing, type TemplateResult } from 'lit-html';
import { limitName } from '../../model/corner/checks.ts';
import type { AxleName } from '../../model/scenario.ts';
import { fixed, PAGE } from '../../report/text/numbers.ts';
import { anew, typedIn } from '../parts/views.ts';
import type { Bench, Judged } from './bench.ts';
import { type Control, stepLimits } from './controls.ts';
import { partnerView } from './numbersPanel.ts';
import type { WorkableRange } from './ranges.ts';
import { CONTROL, RANGE } from './words.ts';

/** The bench as it is and as it was swept, with the corner it shows judged in both. */
export interface SliderState {
  readonly bench: Bench;
  readonly swept: Bench;
  readonly axle: AxleName;
  readonly judged: Judged;
  readonly judgedSwept: Judged;
}

/** Width of the strip under the slider, in its own units. */
const WIDE = 1000;

/**
 * @param range where everything passes; null: nowhere, undefined: not known yet
 * @param move gives the value that the control then has
 */
export function sliderView(
  control: Control,
  { bench, swept, axle, judged, judgedSwept }: SliderState,
  range: WorkableRange | null | undefined,
  move: (value: number) => number,
): TemplateResult | typeof nothing {
  const value = control.get(bench, judged);
  if (!Number.isFinite(value)) return nothing;
  const { label, unit, dimension } = CONTROL[control.id];
  const [id, name] = [`bench-${control.id}`, `${label}, ${unit}`];
  const before = control.get(swept, judgedSwept);
  const was = Number.isFinite(before) ? before : value;
  const ends = control.limits(bench, axle, judged);
  const [least, most] = [Math.min(ends[0], value), Math.max(ends[1], value)];
  const [min, max] = stepLimits([least, most], value, was, control.step);
  const take = (event: Event) => {
    const typed = Number.parseFloat(typedIn(event));
    // What was typed beyond the limits is not what the control then holds.
    if (Number.isFinite(typed))
      (event.target as HTMLInputElement).value = short(move(Math.min(most, Math.max(least, typed))));
  };
  return html`<div class=${range === undefined || range?.holdsValue ? 'slide' : 'slide outside'}>
<label for=${id}>${name}</label><span aria-hidden="true">${partnerView(value, dimension)}</span>
<input type="number" id=${`${id}-typed`} aria-label=${`${name}, typed`} min=${min} max=${max} step=${control.step} .value=${short(value)} @change=${take}>
${stripView(min, max, was, range)}
<input type="range" id=${id} aria-describedby=${`${id}-range`} min=${min} max=${max} step=${control.step} aria-valuetext=${valueText(value, control)} .value=${anew(value)} @input=${(event: Event) => move(Number(typedIn(event)))}>
<p class="range" id=${`${id}-range`}>${range === undefined ? nothing : range ? rangeText(range, control) : RANGE.nowhere}</p></div>`;
}

const short = (value: number) => String(Number(value.toFixed(2)));

function valueText(value: number, { id }: Control): string {
  return `${fixed(value, CONTROL[id].decimals, PAGE)} ${CONTROL[id].unit}`;
}

/** Ends rounded inwards, so that what is said to work does. */
function rangeText({ from, to, holdsValue }: WorkableRange, { id }: Control): string {
  const { decimals, unit } = CONTROL[id];
  const scale = 10 ** decimals;
  const low = fixed(Math.ceil(from.value * scale - 1e-9) / scale, decimals, PAGE);
  const high = fixed(Math.floor(to.value * scale + 1e-9) / scale, decimals, PAGE);
  const limits = [from, to].map(({ limit }) => (limit ? limitName(limit) : null));
  const text = RANGE.works(low, high, unit, limits[0] ?? null, limits[1] ?? null);
  return holdsValue ? text : `${RANGE.outside}: ${text}`;
}

/** The strip under a slider: a bar over the values that work, an upright mark at the swept one. */
function stripView(min: number, max: number, was: number, range: WorkableRange | null | undefined): TemplateResult {
  const x = (value: number) => Math.round(WIDE * Math.min(1, Math.max(0, (value - min) / (max - min || 1))));
  const [from, to] = range ? [x(range.from.value), x(range.to.value)] : [0, 0];
  return html`<svg class="strip" viewBox="0 0 1000 15" preserveAspectRatio="none" aria-hidden="true"><rect class="track" y="6" width="1000" height="3"/><rect class="works" x=${from} y="4" width=${range ? Math.max(6, to - from) : 0} height="7"/><rect class="swept" x=${Math.min(WIDE - 5, Math.max(0, x(was) - 2))} width="5" height="15"/></svg>`;
}
