/**
 * The checks: one record each, in the order in which a combination meets them. What shows, counts, documents or tests a
 * check reads its record; only the kernel in `src/sweep` has the same comparisons again, on columns.
 */
import { deflectionUnder, forceAt } from '../stack.ts';
import { perchAboveClosed, perchFor } from './balance.ts';
import {
  type CheckAdvice,
  type CheckRecord,
  type Demands,
  FAILINGS,
  type Failing,
  type Found,
  type Limiting,
  type Seated,
  type Sited,
} from './checkRecord.ts';
import {
  CONTACT,
  type ContactName,
  type ContactPart,
  contactLengths,
  fullLengthUnder,
  giveFor,
  marginFor,
  perchClearing,
} from './contacts.ts';
import { FIT, type FitName, fitsOf } from './fit.ts';
import { capital, mm, stressSentence } from './messages.ts';
import { balanceLimits } from './pairBalance.ts';
import { judgedFrequency } from './rates.ts';
import { type SiteLoad, standingStates } from './site.ts';
import {
  forceAllowed,
  isStressJudged,
  type StressDoubt,
  type StressLine,
  stressAtFullBump,
  stressAtSolid,
} from './stress.ts';

/** What a car misses that stands in its stop, or beyond the closed one. */
export const CLEAR_OF_STOP = 'clear of the stop';
/** Before the name of a load state that closes the stop the car may stand on. */
export const CLOSED_BY = 'closed stop:';
/** What is looked at where a spring is loose: what the seats hold, whatever a setup allows. */
export const SPIGOT_ENGAGEMENT = 'spigot engagement';
const DESIGN_LOAD = 'design load';
/** A wheel rate not above 0 once the gas has settled: the corner has no stable standing height. */
export const UNSTABLE = 'unstable';

/** What all checks of contacts share; their details are ends. */
const contact = {
  shown: 'clearance',
  unit: 'mm',
  atFullBump: true,
  say: sayContact,
  endOf: (detail: string) => detail,
} as const;

const underLoad = (end: string) => (detail: string) => (detail === DESIGN_LOAD ? end : `${end}:${detail}`);

/** What all checks of metal share; with a bump load a wound-down spring lets the damper go further in. */
const metal = (part: Exclude<ContactPart, 'spring'>) =>
  ({
    ...contact,
    part,
    below: ({ site, corner, geometry }: Sited) =>
      contactLengths(site, corner, geometry, 0)
        .filter(([name]) => CONTACT[name].part === part)
        .map(([name, length]): Limiting => {
          const needed = length + giveFor(corner, name) + marginFor(site, corner, name);
          return [name, 'perch', perchClearing(site, corner, geometry, needed)];
        }),
    find: findContacts(part),
  }) as const;

