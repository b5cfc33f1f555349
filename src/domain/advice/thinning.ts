/** Option lists thinned evenly, where looking at all of them would take too long; what does it says so. */
import { AXLE_NAMES, type AxleOptions, FAMILIES, type Scenario } from '../scenario.ts';

/**
 * Which options of each family (all but the springs) are looked at: all of them, or evenly thinned lists with both
 * ends kept, the longest list thinned first, until at most `most` combinations are left.
 */
export function pickedDigits(options: AxleOptions, most: number): number[][] {
  const families = FAMILIES.slice(0, -1);
  const sizes = families.map((f) => options[f].length);
  while (sizes.reduce((n, size) => n * size, 1) > Math.max(1, most)) {
    const longest = sizes.indexOf(Math.max(...sizes));
    sizes[longest] = Math.max(1, (sizes[longest] as number) - Math.ceil((sizes[longest] as number) / 8));
  }
  return families.map((f, k) => evenly(options[f].length, sizes[k] as number));
}

function evenly(count: number, keep: number): number[] {
  if (keep === 1) return [0];
  return Array.from({ length: keep }, (_, k) => Math.round((k * (count - 1)) / (keep - 1)));
}

/** The scenario with both axles' lists thinned, all springs kept, to about `most` combinations over all setups. */
export function thinned(scenario: Scenario, most: number): Scenario {
  const axles = AXLE_NAMES.map((axle) => {
    const { options } = scenario.axles[axle];
    const share = most / (2 * scenario.setups.length * options.spring.length);
    const picked = pickedDigits(options, Math.floor(share));
    const lists = picked.map((digits, k) => {
      const family = FAMILIES[k] as keyof AxleOptions;
      return [family, digits.map((digit) => options[family][digit])];
    });
    const thin = { ...options, ...Object.fromEntries(lists) } as AxleOptions;
    return [axle, { ...scenario.axles[axle], options: thin }];
  });
  return { ...scenario, axles: Object.fromEntries(axles) as Scenario['axles'] };
}
