/** Setups, margins, ranking and tolerances under the names the model uses. */
import type {
  AxleTarget,
  Balance,
  CoilBindRule,
  LoadCase,
  Margins,
  Ranking,
  Setup,
  Tolerances,
} from '../../model/scenario.ts';
import {
  CLOSED_FRACTION,
  CLOSED_FRACTION_OF_CURVE,
  type MarginFields,
  type RankingFields,
  type ToleranceFields,
} from '../schema/settings.ts';
import type { SetupFields } from '../schema/setup.ts';

export function setupOf(fields: SetupFields): Setup {
  return {
    name: fields.name,
    axles: { front: targetOf(fields.front), rear: targetOf(fields.rear) },
    balance: balanceOf(fields.balance),
    bump: fields.bump === 'closed' ? { kind: 'closed' } : { kind: 'load', multiple: fields.bump.load },
    standingOnStop: fields.standing_on_stop,
    frequencyBasis: fields.frequency_basis,
    loadStates: fields.load_states.map(({ name, front, rear }) => ({ name, extra: { front, rear } })),
    loadCases: fields.load_cases.map(loadCaseOf),
  };
}

/** Beyond these a pair is rejected unless the setup says otherwise: own choice. */
const LIMITS = { from: 0.8, to: 1.4 };

function balanceOf({ target, from, to, limits }: SetupFields['balance']): Balance {
  const widened = { from: Math.min(LIMITS.from, from), to: Math.max(LIMITS.to, to) };
  return { target, from, to, limits: limits ?? widened };
}

function loadCaseOf(fields: SetupFields['load_cases'][number]): LoadCase {
  const { name } = fields;
  if ('lateral' in fields) return { name, kind: 'cornering', lateral: fields.lateral };
  return { name, kind: 'multiple', factor: { front: fields.front, rear: fields.rear } };
}

function targetOf(fields: SetupFields['front']): AxleTarget {
  const [wantedFrom, wantedTo] = fields.wanted_range;
  return {
    targetHeight: fields.target_height,
    wantedFrom,
    wantedTo,
    leastBumpTravel: fields.bump_travel.least,
    goodBumpTravel: fields.bump_travel.good,
    leastDroopTravel: fields.droop_travel.least,
    frequencyFrom: fields.frequency.from,
    frequencyTo: fields.frequency.to,
    wantedFrequency: fields.frequency.wanted ?? null,
    allowedSlack: fields.allowed_slack,
    dampingFrom: fields.damping_ratio?.from ?? null,
    dampingTo: fields.damping_ratio?.to ?? null,
  };
}

export function marginsOf({ coil_bind, damper, sleeve, body, tyre, passing }: MarginFields): Margins {
  return { coilBind: coilBindOf(coil_bind), damper, sleeve, body, tyre, passing };
}

function coilBindOf(field: MarginFields['coil_bind']): CoilBindRule {
  if (typeof field === 'number') return { kind: 'fixed', value: field };
  return { kind: field ?? 'default', lowered: 0 };
}

/** Criteria without a weight take no part: their scales become null. */
export function rankingOf({ weights, price, good_clearance, keep }: RankingFields): Ranking {
  return {
    weights,
    price: weights.price > 0 ? (price ?? null) : null,
    goodClearance: weights.clearance > 0 ? good_clearance : null,
    keep,
  };
}

export function tolerancesOf(fields: ToleranceFields): Tolerances {
  return {
    freeLength: fields.free_length,
    rateShare: fields.rate,
    solidHeight: fields.solid_height,
    body: fields.body,
    damperLength: fields.damper_length,
    sleeve: fields.sleeve,
    perch: fields.perch,
    stopLength: fields.stop_length,
    closedFraction: fields.closed_fraction ?? CLOSED_FRACTION,
    closedFractionOfCurve: fields.closed_fraction ?? CLOSED_FRACTION_OF_CURVE,
    stopForceShare: fields.stop_force,
    mount: fields.mount,
    bushGive: fields.bush_give,
    isolator: fields.isolator,
    springBore: fields.spring_bore,
    diameter: fields.diameter,
    wheelLoadShare: fields.wheel_load,
    unsprungMassShare: fields.unsprung_mass,
    tyreOnArch: fields.tyre_on_arch,
    lowestWheel: fields.lowest_wheel,
    friction: fields.friction,
    motionRatioShare: fields.motion_ratio,
    gasShare: fields.gas,
    tyreRateShare: fields.tyre_rate ?? 0,
    engagement: fields.engagement ?? 0,
    pitchInertiaRatio: fields.pitch_inertia_ratio ?? 0,
    reading: fields.reading,
    readingShare: fields.reading_share,
  };
}