export const CHECK = {
  fit: {
    ...{ label: 'parts do not fit', letter: 'F', unit: 'mm', shown: null, isFit: true, isOnSeat: true },
    find: ({ site, corner, geometry }: Seated, { atLeast }) => {
      for (const { name, spare, needed } of fitsOf(site, corner, geometry)) atLeast(name, spare, needed);
    },
    say: (f) => FIT[f.detail as FitName].say(f),
  },
  unloaded_spring: {
    ...{ label: 'spring carries nothing', letter: 'U', unit: 'N' },
    find: ({ standing }, { above }) => above('standing', standing.springForce, 0),
    say: (f) =>
      `The spring carries nothing at ride height: gas and bump stop push ${Math.abs(f.found).toFixed(0)} N more than the load needs.`,
    shown: { words: 'spring unloaded', at: 'spring', figure: 'standing' },
    ends: { unloaded_spring: 'spring unloaded' },
    held: { unloaded: 'unloaded_spring' },
  },
  damper_bottoms: {
    ...metal('damper'),
    ...{ label: 'damper bottoms inside', letter: 'D' },
  },
  sleeve_metal: {
    ...metal('sleeve'),
    ...{ label: 'sleeve on metal', letter: 'S', isOnSeat: true },
  },
  body_metal: {
    ...metal('body'),
    ...{ label: 'body on metal', letter: 'B' },
  },
  tyre_on_arch: {
    ...metal('tyre'),
    ...{ label: CONTACT.tyre_arch.label, letter: 'A' },
  },
  bump_travel: {
    ...{ label: 'too little bump travel', letter: 'T', unit: 'mm', atStopMet: true },
    find: ({ site, corner, geometry, standing, bumpTravel, loads }, { atLeast }) => {
      const least = site.target.leastBumpTravel;
      atLeast(CLEAR_OF_STOP, standing.height - geometry.lowestStanding, 0);
      atLeast(DESIGN_LOAD, bumpTravel, least);
      for (const loaded of loads) atLeast(loaded.load.name, loaded.bumpTravel, least);
      for (const load of standingStates(site)) {
        atLeast(`${CLOSED_BY}${load.name}`, perchAboveClosed(site, corner, geometry, standing.perch, load), 0);
      }
    },
    say: (f) => {
      if (f.detail === CLEAR_OF_STOP) return `The car would stand ${mm(-f.found)} into its bump stop.`;
      if (!f.detail.startsWith(CLOSED_BY)) return sayTravel('Bump', f);
      return `Under ${f.detail.slice(CLOSED_BY.length)} the car would close its bump stop fully and rest on metal: the perch would have to be ${mm(-f.found)} higher.`;
    },
    shown: { words: 'too little bump', at: 'stop', length: 'to stop', mark: 'too little' },
    ends: { bump_stop: 'on the bump stop', bump_travel: 'least bump travel' },
    endOf: (detail) => {
      if (detail === CLEAR_OF_STOP) return 'bump_stop';
      if (detail.startsWith(CLOSED_BY)) return `bump_stop:${detail.slice(CLOSED_BY.length)}`;
      return underLoad('bump_travel')(detail);
    },
    below: (state) => {
      const { geometry, site } = state;
      const least = geometry.stopHeight + site.target.leastBumpTravel;
      return [
        ['bump_stop', 'height', geometry.lowestStanding],
        ['bump_travel', 'height', least],
        ...site.loads.map(limitUnder(state, 'bump_travel', least)),
        ...standingStates(site).map(limitUnder(state, 'bump_stop', geometry.lowestStanding)),
      ];
    },
  },
  droop_travel: {
    ...{ label: 'too little droop travel', letter: 'R', unit: 'mm' },
    find: ({ site, droopTravel, loads }, { atLeast }) => {
      const least = site.target.leastDroopTravel;
      atLeast(DESIGN_LOAD, droopTravel, least);
      for (const loaded of loads) atLeast(loaded.load.name, loaded.droopTravel, least);
    },
    say: (f) => sayTravel('Droop', f),
    shown: { words: 'too little droop', at: 'body', figure: 'droop' },
    ends: { droop: 'full droop', droop_travel: 'least droop travel' },
    endOf: underLoad('droop_travel'),
    above: (state) => {
      const { geometry, site } = state;
      const least = geometry.droopHeight - site.target.leastDroopTravel;
      return [
        ['droop', 'height', geometry.droopHeight],
        ['droop_travel', 'height', least],
        ...site.loads.map(limitUnder(state, 'droop_travel', least)),
      ];
    },
  },
  perch_low: {
    ...{ label: 'perch below its lowest place', letter: 'L', unit: 'mm', isOnSeat: true },
    find: ({ standing, geometry }: Seated, { atLeast }) => atLeast('lowest', standing.perch, geometry.perchLowest),
    say: (f) => `The perch would have to be at ${mm(f.found)}, below its lowest place ${mm(f.needed)}.`,
    shown: { length: 'perch', mark: 'too low' },
    ends: { perch_low: 'perch at its lowest' },
    endOf: () => 'perch_low',
    below: ({ geometry }) => [['perch_low', 'perch', geometry.perchLowest]],
  },
  perch_high: {
    ...{ label: 'perch above its highest place', letter: 'H', unit: 'mm', isOnSeat: true },
    find: ({ standing, geometry }: Seated, { atMost }) => atMost('highest', standing.perch, geometry.perchHighest),
    say: (f) => `The perch would have to be at ${mm(f.found)}, above its highest place ${mm(f.needed)}.`,
    shown: { length: 'perch', mark: 'too high' },
    ends: { perch_high: 'perch at its highest' },
    endOf: () => 'perch_high',
    above: ({ geometry }) => [['perch_high', 'perch', geometry.perchHighest]],
  },
  coil_bind: {
    ...contact,
    ...{ label: CONTACT.coil_bind.label, letter: 'C', part: 'spring' },
    find: findContacts('spring'),
    // Above it the spring, its margin short of solid, would be squeezed further at full bump.
    above: ({ site, corner, geometry }) => {
      const { stack, seatBelowShoulder } = geometry;
      const short = giveFor(corner, 'coil_bind') + marginFor(site, corner, 'coil_bind');
      const deflection = Math.max(0, stack.freeLength - stack.solidLength - short);
      const full = fullLengthUnder(site, corner, geometry, forceAt(stack, deflection));
      return [['coil_bind', 'perch', full - seatBelowShoulder - stack.solidLength - short]];
    },
  },
  spring_loose: {
    ...{ label: 'spring loose at droop', letter: 'N', unit: 'mm', isOnSeat: true },
    find: ({ slack, site, corner }: Seated, { atMost }) => {
      atMost('allowed slack', slack, site.target.allowedSlack);
      atMost(SPIGOT_ENGAGEMENT, slack, corner.perch.engagement);
    },
    say: (f) =>
      f.detail === SPIGOT_ENGAGEMENT
        ? `At full droop the spring is ${mm(f.found)} loose, more than the ${mm(f.needed)} its seats hold: it can leave its seat.`
        : `At full droop the spring is ${mm(f.found)} loose; ${mm(Math.max(0, f.needed))} is allowed.`,
    shown: { words: 'loose at droop', at: 'seat', length: 'slack', mark: 'too much' },
    ends: { spring_loose: 'spring loose at droop' },
    endOf: () => 'spring_loose',
    below: ({ geometry, site, corner }) => {
      const allowed = Math.min(site.target.allowedSlack, corner.perch.engagement);
      const { droopLength, seatBelowShoulder, stack } = geometry;
      return [['spring_loose', 'perch', droopLength - seatBelowShoulder - stack.freeLength - allowed]];
    },
  },
  overstressed: {
    ...{ label: 'spring overstressed', letter: 'X', unit: 'MPa', atFullBump: true },
    // Pressed solid is a property of the spring that no height changes.
    find: (state, { atMost }) => {
      const { spring } = state.corner;
      if (!isStressJudged(spring)) return;
      const [solid, full] = [stressAtSolid(spring), stressAtFullBump(state)] as [StressLine, StressLine];
      atMost('solid', solid.stress, solid.allowed);
      atMost('full bump', full.stress, full.allowed);
    },
    say: (f) => stressSentence(f.detail as StressDoubt['place'], { stress: f.found, allowed: f.needed }),
    shown: { words: 'spring overstressed', at: 'spring', figure: 'full' },
    ends: { overstressed: 'spring overstressed at full bump' },
    above: ({ site, corner, geometry }) => {
      const { stack, seatBelowShoulder } = geometry;
      const force = forceAllowed(corner.spring);
      if (force === Number.POSITIVE_INFINITY) return [];
      const gap = stack.freeLength - deflectionUnder(stack, force);
      return [['overstressed', 'perch', fullLengthUnder(site, corner, geometry, force) - seatBelowShoulder - gap]];
    },
  },
  frequency: {
    ...{ label: 'frequency outside its window', letter: 'Q', unit: 'Hz' },
    find: (state, { above, atLeast, atMost }) => {
      const { settledWheel } = state.rates;
      const { frequencyFrom, frequencyTo } = state.site.target;
      above(UNSTABLE, settledWheel, 0);
      if (!(settledWheel > 0)) return;
      const hertz = judgedFrequency(state);
      atLeast('lowest', hertz, frequencyFrom);
      atMost('highest', hertz, frequencyTo);
    },
    say: (f) =>
      f.detail === UNSTABLE
        ? `No stable ride height: the wheel rate is ${f.found.toFixed(2)} N/mm, and must be above 0.`
        : `The frequency is ${f.found.toFixed(3)} Hz, ${side(f)} the ${f.needed.toFixed(3)} Hz asked for.`,
    shown: { words: 'frequency outside', at: 'spring' },
    ends: { frequency_from: 'lowest frequency asked for', frequency_to: 'highest frequency asked for' },
    held: { slowest: 'frequency_from', fastest: 'frequency_to' },
  },
  balance: {
    ...{ label: 'front and rear out of balance', letter: 'E', unit: '', shown: null },
    findPair: (front, rear, balance, { atLeast, atMost }) => {
      const ratio = rear / front;
      // A corner without a frequency fails already.
      if (Number.isNaN(ratio)) return;
      const { from, to } = balanceLimits(balance);
      atLeast('lowest', ratio, from);
      atMost('highest', ratio, to);
    },
    say: (f) => `Rear over front frequency is ${f.found.toFixed(3)}, ${side(f)} ${f.needed.toFixed(3)}.`,
  },
} as const satisfies Record<string, CheckRecord>;

