/** Which setup, combination and axle lie on the bench, and which of its parts are picked from a list. */
import { limitName } from '../../model/corner/checks.ts';
import type { Finding } from '../../model/corner/findings.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { LiveRecord, LiveSetup, LiveStart } from '../../result/live.ts';
import type { Bench } from './bench.ts';
import { element, setText } from './element.ts';
import { PICK } from './words.ts';

export interface Picks {
  readonly setup: (name: string) => void;
  readonly start: (id: string) => void;
  readonly axle: (axle: AxleName) => void;
}

export interface Picker {
  readonly element: HTMLElement;
  readonly show: (bench: Bench, axle: AxleName) => void;
}

export function createPicker({ setups }: LiveRecord, picks: Picks): Picker {
  const able = setups.filter(({ starts }) => starts.length > 0);
  const setup = createSelect('bench-setup', (value) => picks.setup(value));
  const start = createSelect('bench-start', (value) => picks.start(value));
  const axle = createRadios('bench-axle', PICK.axle, AXLE_NAMES, (value) => picks.axle(value));
  setup.append(...able.map(({ name }) => element('option', { value: name }, name)));
  const setupLabel = createField(PICK.setup, setup);
  setupLabel.hidden = able.length < 2;
  return {
    element: element('div', { class: 'picks' }, setupLabel, createField(PICK.start, start), axle.element),
    show: (bench, shown) => {
      setup.value = bench.setup.name;
      if (start.dataset.setup !== bench.setup.name) {
        start.dataset.setup = bench.setup.name;
        start.replaceChildren(...bench.setup.starts.map((one, k) => startOption(bench, one, k)));
      }
      start.value = bench.start.id;
      axle.show(shown);
    },
  };
}

function startOption({ record, setup }: Bench, start: LiveStart, place: number): HTMLOptionElement {
  const springs = AXLE_NAMES.map((axle) => record.axles[axle].options.spring[start[axle].at(-1) ?? 0]?.name ?? '');
  return element('option', { value: start.id }, PICK.combination(whichOf(setup, start, place), start.id, springs));
}

function whichOf({ starts }: LiveSetup, { isPlan, rank }: LiveStart, place: number): string {
  if (isPlan) return PICK.plan;
  const number = rank ?? place + 1;
  return starts.some((one) => one.isPlan) ? PICK.alone(number) : String(number);
}

export interface Chooser {
  readonly element: HTMLElement;
  readonly show: (chosen: string, names: readonly string[]) => void;
  /** What each choice would fail first; null: it works. */
  readonly showFailing: (findings: readonly (Finding | null)[]) => void;
}

/** A list to choose from, each entry with what it would fail. */
export function createChooser(id: string, label: string, chosen: (value: number) => void): Chooser {
  const list = createSelect(id, (value) => chosen(Number(value)));
  let texts: readonly string[] = [];
  return {
    element: createField(label, list),
    show: (value, names) => {
      if (names.join('\n') !== texts.join('\n')) {
        list.replaceChildren(...names.map((name, k) => element('option', { value: k }, name)));
        texts = names;
      }
      list.value = value;
    },
    showFailing: (findings) => {
      for (const [k, option] of [...list.options].entries()) {
        const finding = findings[k] ?? null;
        setText(option, finding ? PICK.failing(texts[k] ?? '', limitName(finding)) : (texts[k] ?? ''));
      }
    },
  };
}

export function createRadios<T extends string>(
  name: string,
  legend: string,
  values: readonly T[],
  chosen: (value: T) => void,
  labels: Readonly<Record<string, string>> = {},
) {
  const inputs = values.map((value) => element('input', { type: 'radio', name, value }));
  for (const [k, input] of inputs.entries()) {
    const value = values[k];
    if (value !== undefined) input.addEventListener('change', () => chosen(value));
  }
  const choices = inputs.map((input, k) =>
    element('label', {}, input, ` ${labels[values[k] ?? ''] ?? values[k] ?? ''}`),
  );
  return {
    element: element('fieldset', { class: 'choices' }, element('legend', {}, legend), ...choices),
    show: (value: T) => {
      for (const input of inputs) input.checked = input.value === value;
    },
  };
}

function createSelect(id: string, chosen: (value: string) => void): HTMLSelectElement {
  const made = element('select', { id });
  made.addEventListener('change', () => chosen(made.value));
  return made;
}

function createField(text: string, control: HTMLElement): HTMLElement {
  return element('div', { class: 'pick' }, element('label', { for: control.id }, text), control);
}
