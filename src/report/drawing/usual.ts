/** What nobody gave is drawn as such parts usually are. All in mm. */

/** Shares of the body's diameter and of the spring's bore that such parts usually have. */
const USUAL_ROD_SHARE = 0.3;
const USUAL_WIRE_SHARE = 1 / 6;

export const USUAL_PLATE = 4;
export const USUAL_NUT = 9;

/** Wire as thick as usual for the bore, with as many turns as its solid height holds, the two ends dead. */
export function usualWire({ bore, solid }: { readonly bore: number; readonly solid: number }) {
  const diameter = bore * USUAL_WIRE_SHARE;
  const total = solid / diameter;
  return { diameter, active: total - 2, total, isKnown: false };
}

/** From the rod's area (mm2), or from the body where nobody gave that. */
export function rodDiameterOf(area: number | null, bodyDiameter: number): number {
  return area === null ? USUAL_ROD_SHARE * bodyDiameter : Math.sqrt((4 * area) / Math.PI);
}
