/** Corners with every tolerance there is: with a closed stop at full bump, and with a helper at a bump load. */
import type { Tolerances } from '../../../src/model/scenario.ts';
import type { Model } from '../../../src/result/tolerance/inputs.ts';
import { noTolerances, plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';

export const tolerances: Tolerances = {
  ...noTolerances,
  ...{ freeLength: 2, rateShare: 0.03, solidHeight: 1.5, body: 1, damperLength: 1, sleeve: 0.5, perch: 0.5 },
  ...{ stopLength: 1, closedFraction: 0.03, closedFractionOfCurve: 0.03, stopForceShare: 0.2, bushGive: 1 },
  ...{ springBore: 0.3, diameter: 0.1, unsprungMassShare: 0.2, tyreOnArch: 4, lowestWheel: 4, friction: 80 },
  ...{ mount: 1, isolator: 1, wheelLoadShare: 0.02, motionRatioShare: 0.01, gasShare: 0.15 },
};

export const plain: Model = {
  site: plainSite({ tyreOnArchHeight: 230, target: { allowedSlack: 8 } }),
  corner: plainCorner(),
};
export const loaded: Model = {
  site: plainSite({ tyreOnArchHeight: 230, bump: { kind: 'load', multiple: 3 }, target: { allowedSlack: 8 } }),
  corner: plainCorner({ helper: {}, bumpStop: { length: 55, curve: stopCurve } }),
};
