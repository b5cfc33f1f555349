/** The checks in their fixed order: a rejected combination is counted at the first one it fails. */
export const CHECKS = [
  'fit',
  'unloaded_spring',
  'damper_bottoms',
  'sleeve_metal',
  'body_metal',
  'tyre_on_arch',
  'bump_travel',
  'droop_travel',
  'perch_low',
  'perch_high',
  'coil_bind',
  'spring_loose',
  'overstressed',
  'frequency',
  'balance',
] as const;
export type CheckName = (typeof CHECKS)[number];

/** The checks for metal on metal: they reject at the load of either side, too, while all others of a side warn. */
export const METAL_CHECKS = ['damper_bottoms', 'sleeve_metal', 'body_metal', 'tyre_on_arch', 'coil_bind'] as const;

/** The checks of one corner; balance is the pair's. */
export const CORNER_CHECKS = CHECKS.filter((name) => name !== 'balance');

export const CHECK_LABELS: Readonly<Record<CheckName, string>> = {
  fit: 'parts do not fit',
  unloaded_spring: 'spring carries nothing',
  damper_bottoms: 'damper bottoms inside',
  sleeve_metal: 'sleeve on metal',
  body_metal: 'body on metal',
  tyre_on_arch: 'tyre on arch',
  bump_travel: 'too little bump travel',
  droop_travel: 'too little droop travel',
  perch_low: 'perch below its lowest place',
  perch_high: 'perch above its highest place',
  coil_bind: 'coil bind',
  spring_loose: 'spring loose at droop',
  overstressed: 'spring overstressed',
  frequency: 'frequency outside its window',
  balance: 'front and rear out of balance',
};

/** What each check asks of a combination, in a sentence for someone who reads its name for the first time. */
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

/** What a build that fails does, the worst first. */
export const FAILINGS = ['metal', 'seat', 'margin', 'wish'] as const;
export type Failing = (typeof FAILINGS)[number];

/** In few words, and as a sentence begins that goes on with how many builds. */
export const FAILING_LABELS: Readonly<Record<Failing, string>> = {
  metal: 'metal meets',
  seat: 'spring can leave its seat',
  margin: 'margin eaten into',
  wish: 'wish missed',
};

interface Found {
  readonly check: CheckName;
  readonly detail: string;
  readonly found: number;
}

/** Below nothing the parts meet: metal on metal, coil on coil, a part that does not go over another. */
const meets = ({ found }: Found): Failing => (found < 0 ? 'metal' : 'margin');
const asked = (): Failing => 'wish';

/** A spring that is loose at its ride height is held by nothing; stress beyond what is allowed breaks nothing at once. */
const FAILING_OF: Readonly<Record<CheckName, (finding: Found) => Failing>> = {
  fit: meets,
  unloaded_spring: () => 'seat',
  damper_bottoms: meets,
  sleeve_metal: meets,
  body_metal: meets,
  tyre_on_arch: meets,
  bump_travel: asked,
  droop_travel: asked,
  perch_low: asked,
  perch_high: asked,
  coil_bind: meets,
  spring_loose: ({ detail }) => (detail === SPIGOT_ENGAGEMENT ? 'seat' : 'wish'),
  overstressed: () => 'margin',
  frequency: asked,
  balance: asked,
};

/** What is looked at where a spring is loose: what the seats hold, whatever a setup allows. */
export const SPIGOT_ENGAGEMENT = 'spigot engagement';

/** The worst of what a build fails; null: it works. */
export function worstFailing(findings: readonly Found[]): Failing | null {
  const all = new Set(findings.map((finding) => FAILING_OF[finding.check](finding)));
  return FAILINGS.find((failing) => all.has(failing)) ?? null;
}