export type CheckName = keyof typeof CHECK;

/** What each asks of a combination, for someone who reads its name for the first time; apart, so that no page carries it. */
export const CHECK_MEANINGS: Readonly<Record<CheckName, string>> = {
  fit: 'what passes through or over another part has the passing clearance; nut and jam nut sit on full thread',
  unloaded_spring: 'at ride height the spring carries load: gas and bump stop do not hold the car alone',
  damper_bottoms: 'at full bump the damper keeps its margin to metal on metal inside',
  sleeve_metal: 'at full bump the sleeve keeps its margin to isolator, flange, washers and plate',
  body_metal: 'at full bump the damper body keeps its margin to isolator and flange',
  tyre_on_arch: 'at full bump the tyre keeps its margin to the arch',
  bump_travel: 'in every load state the least bump travel is left, and the car stands clear of its stop',
  droop_travel: 'in every load state the least droop travel is left',
  perch_low: 'the perch that gives the ride height is not below its lowest place, down on its lock ring',
  perch_high: 'nor above its highest, at the sleeve’s top',
  coil_bind: 'at full bump the spring keeps its margin to coil bind',
  spring_loose: 'at full droop the spring is no looser than allowed, and never more than its seats hold',
  overstressed:
    'the wire bears its stress, pressed solid and at full bump; a warning where wire or material is not given',
  frequency: 'the wheel rate is stable and the frequency lies between the setup’s limits',
  balance: 'rear over front frequency lies within the limits',
};

