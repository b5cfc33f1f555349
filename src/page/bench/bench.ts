/**
 * The bench: one combination with values a reader may change, judged by the model that judged the sweep. No page in
 * here: the same functions run under Node, where the tests compare.
 */
import { CHANGE_SIZES } from '../../advice/changes.ts';
import { heightOn } from '../../model/corner/balance.ts';
import { type Finding, findingsOf } from '../../model/corner/findings.ts';
import { type Geometry, geometryOf } from '../../model/corner/geometry.ts';
import { type Carried, type Corner, type Site, siteOf } from '../../model/corner/site.ts';
import { type CornerState, cornerState } from '../../model/corner/state.ts';
import { AXLE_NAMES, type AxleName, FAMILIES } from '../../model/scenario.ts';
import type { LiveAxle, LiveRecord, LiveSetup, LiveStart } from '../../result/live.ts';

/** What can be changed at one axle, in inner units. */
export interface Values {
  /** Which of the two stays while other parts change; the other one follows. */
  readonly held: 'height' | 'perch';
  /** Of the one that is held: ride height hub to arch, or perch seat above the lower eye, mm. */
  readonly place: number;
  /** Cut off the sleeve, spacer at the mount, bump stop as cut, mm. */
  readonly trim: number;
  readonly spacer: number;
  readonly stop: number;
  /** Places in the axle's tables. */
  readonly helper: number;
  readonly spring: number;
  /** Load on one wheel, kg. */
  readonly wheelLoad: number;
}

export interface Bench {
  readonly record: LiveRecord;
  readonly setup: LiveSetup;
  readonly start: LiveStart;
  /** Full bump is the balance under this many times the sprung load; null: the stop closed. */
  readonly bumpLoad: number | null;
  readonly axles: Readonly<Record<AxleName, Values>>;
}

/** A bench, and which of its axles is shown. */
export interface OnBench {
  readonly bench: Bench;
  readonly axle: AxleName;
}

/** One corner judged with its values, and the forms it was judged in. */
export interface Judged {
  readonly site: Site;
  readonly corner: Corner;
  readonly geometry: Geometry;
  readonly state: CornerState;
  readonly findings: readonly Finding[];
}

/** The bench with a combination of the shortlist as it was swept; null where there is no such combination. */
export function benchOf(record: LiveRecord, id: string): Bench | null {
  for (const setup of record.setups) {
    const start = setup.starts.find((one) => one.id === id);
    if (start) return sweptBench(record, setup, start);
  }
  return null;
}

export function sweptBench(record: LiveRecord, setup: LiveSetup, start: LiveStart): Bench {
  const { bump } = setup;
  const axles = { front: sweptValues(record, setup, start, 'front'), rear: sweptValues(record, setup, start, 'rear') };
  return { record, setup, start, bumpLoad: bump.kind === 'load' ? bump.multiple : null, axles };
}

function sweptValues({ axles }: LiveRecord, setup: LiveSetup, start: LiveStart, axle: AxleName): Values {
  const digitOf = (family: (typeof FAMILIES)[number]) => start[axle][FAMILIES.indexOf(family)] ?? 0;
  const { sleeve, mount, bumpStop } = partsOf(axles[axle].options, start[axle]);
  return {
    held: 'height',
    place: setup.axles[axle].targetHeight,
    trim: sleeve.trim,
    spacer: mount.spacer,
    stop: bumpStop.length,
    helper: digitOf('helper'),
    spring: digitOf('spring'),
    wheelLoad: axles[axle].wheelLoad,
  };
}

function partsOf(options: LiveRecord['axles']['front']['options'], digits: readonly number[]): Corner {
  const chosen = FAMILIES.map((family, k) => [family, options[family][digits[k] ?? 0]] as const);
  return Object.fromEntries(chosen) as unknown as Corner;
}

/** The corner with its values put on: parts changed as advice changes them, so that both mean the same. */
export function cornerOf({ record, start }: Bench, axle: AxleName, values: Values): Corner {
  const { options } = record.axles[axle];
  const swept = partsOf(options, start[axle]);
  const helper = options.helper[values.helper] ?? null;
  const spring = options.spring[values.spring] ?? swept.spring;
  const lengths = { trim: values.trim, spacer: values.spacer, stop: values.stop };
  const changed = Object.entries(lengths).reduce((corner, [kind, value]) => changeOf(kind).set(corner, value), swept);
  return { ...changed, helper, spring };
}

/** The change of advice by its kind. */
export function changeOf(kind: string) {
  const found = CHANGE_SIZES.find((change) => change.kind === kind);
  if (found === undefined) throw new Error(`no change ${kind}`);
  return found;
}

export function siteWith({ record, setup, bumpLoad }: Bench, axle: AxleName, { wheelLoad }: Values): Site {
  const bump = bumpLoad === null ? { kind: 'closed' as const } : { kind: 'load' as const, multiple: bumpLoad };
  return siteOf(record, { ...setup, bump }, axle, carriedWith(record.axles[axle], wheelLoad));
}

/** With another load on the wheel both sides carry as much more. */
function carriedWith({ wheelLoad: swept, wheelLoads }: LiveAxle, wheelLoad: number): Carried {
  if (wheelLoads === undefined) return { wheelLoad };
  const more = wheelLoad - swept;
  return { wheelLoad, wheelLoads: { left: wheelLoads.left + more, right: wheelLoads.right + more } };
}

/** The corner in all its numbers. A perch that is held out of reach leaves the corner at the end of its travel. */
export function stateWith(bench: Bench, axle: AxleName, values: Values, site = siteWith(bench, axle, values)) {
  const corner = cornerOf(bench, axle, values);
  const geometry = geometryOf(site, corner);
  return cornerState(site, corner, heightWith(site, corner, geometry, values), geometry);
}

function heightWith(site: Site, corner: Corner, geometry: Geometry, { held, place }: Values): number {
  return held === 'height' ? place : heightOn(site, corner, geometry, site.sprungLoad, place);
}

export function judge(bench: Bench, axle: AxleName, values = bench.axles[axle]): Judged {
  const state = stateWith(bench, axle, values);
  const { site, corner, geometry } = state;
  return { site, corner, geometry, state, findings: findingsOf(state) };
}

/** Whether full bump can be judged under a load: only stops whose force is known can balance one. */
export function canBear({ axles }: LiveRecord): boolean {
  return AXLE_NAMES.every((axle) => axles[axle].options.bumpStop.every(({ curve }) => curve !== null));
}

/** With the values of one axle replaced. */
export function withValues(bench: Bench, axle: AxleName, values: Partial<Values>): Bench {
  return { ...bench, axles: { ...bench.axles, [axle]: { ...bench.axles[axle], ...values } } };
}
