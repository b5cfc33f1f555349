/** Which setup, combination and axle lie on the bench, and which of its parts are picked from a list. */
import { html, type TemplateResult } from 'lit-html';
import { limitName } from '../../model/corner/checks.ts';
import type { Finding } from '../../model/corner/findings.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { LiveSetup, LiveStart } from '../../result/live.ts';
import { radiosView, selectView } from '../parts/views.ts';
import { type Bench, type OnBench, sweptBench } from './bench.ts';
import { AXLE_LABELS, PICK } from './words.ts';

export function picksView({ bench, axle }: OnBench, put: (next: OnBench) => void): TemplateResult {
  const { record, setup, start } = bench;
  const able = record.setups.filter(({ starts }) => starts.length > 0);
  const begin = (of: LiveSetup | undefined, id?: string) => {
    const wanted = of?.starts.find((one) => id === undefined || one.id === id);
    if (of && wanted) put({ bench: sweptBench(record, of, wanted), axle });
  };
  const setups = able.map(({ name }) => [name, name] as const);
  const starts = setup.starts.map((one, k) => [one.id, startText(bench, one, k)] as const);
  const choose = (name: string) => begin(able.find((one) => one.name === name));
  return html`<div class="picks">${pickView('bench-setup', PICK.setup, setups, setup.name, choose, able.length < 2)}${pickView('bench-start', PICK.start, starts, start.id, (id) => begin(setup, id))}${radiosView('bench-axle', PICK.axle, AXLE_LABELS, axle, (name) => put({ bench, axle: name }))}</div>`;
}

function startText({ record, setup }: Bench, start: LiveStart, place: number): string {
  const springs = AXLE_NAMES.map((axle) => record.axles[axle].options.spring[start[axle].at(-1) ?? 0]?.name ?? '');
  return PICK.combination(whichOf(setup, start, place), start.id, springs);
}

function whichOf({ starts }: LiveSetup, { isPlan, rank }: LiveStart, place: number): string {
  if (isPlan) return PICK.plan;
  const number = rank ?? place + 1;
  return starts.some((one) => one.isPlan) ? PICK.alone(number) : String(number);
}

function pickView(
  id: string,
  label: string,
  options: readonly (readonly [string | number, string])[],
  value: string,
  choose: (value: string) => void,
  hidden = false,
): TemplateResult {
  return html`<div class="pick" ?hidden=${hidden}><label for=${id}>${label}</label>${selectView(id, options, { value, choose })}</div>`;
}

/** A list to choose from, each entry with what it would fail first. */
export function chooserView(
  id: string,
  label: string,
  names: readonly string[],
  failing: readonly (Finding | null)[],
  chosen: number,
  choose: (place: number) => void,
): TemplateResult {
  const texts = names.map((name, k) => {
    const finding = failing[k];
    return [k, finding ? PICK.failing(name, limitName(finding)) : name] as const;
  });
  return pickView(id, label, texts, String(chosen), (value) => choose(Number(value)));
}
