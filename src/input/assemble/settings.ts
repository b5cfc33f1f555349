/** Setups, margins, ranking and tolerances under the names the model uses. */
import type { AxleTarget, LoadCase, Margins, Ranking, Setup, Tolerances } from '../../domain/scenario.ts';
import type { MarginFields, RankingFields, ToleranceFields } from '../schema/settings.ts';
import type { SetupFields } from '../schema/setup.ts';

export function setupOf(fields: SetupFields): Setup {
  return {
    name: fields.name,
    axles: { front: targetOf(fields.front), rear: targetOf(fields.rear) },
    balance: fields.balance,
    bump: fields.bump === 'closed' ? { kind: 'closed' } : { kind: 'load', multiple: fields.bump.load },
    standingOnStop: fields.standing_on_stop,
    frequencyBasis: fields.frequency_basis,
    loadStates: fields.load_states.map(({ name, front, rear }) => ({ name, extra: { front, rear } })),
    loadCases: fields.load_cases.map(loadCaseOf),
  };
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
  return { coilBind: coil_bind, damper, sleeve, body, tyre, passing };
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
    closedFraction: fields.closed_fraction,
    mount: fields.mount,
    isolator: fields.isolator,
    wheelLoadShare: fields.wheel_load,
    motionRatioShare: fields.motion_ratio,
    gasShare: fields.gas,
  };
}
