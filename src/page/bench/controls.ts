/** What a reader can move: each control reads and sets one value of the bench, between limits of a workshop. */
import { heightOn, perchFor } from '../../model/corner/balance.ts';
import { type Finding, findingsOf, pairFindingsOf } from '../../model/corner/findings.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import type { AxleName } from '../../model/scenario.ts';
import { type Bench, changeOf, type Judged, judge, siteWith, stateWith, withValues } from './bench.ts';
import { type Probe, type WorkableRange, workableRange } from './ranges.ts';
import type { ControlId } from './words.ts';

export interface Control {
  readonly id: ControlId;
  readonly step: number;
  readonly get: (bench: Bench, judged: Judged) => number;
  readonly set: (bench: Bench, axle: AxleName, value: number) => Bench;
  readonly limits: (bench: Bench, axle: AxleName, judged: Judged) => readonly [least: number, most: number];
}

const STEP = 0.5;
/** mm */
const BEYOND_WANTED = 40;

/** Share of the sprung load by which the corner load may move either way. */
const LOAD_SHARE = 0.5;
/** Multiples of the sprung load at full bump that are looked at; common practice, no source. */
const BUMP_LOADS = [1, 6] as const;

export const CONTROLS: readonly Control[] = [
  {
    id: 'height',
    step: STEP,
    get: (_, { state }) => state.standing.height,
    set: setHeight,
    limits: heightLimits,
  },
  {
    id: 'perch',
    step: STEP,
    get: (_, { state }) => state.standing.perch,
    set: setPerch,
    limits: (bench, axle, judged) => {
      const { site, corner, geometry } = judged;
      const ends = heightLimits(bench, axle, judged).map((height) =>
        perchFor(site, corner, geometry, height, site.sprungLoad),
      );
      return [Math.min(...ends), Math.max(...ends)];
    },
  },
  lengthControl('trim'),
  lengthControl('spacer'),
  lengthControl('stop'),
  {
    id: 'load',
    step: 1,
    get: (_, { site }) => site.sprungMass + site.unsprungMass,
    set: (bench, axle, wheelLoad) => withValues(bench, axle, { wheelLoad }),
    limits: ({ record }, axle) => {
      const { wheelLoad, unsprungMass } = record.axles[axle];
      const reach = LOAD_SHARE * (wheelLoad - unsprungMass);
      return [wheelLoad - reach, wheelLoad + reach];
    },
  },
  {
    id: 'bump',
    step: 0.05,
    get: ({ bumpLoad }) => bumpLoad ?? Number.NaN,
    set: (bench, _, bumpLoad) => ({ ...bench, bumpLoad }),
    limits: () => BUMP_LOADS,
  },
];

/** Heights the wheel can stand at, at most `BEYOND_WANTED` outside the wanted range. */
function heightLimits({ setup }: Bench, axle: AxleName, { geometry }: Judged): [number, number] {
  const { wantedFrom, wantedTo } = setup.axles[axle];
  const { closedHeight, droopHeight } = geometry;
  const least = Math.max(closedHeight, wantedFrom - BEYOND_WANTED);
  return [least, Math.max(least, Math.min(droopHeight, wantedTo + BEYOND_WANTED))];
}

function lengthControl(id: 'trim' | 'spacer' | 'stop'): Control {
  const change = changeOf(id);
  return {
    id,
    step: STEP,
    get: (_, { corner }) => change.get(corner),
    set: (bench, axle, value) => withValues(bench, axle, { [id]: value }),
    limits: (_bench, _axle, { corner }) => change.limits(corner),
  };
}

/** The car at another height, by turning the perch; what is held stays held. */
function setHeight(bench: Bench, axle: AxleName, height: number): Bench {
  const values = bench.axles[axle];
  if (values.held === 'height') return withValues(bench, axle, { place: height });
  const { site, corner, geometry } = judge(bench, axle, { ...values, held: 'height', place: height });
  return withValues(bench, axle, { place: perchFor(site, corner, geometry, height, site.sprungLoad) });
}

function setPerch(bench: Bench, axle: AxleName, perch: number): Bench {
  const values = bench.axles[axle];
  if (values.held === 'perch') return withValues(bench, axle, { place: perch });
  const { site, corner, geometry } = judge(bench, axle, values);
  return withValues(bench, axle, { place: heightOn(site, corner, geometry, site.sprungLoad, perch) });
}

/** From now on the other one follows; nothing moves. */
export function holdValue(bench: Bench, axle: AxleName, held: 'height' | 'perch', { state }: Judged): Bench {
  const { height, perch } = state.standing;
  return withValues(bench, axle, { held, place: held === 'height' ? height : perch });
}

/** Limits in the control's steps, stretched to hold the value; least is a whole number of steps away from `anchor`. */
export function stepLimits([least, most]: readonly [number, number], value: number, anchor: number, step: number) {
  const down = Math.floor((anchor - Math.min(least, value)) / step + 1e-9);
  const up = Math.floor((Math.max(most, value) - anchor) / step + 1e-9);
  const tidy = (number: number) => Number(number.toPrecision(12));
  return [tidy(anchor - Math.max(0, down) * step), tidy(anchor + Math.max(0, up) * step)] as const;
}

/**
 * Between which values of a control the axle passes every check, the balance with the other axle included, all else
 * held; null where it passes nowhere.
 */
export function rangeOf(control: Control, bench: Bench, axle: AxleName, judged: Judged, otherFrequency: number) {
  const value = control.get(bench, judged);
  if (!Number.isFinite(value)) return null;
  const [least, most] = control.limits(bench, axle, judged);
  const probe = probeOf(control, bench, axle, otherFrequency);
  return workableRange(probe, value, Math.min(least, value), Math.max(most, value));
}

function probeOf(control: Control, bench: Bench, axle: AxleName, otherFrequency: number): Probe {
  // Only load and bump load make another site.
  const isSameSite = control.id !== 'load' && control.id !== 'bump';
  const site = isSameSite ? siteWith(bench, axle, bench.axles[axle]) : undefined;
  return (value) => {
    const moved = control.set(bench, axle, value);
    const state = stateWith(moved, axle, moved.axles[axle], site);
    return findingsOf(state)[0] ?? balanceOf(bench, axle, judgedFrequency(state), otherFrequency)[0] ?? null;
  };
}

export function balanceOf({ setup }: Bench, axle: AxleName, own: number, other: number): Finding[] {
  return axle === 'front' ? pairFindingsOf(own, other, setup.balance) : pairFindingsOf(other, own, setup.balance);
}

/** A range of heights as the range of perches that hold them. */
export function perchRange(range: WorkableRange | null, { site, corner, geometry }: Judged): WorkableRange | null {
  if (range === null) return null;
  const perchAt = (height: number) => perchFor(site, corner, geometry, height, site.sprungLoad);
  return {
    ...range,
    from: { ...range.from, value: perchAt(range.from.value) },
    to: { ...range.to, value: perchAt(range.to.value) },
  };
}

/** What would fail first with another spring or helper, all else held; one entry a part of the table. */
export function choicesOf(kind: 'spring' | 'helper', bench: Bench, axle: AxleName, otherFrequency: number) {
  return bench.record.axles[axle].options[kind].map((_, place): Finding | null => {
    const { state, findings } = judge(withValues(bench, axle, { [kind]: place }), axle);
    return findings[0] ?? balanceOf(bench, axle, judgedFrequency(state), otherFrequency)[0] ?? null;
  });
}
