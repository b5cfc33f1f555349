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
