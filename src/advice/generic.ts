/** Parts that are in no list: what is tried where nothing works. Their sizes are estimates of what can be bought. */
import type { Corner } from '../model/corner/site.ts';
import type { Helper, Spring } from '../model/parts.ts';
import { COMMON_SPRING, resolveSpring } from '../model/spring/spring.ts';

/** Helpers of flat wire, mm and N/mm: common practice, no source. */
const HELPER_SIZES = [
  { freeLength: 50, blockHeight: 12, rate: 3, coupler: 4 },
  { freeLength: 80, blockHeight: 18, rate: 3, coupler: 4 },
] as const;

/** Generic helpers of a bore, mm; their names tell their sizes. */
export function genericHelpers(bore: number): Helper[] {
  return HELPER_SIZES.map((sizes) => {
    const { freeLength, blockHeight, rate, coupler } = sizes;
    const name = `generic helper, ${freeLength} mm long, ${blockHeight} mm at block, ${rate} N/mm, with a ${coupler} mm coupler (estimate; common practice, no source)`;
    return { name, price: null, ...sizes, bore, couplerBore: bore };
  });
}

/** Ends of an estimated solid height: the one coil bind is judged on, and the least it could be. */
export type SolidEnd = 'judged' | 'least';

/** A spring of which only length, rate and bore are known: everything else by the rules of estimates. */
export function genericSpring(freeLength: number, rate: number, bore: number, end: SolidEnd = 'judged'): Spring {
  const { thinStressShare, thickStressShare } = COMMON_SPRING.estimate;
  return resolveSpring({
    name: `${freeLength} mm, ${rate} N/mm`,
    ...{ price: null, freeLength, rate, bore, solidHeight: null, wire: null, totalCoils: null, coating: null },
    ends: null,
    estimate: {
      ...COMMON_SPRING.estimate,
      shearModulus: null,
      thickStressShare: end === 'judged' ? thickStressShare : thinStressShare,
    },
  });
}

/** The bore of a corner's spring, or what goes over its sleeve and the perch's spigot where that does not, mm. */
export function boreOver({ spring, sleeve, perch }: Corner, passing: number): number {
  const over = Math.max(sleeve.outerDiameter + passing, perch.spigotDiameter ?? 0);
  return spring.bore >= over ? spring.bore : Math.ceil(over);
}
