/** One row a control: its name, the number to type, the slider, and between which values everything passes. */
import { limitName } from '../../model/corner/checks.ts';
import type { AxleName } from '../../model/scenario.ts';
import { imperialUnit } from '../../model/units.ts';
import { fixed, inImperial, PAGE, unitSymbol } from '../../report/text/numbers.ts';
import type { Bench, Judged } from './bench.ts';
import { type Control, stepLimits } from './controls.ts';
import { element, setAttributes, setText, svgElement } from './element.ts';
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

export interface SliderRow {
  readonly control: Control;
  readonly element: HTMLElement;
  readonly show: (state: SliderState) => void;
  readonly showRange: (range: WorkableRange | null) => void;
}

/** Width of the strip under the slider, in its own units. */
const WIDE = 1000;

export function createSliderRow(control: Control, moved: (value: number) => void): SliderRow {
  const id = `bench-${control.id}`;
  const label = `${CONTROL[control.id].label}, ${CONTROL[control.id].unit}`;
  const slider = element('input', { type: 'range', id, 'aria-describedby': `${id}-range` });
  const typed = element('input', { type: 'number', id: `${id}-typed`, 'aria-label': `${label}, typed` });
  // For the eye only: the slider itself says its value in the unit it is moved in.
  const partner = element('small', { class: 'i', 'aria-hidden': 'true' });
  const strip = createStrip();
  const range = element('p', { id: `${id}-range`, class: 'range' });
  let limits: readonly [number, number] = [0, 0];
  slider.addEventListener('input', () => moved(slider.valueAsNumber));
  typed.addEventListener('change', () => {
    const value = typed.valueAsNumber;
    if (Number.isFinite(value)) moved(Math.min(limits[1], Math.max(limits[0], value)));
  });
  const row = element(
    'div',
    { class: 'slide' },
    element('label', { for: id }, label),
    partner,
    typed,
    strip.svg,
    slider,
    range,
  );
  return {
    control,
    element: row,
    show: ({ bench, swept, axle, judged, judgedSwept }) => {
      const value = control.get(bench, judged);
      const before = control.get(swept, judgedSwept);
      const was = Number.isFinite(before) ? before : value;
      row.hidden = !Number.isFinite(value);
      if (row.hidden) return;
      const [least, most] = control.limits(bench, axle, judged);
      limits = [Math.min(least, value), Math.max(most, value)];
      const [min, max] = stepLimits(limits, value, was, control.step);
      setAttributes(slider, { min, max, step: control.step, 'aria-valuetext': valueText(value, control) });
      setAttributes(typed, { min, max, step: control.step });
      setNumber(slider, value);
      setNumber(typed, value);
      setText(partner, partnerText(value, control));
      strip.show([min, max], was);
    },
    showRange: (found) => {
      strip.showRange(found);
      const text = found ? rangeText(found, control) : RANGE.nowhere;
      setText(range, text);
      row.classList.toggle('outside', found === null || !found.holdsValue);
    },
  };
}

/** A slider snaps to its steps by itself; a number that is being typed is left alone. */
function setNumber(input: HTMLInputElement, value: number): void {
  if (document.activeElement === input && input.type === 'number' && input.valueAsNumber === value) return;
  const text = input.type === 'number' ? String(Number(value.toFixed(2))) : String(value);
  if (input.value !== text) input.value = text;
}

function valueText(value: number, { id }: Control): string {
  return `${fixed(value, CONTROL[id].decimals, PAGE)} ${CONTROL[id].unit}`;
}

/** `(13.07 in)` */
function partnerText(value: number, { id }: Control): string {
  const { dimension } = CONTROL[id];
  const imperial = imperialUnit(dimension);
  return imperial ? `(${inImperial(value, dimension, PAGE)} ${unitSymbol(imperial, PAGE)})` : '';
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
function createStrip() {
  const track = svgElement('rect', { class: 'track', x: 0, y: 6, width: WIDE, height: 3 });
  const works = svgElement('rect', { class: 'works', y: 4, height: 7 });
  const swept = svgElement('rect', { class: 'swept', y: 0, width: 5, height: 15 });
  const attributes = { class: 'strip', viewBox: `0 0 ${WIDE} 15`, preserveAspectRatio: 'none', 'aria-hidden': 'true' };
  const svg = svgElement('svg', attributes, track, works, swept);
  let [min, max] = [0, 1];
  let range: WorkableRange | null = null;
  const x = (value: number) => Math.round(WIDE * Math.min(1, Math.max(0, (value - min) / (max - min || 1))));
  const draw = () => {
    const [from, to] = range ? [x(range.from.value), x(range.to.value)] : [0, 0];
    setAttributes(works, { x: from, width: range ? Math.max(6, to - from) : 0 });
  };
  return {
    svg,
    show: (ends: readonly [number, number], was: number) => {
      [min, max] = ends;
      setAttributes(swept, { x: Math.min(WIDE - 5, Math.max(0, x(was) - 2)) });
      draw();
    },
    showRange: (found: WorkableRange | null) => {
      range = found;
      draw();
    },
  };
}