/** Below nothing the parts meet: metal on metal, coil on coil, a part that does not go over another. */
const meets = ({ found }: Pick<Found, 'found'>): Failing => (found < 0 ? 'metal' : 'margin');
const asked = (): Failing => 'wish';

/** What advice asks of each; apart, too. */
export const CHECK_ADVICE: Readonly<Record<CheckName, CheckAdvice>> = {
  fit: { decidedBy: ['damper set', 'sleeve', 'perch', 'stack'], failing: meets },
  unloaded_spring: { decidedBy: ['stack'], failing: () => 'seat' },
  damper_bottoms: { decidedBy: ['damper set'], failing: meets },
  sleeve_metal: { decidedBy: ['sleeve'], failing: meets },
  body_metal: { decidedBy: ['damper set'], failing: meets },
  tyre_on_arch: { decidedBy: ['damper set'], failing: meets },
  bump_travel: { decidedBy: ['damper set'], failing: asked },
  droop_travel: { decidedBy: ['damper set'], failing: asked },
  perch_low: { decidedBy: ['perch'], failing: asked },
  perch_high: { decidedBy: ['sleeve', 'perch'], failing: asked },
  coil_bind: { decidedBy: ['stack'], failing: meets },
  spring_loose: {
    decidedBy: ['perch', 'stack'],
    // A spring that is loose at its ride height is held by nothing.
    failing: ({ detail }) => (detail === SPIGOT_ENGAGEMENT ? 'seat' : 'wish'),
  },
  // Stress beyond what is allowed breaks nothing at once.
  overstressed: { decidedBy: ['stack'], failing: () => 'margin' },
  frequency: { decidedBy: ['stack'], failing: asked },
  balance: { decidedBy: ['pair'], failing: asked },
};

/** In their fixed order: a rejected combination is counted at the first one it fails. */
export const CHECKS = Object.keys(CHECK) as CheckName[];

/** The record of a check, with all that any may have. */
export function recordOf(check: CheckName): CheckRecord {
  return CHECK[check];
}

