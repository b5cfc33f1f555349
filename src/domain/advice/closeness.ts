/**
 * How far a combination is from working: the sum of its shortfalls, each over the scale of its unit, so that
 * millimetres, newtons, megapascals and hertz can be added. The scales are this tool's own choice, stated wherever a
 * distance is shown: what a builder would find about equally hard to make up.
 */
import type { Finding } from '../corner/findings.ts';
import { unitOfCheck } from '../messages.ts';

export const SCALES: Readonly<Record<string, number>> = { mm: 10, N: 100, MPa: 50, Hz: 0.1, '': 0.1 };

/** What no amount would make up, or has no amount. */
const NO_AMOUNT = 1000;

export function distanceOf(findings: readonly Finding[]): number {
  return findings.reduce((sum, finding) => sum + distanceOne(finding), 0);
}

function distanceOne({ check, shortfall }: Finding): number {
  const scale = SCALES[unitOfCheck(check)] as number;
  return Number.isFinite(shortfall) ? shortfall / scale : NO_AMOUNT;
}