type NamesWith<K extends string> = {
  [N in CheckName]: (typeof CHECK)[N] extends Readonly<Record<K, unknown>> ? N : never;
}[CheckName];
export type CornerCheckName = NamesWith<'find'>;
export type PairCheckName = NamesWith<'findPair'>;
export type SeatCheckName = NamesWith<'isOnSeat'>;

export const PAIR_CHECKS = CHECKS.filter((name): name is PairCheckName => 'findPair' in CHECK[name]);
export const CORNER_CHECKS = CHECKS.filter((name): name is CornerCheckName => 'find' in CHECK[name]);
/** They reject at the load of either side, too, while all others of a side warn. */
export const METAL_CHECKS = CHECKS.filter((name) => recordOf(name).part !== undefined);

/** The worst of what a build fails; null: it works. */
export function worstFailing(
  findings: readonly (Omit<Found, 'needed'> & { readonly check: CheckName })[],
): Failing | null {
  const all = new Set(findings.map((finding) => CHECK_ADVICE[finding.check].failing(finding)));
  return FAILINGS.find((failing) => all.has(failing)) ?? null;
}

/** The sentence of a finding. */
export function findingMessage({ check, ...found }: Found & { readonly check: CheckName }): string {
  return recordOf(check).say(found);
}

type KeysOf<T> = T extends unknown ? keyof T : never;
/** An end of the height window, e.g. `perch_low`, `coil_bind`, `frequency_to`; with a load state or a side, `bump_travel:two up`. */
export type EndName = KeysOf<(typeof CHECK)[NamesWith<'ends'>]['ends']> | ContactName;
export type LimitName = EndName | `${EndName}:${string}`;

const END_LABELS = Object.fromEntries([
  ...Object.entries(CONTACT).map(([name, { label }]) => [name, label]),
  ...CHECKS.flatMap((name) => Object.entries(recordOf(name).ends ?? {})),
]) as Readonly<Record<EndName, string>>;

/** What a person calls a limit that ends a height window. */
export function limitLabel(limit: LimitName): string {
  const [name, state] = limit.split(':') as [EndName, string?];
  return state === undefined ? END_LABELS[name] : `${END_LABELS[name]} (${state})`;
}

/** What a finding ends a range at, by the names of the height window's ends where it has one. */
export function limitName({ check, detail }: Pick<Found, 'detail'> & { readonly check: CheckName }): string {
  const { endOf, label } = recordOf(check);
  return endOf === undefined ? label : limitLabel(endOf(detail) as LimitName);
}

function findContacts(part: ContactPart) {
  /** Metal at the mean load and, where they were weighed, at the load of either side. */
  return ({ contacts, sides }: Seated, { atLeast }: Demands): void => {
    for (const { name, clearance, margin } of contacts) {
      if (CONTACT[name].part === part) atLeast(name, clearance, margin);
    }
    for (const at of sides) {
      for (const { name, clearance, margin } of at.contacts) {
        if (CONTACT[name].part === part) atLeast(`${name}:${at.name}`, clearance, margin);
      }
    }
  };
}

/** The perch that holds a height under a load state. */
function limitUnder({ site, corner, geometry }: Sited, end: string, height: number) {
  return ({ name, sprungLoad }: SiteLoad): Limiting => [
    `${end}:${name}`,
    'perch',
    perchFor(site, corner, geometry, height, sprungLoad),
  ];
}

function sayContact(f: Found): string {
  const [name, at] = f.detail.split(':') as [ContactName, string?];
  const { label } = CONTACT[name];
  const what = at === undefined ? label : `${at} side, at its own load: ${label}`;
  const how = f.found < 0 ? `before full bump, by ${mm(-f.found)}` : `with only ${mm(f.found)} to spare at full bump`;
  return `${capital(what)} ${how}; the margin asks for ${mm(f.needed)}.`;
}

function sayTravel(way: string, f: Found): string {
  const state = f.detail === DESIGN_LOAD ? '' : ` (${f.detail})`;
  return `${way} travel left${state} is ${mm(f.found)}; at least ${mm(f.needed)} is asked for.`;
}

function side({ detail }: Found): string {
  return detail === 'lowest' ? 'below' : 'above';
}
